import type { Treatment } from '../../ledger/treatments.js'
import { addMonths } from '../../measure/calendar.js'
import type { Quantity } from '../../measure/quantities.js'
import { parseQuantity } from '../../measure/quantities.js'
import type { Sums } from '../../measure/rates.js'
import { withOne } from '../../measure/rates.js'
import type { Day } from '../../types.js'
import { wholeAmount } from './amounts.js'

/** What was used of a product at a site in the twelve months that end with a treatment. */
export interface YearTo {
  readonly treatment: Treatment
  /** Days on which it was applied, in each area; two records of one day are one application. */
  readonly daysIn: ReadonlyMap<string, number>
  readonly days: number
  /** Amounts that are recorded, whether applied or put into devices. */
  readonly sums: Sums
}

/**
 * Twelve months to each treatment of one product, by a window that slides: what lies twelve whole months back, by the
 * calendar, is out of it. `treatments` are of one product, by day.
 */
export function* yearsTo(treatments: readonly Treatment[]): Iterable<YearTo> {
  let first = 0
  let sums: Sums = new Map()
  const applied = new Map<string, Map<Day, number>>()
  const count = ({ day, application, areas }: Treatment, by: 1 | -1) => {
    if (!application) return
    for (const key of new Set([anywhere, ...areas.map(({ id }) => id)])) {
      const days = applied.get(key) ?? new Map<Day, number>()
      applied.set(key, days)
      const left = (days.get(day) ?? 0) + by
      if (left === 0) days.delete(day)
      else days.set(day, left)
    }
  }
  for (const treatment of treatments) {
    for (
      let old = treatments[first];
      old && addMonths(old.day, 12) <= treatment.day;
      old = treatments[first]
    ) {
      count(old, -1)
      for (const amount of amountsOf(old)) sums = withOne(sums, amount, 'take away')
      first += 1
    }
    count(treatment, 1)
    for (const amount of amountsOf(treatment)) sums = withOne(sums, amount)
    const daysIn = new Map(treatment.areas.map(({ id }) => [id, applied.get(id)?.size ?? 0]))
    yield { treatment, daysIn, days: applied.get(anywhere)?.size ?? 0, sums }
  }
}

/** No area has this id: ids begin with a letter. */
const anywhere = ''

/** What is recorded of the amount: the whole, else whatever areas tell. */
function amountsOf(treatment: Treatment): readonly Quantity[] {
  return (
    wholeAmount(treatment) ??
    treatment.areas.flatMap(({ amount }) => (amount === undefined ? [] : (parseQuantity(amount) ?? [])))
  )
}
