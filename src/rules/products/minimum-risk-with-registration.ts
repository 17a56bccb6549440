import { dayOfUndated } from '../../ledger/undated.js'
import { kindOfNumber } from '../../measure/registration-number.js'
import type { RecordOf } from '../../records/kinds.js'
import type { Citation } from '../../types.js'
import { districtRule } from '../rule.js'
import { baitA } from './example-ledgers.js'

const unregistered: Readonly<Record<string, Citation>> = {
  'minimum-risk': {
    kind: 'law',
    text: '40 CFR 152.25(f), from memory: a minimum-risk product is exempt from registration and bears no registration number',
  },
  device: {
    kind: 'law',
    text: '40 CFR 152.500, from memory: a device is not registered; it bears an establishment number',
  },
}

/** Whether a product of a kind that is not registered has a registration number all the same. */
export function isUnregisteredWithNumber({ kind, registration: number }: RecordOf<'product'>): boolean {
  // A number that is no registration is told by its own rule.
  return unregistered[kind] !== undefined && number !== undefined && kindOfNumber(number) === 'registration'
}

export const minimumRiskWithRegistration = districtRule<{ kind: string; number: string }>({
  id: 'minimum-risk-with-registration',
  title: 'a product that is not registered by its kind has a registration number',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'Duties depend on what a product is in law; one of the two facts is wrong, and with it what is asked of every use.',
  remedy:
    'Look at the label. If it prints "EPA Reg. No.", write `kind: pesticide`; if it does not, take `registration` out. A number after "EPA Est." goes under `establishment`.',
  source: unregistered['minimum-risk'] as Citation,
  actor: 'coordinator',
  gap: false,
  says: ({ kind, number }) =>
    `The product is entered as \`${kind}\`, which is not registered, and with the registration number ${number}.`,
  *check(view) {
    for (const { id, file, data } of view.products.values()) {
      const source = unregistered[data.kind]
      const number = data.registration
      if (!source || number === undefined || !isUnregisteredWithNumber(data)) continue
      yield {
        args: { kind: data.kind, number },
        at: { file, path: ['registration'] },
        from: dayOfUndated(view),
        identity: [id],
        sources: [source],
      }
    }
  },
  failing: baitA({
    kind: 'minimum-risk',
    registration: '99999-1 # expect: minimum-risk-with-registration',
  }),
  passing: baitA({ kind: 'minimum-risk', registration: null }),
})
