import { getOrMake } from '../../ledger/get-or-make.js'
import type { Treatment } from '../../ledger/treatments.js'
import { addMonths, isoOf } from '../../measure/calendar.js'
import { convert, parseQuantity } from '../../measure/quantities.js'
import type { Day } from '../../types.js'
import { sprayApplication } from '../example-applications.js'
import { labelIsLaw } from '../label-is-law.js'
import { siteRule } from '../rule.js'
import { sprayLabel } from './example-ledgers.js'
import type { LabelledTreatment } from './labelled-treatments.js'
import { labelledTreatments, productName, restsOn } from './labelled-treatments.js'

export const labelIntervalTooShort = siteRule<{
  product: string
  areas: readonly string[]
  before: string
  interval: string
  next: string
}>({
  id: 'label-interval-too-short',
  title: 'a product was applied again sooner than its label allows',
  level: 'error',
  judgedOn: 'the day of the second application; the label in force then',
  why: 'The interval lets what was applied work and break down; applied again before, it adds up beyond what the label was judged for.',
  remedy:
    'Hold both days against the paper and `interval` in product.yaml against the printed label. If they are right, tell the coordinator; the next one waits for the interval, and what is caught meanwhile asks for another tactic.',
  source: labelIsLaw,
  actor: 'technician',
  gap: false,
  says: ({ product, areas, before, interval, next }) =>
    `${product} had been applied in ${areas.map((area) => `\`${area}\``).join(', ')} on ${before}; the label asks for ${interval} between two applications: not before ${next}.`,
  *check(view) {
    for (const { use, before, areas, interval } of tooSoon(view.treatments, [...labelledTreatments(view)]))
      yield {
        args: {
          product: productName(use.treatment),
          areas,
          before: isoOf(before.day),
          interval,
          next: isoOf(earliestAfter(before.day, interval) ?? before.day),
        },
        at: use.treatment.at('product'),
        related: [{ place: before.at('product'), says: 'the application before' }],
        from: use.treatment.day,
        ...restsOn(use.treatment),
      }
  },
  failing: `${sprayLabel('interval: 14 days')}${sprayApplication('2026-03-06')}${sprayApplication('2026-03-19', 'product: spray-a # expect: label-interval-too-short')}`,
  passing: `${sprayLabel('interval: 14 days')}${sprayApplication('2026-03-06')}${sprayApplication('2026-03-20')}`,
})

export interface TooSoon {
  readonly use: LabelledTreatment
  /** The nearest application before it in any of the areas. */
  readonly before: Treatment
  readonly areas: readonly string[]
  readonly interval: string
}

/**
 * Applications that followed another of the same product in the same area too soon. Two records of one day are taken
 * as one application that two people carried out; bait put into a device again is no new application.
 */
export function* tooSoon(
  treatments: readonly Treatment[],
  uses: readonly LabelledTreatment[],
): Iterable<TooSoon> {
  const last = new Map<string, Treatment[]>()
  const judged = new Map(uses.map((use) => [use.treatment, use]))
  for (const treatment of treatments) {
    if (!treatment.application) continue
    const use = judged.get(treatment)
    const interval = use?.label.says.interval
    const sooner: { readonly area: string; readonly before: Treatment }[] = []
    for (const { id } of treatment.areas) {
      const earlier = getOrMake(last, `${treatment.productId} ${id}`, () => [])
      const before = earlier.findLast(({ day }) => day < treatment.day)
      const next = before && interval !== undefined ? earliestAfter(before.day, interval) : undefined
      if (before && next !== undefined && treatment.day < next) sooner.push({ area: id, before })
      earlier.push(treatment)
    }
    const nearest = sooner.reduce<Treatment | undefined>(
      (a, { before: b }) => (a && a.day >= b.day ? a : b),
      undefined,
    )
    if (use && nearest && interval !== undefined)
      yield { use, before: nearest, areas: sooner.map(({ area }) => area), interval }
  }
}

/** First day after an interval: whole days, or by the calendar where it is in months. */
function earliestAfter(day: Day, interval: string): Day | undefined {
  const quantity = parseQuantity(interval)
  if (!quantity) return undefined
  if (quantity.dimension === 'calendar') {
    // A part of a month has no day of its own.
    const months = convert(quantity, 'month')?.value
    return months === undefined ? undefined : addMonths(day, Math.floor(months))
  }
  const days = convert(quantity, 'day')?.value
  return days === undefined ? undefined : day + Math.ceil(days)
}
