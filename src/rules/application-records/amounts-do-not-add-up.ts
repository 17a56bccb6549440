import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { compareFractions } from '../../measure/fractions.js'
import { exactly, parseQuantity } from '../../measure/quantities.js'
import { inUnitOf, shown, sumAs, sumsOf } from '../../measure/rates.js'
import { baitApplication } from '../example-applications.js'
import { ledgerFormat, siteRule } from '../rule.js'

const wholes = [
  ['amount', 'amount'],
  ['extent', 'treated-extent'],
] as const

type Sum = {
  readonly what: (typeof wholes)[number][0]
  readonly parts: readonly string[]
  readonly sum: string
  readonly whole: string
}

/** Held against each other exactly, without a density: what is weighed in one place and measured in another is told. */
export const amountsDoNotAddUp = siteRule<Sum>({
  id: 'amounts-do-not-add-up',
  title: 'what is recorded area by area does not come to what is recorded in all',
  level: 'warning',
  judgedOn: 'the day of the application',
  why: 'One of the two is wrong, and rates, yearly limits and reports to the state are reckoned from them.',
  remedy:
    'Look at the paper and correct the one that is wrong, with a line under `corrections`; or leave out the amount in all, which the areas give by themselves.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ what, parts, sum, whole }) => {
    const name = what === 'amount' ? 'amounts' : 'extents'
    return sum === ''
      ? `The ${name} of the areas (${parts.join(', ')}) and the ${whole} in all do not measure the same thing, so that they cannot be held against each other.`
      : `The ${name} of the areas (${parts.join(', ')}) come to ${sum}; in all it is recorded as ${whole}.`
  },
  *check(view) {
    for (const { treatment, key, sum } of unequal(view))
      yield { args: sum, at: treatment.at(key), from: treatment.day }
  },
  failing: baitApplication(
    '2026-03-12',
    'areas: {kitchen: {amount: 2 g, placements: 8, where: dish machine, within-reach: no}, room-1: {amount: 0.5 g, placements: 2, where: void below the sink, within-reach: no}}',
    'amount: 2.25 g # expect: amounts-do-not-add-up',
  ),
  passing: baitApplication(
    '2026-03-12',
    'areas: {kitchen: {amount: 2 g, placements: 8, where: dish machine, within-reach: no}, room-1: {amount: 500 mg, placements: 2, where: void below the sink, within-reach: no}}',
    'amount: 2.5 g',
  ),
})

interface Unequal {
  readonly treatment: Treatment
  readonly key: (typeof wholes)[number][1]
  readonly sum: Sum
}

function* unequal(view: SiteView): Iterable<Unequal> {
  for (const treatment of view.treatments) {
    const { application } = treatment
    if (!application || treatment.day < view.begins) continue
    for (const [what, key] of wholes) {
      const parts = Object.values(application.areas).map((area) => area[what])
      const sum = differs(what, parts, application[key])
      if (sum) yield { treatment, key, sum }
    }
  }
}

/** Undefined where they agree, or one of them is not recorded. */
function differs(
  what: Sum['what'],
  parts: readonly (string | undefined)[],
  whole: string | undefined,
): Sum | undefined {
  const total = whole === undefined ? null : parseQuantity(whole)
  const size = total && exactly(total)
  const read = parts.flatMap((part) => (part === undefined ? [] : (parseQuantity(part) ?? [])))
  if (whole === undefined || !total || !size || read.length < parts.length) return undefined
  const together = sumAs(sumsOf(read), total)
  const texts = parts.flatMap((part) => part ?? [])
  if (together.leftOut) return { what, parts: texts, sum: '', whole }
  if (compareFractions(together.size, size) === 0) return undefined
  return { what, parts: texts, sum: shown(inUnitOf(together.size, total)), whole }
}
