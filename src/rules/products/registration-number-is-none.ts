import { dayOfUndated } from '../../ledger/undated.js'
import type { NumberKind } from '../../measure/registration-number.js'
import { kindOfNumber, registrationAppliedFor } from '../../measure/registration-number.js'
import type { RecordOf } from '../../records/kinds.js'
import { districtRule } from '../rule.js'
import { baitA } from './example-ledgers.js'

type NumberArgs = {
  readonly number: string
  readonly kind: Exclude<NumberKind, 'registration'>
  readonly appliedFor: string
}

const looksLike: Readonly<Record<NumberArgs['kind'], string>> = {
  'file-symbol': 'has the form of a file symbol, which stands for a product applied for and not registered',
  'experimental-use-permit':
    'has the form of an experimental use permit, and `registered-as: experimental` is not written here',
  establishment:
    'has the form of an establishment number, which tells where it was made and belongs under `establishment`',
  'special-local-need':
    'has the form of a special local need registration, which holds in one state and belongs under `special-local-need`',
  'california-register':
    'has the form of the register of California, which puts letters between the parts of the federal number',
  'something-else': 'has no form in which such numbers are given',
}

/** What stands as the registration number where it is none; undefined where it is one, or none is written. */
export function otherNumber({
  registration: number,
  'registered-as': registeredAs,
}: RecordOf<'product'>): NumberArgs['kind'] | undefined {
  const kind = number === undefined ? 'registration' : kindOfNumber(number)
  if (kind === 'registration') return undefined
  return kind === 'experimental-use-permit' && registeredAs === 'experimental' ? undefined : kind
}

export const registrationNumberIsNone = districtRule<NumberArgs>({
  id: 'registration-number-is-none',
  title: 'what stands as the registration number of a product is none',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'The registration number is how a notice, a poison centre and an inspector find the label; another number finds another label, or none.',
  remedy:
    'Copy the number that the label prints after "EPA Reg. No.", with all its parts: `registration: 99999-1`. What stands after "EPA Est." is the place of making: `establishment: 99999-OR-1`.',
  source: {
    kind: 'law',
    text: '40 CFR 156.10(e) and 152.132, from memory; EPA Label Review Manual, chapter 14: company, product and, where there is one, distributor',
  },
  actor: 'coordinator',
  gap: false,
  says: ({ number, kind, appliedFor }) =>
    `The registration number \`${number}\` ${looksLike[kind]}${appliedFor === '' ? '' : ` (${appliedFor} once it is)`}.`,
  *check(view) {
    for (const { id, file, data } of view.products.values()) {
      const number = data.registration
      const kind = otherNumber(data)
      if (number === undefined || kind === undefined) continue
      yield {
        args: { number, kind, appliedFor: registrationAppliedFor(number) ?? '' },
        at: { file, path: ['registration'] },
        from: dayOfUndated(view),
        identity: [id],
      }
    }
  },
  failing: baitA({ registration: '99999-EGN # expect: registration-number-is-none' }),
  passing: baitA({ registration: '099999-00001-99998' }),
})
