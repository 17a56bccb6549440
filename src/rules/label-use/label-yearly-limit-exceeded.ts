import { getOrMake } from '../../ledger/get-or-make.js'
import type { LabelInForce } from '../../ledger/labels.js'
import { measuresOf } from '../../ledger/product-measures.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { compareFractions } from '../../measure/fractions.js'
import { exactly, parseQuantity } from '../../measure/quantities.js'
import { inUnitOf, shown, sumAs } from '../../measure/rates.js'
import type { Citation } from '../../types.js'
import { sprayApplication } from '../example-applications.js'
import { labelIsLaw } from '../label-is-law.js'
import type { Finding } from '../rule.js'
import { siteRule } from '../rule.js'
import { sprayLabel } from './example-ledgers.js'
import { labelledTreatments, productName, restsOn } from './labelled-treatments.js'
import type { YearTo } from './yearly-sums.js'
import { yearsTo } from './yearly-sums.js'

type YearlyArgs = {
  readonly product: string
  readonly used: string
  readonly most: string
  readonly where: string
  readonly more: number
  readonly perhaps: boolean
}

export const labelYearlyLimitExceeded = siteRule<YearlyArgs>({
  id: 'label-yearly-limit-exceeded',
  title: 'more of a product was used in twelve months than its label allows',
  level: 'error',
  judgedOn: 'the day of the use that goes over; the label in force then',
  why: 'A yearly limit holds down what builds up where people live, and how fast a pest learns to survive the product.',
  remedy:
    'Hold the records against the paper, and `applications-a-year` or `amount-a-year` in product.yaml against the printed label. If they are right, use no more of it there until twelve months have passed, tell the coordinator, and look for what keeps the pest coming.',
  source: labelIsLaw,
  actor: 'coordinator',
  gap: false,
  says: ({ product, used, most, where, more, perhaps }) =>
    `${used} of ${product} ${where} in the twelve months to this one; the label says at most ${most}${
      more === 0 ? '' : ` (${more} later ${more === 1 ? 'use is' : 'uses are'} over it too)`
    }.${perhaps ? ' No one area had more than that; whether the limit is for each is on the label.' : ''}`,
  *check(view) {
    for (const years of limitedYears(view)) {
      yield* tooOften(years, view)
      yield* tooMuch(years)
    }
  },
  failing: `${sprayLabel('applications-a-year: 1')}${sprayApplication('2026-03-06')}${sprayApplication('2026-03-20', 'product: spray-a # expect: label-yearly-limit-exceeded')}`,
  passing: `${sprayLabel('applications-a-year: 2')}${sprayApplication('2026-03-06')}${sprayApplication('2026-03-20')}`,
})

const printedLabelDecides: Citation = {
  kind: 'practice',
  text: 'common practice, no source: yearly limits are for each treated place unless the label says otherwise; the printed label decides',
}

export type LabelledYear = YearTo & { readonly label: LabelInForce }

/** The twelve months to each use of a product of which some label limits the year, product by product. */
export function* limitedYears(view: SiteView): Iterable<readonly LabelledYear[]> {
  const labels = new Map([...labelledTreatments(view)].map(({ treatment, label }) => [treatment, label]))
  for (const treatments of byProduct(view.treatments).values()) {
    if (!treatments.some((treatment) => isLimited(labels.get(treatment)))) continue
    yield [...yearsTo(treatments)].flatMap((year) => {
      const label = labels.get(year.treatment)
      return label ? [{ ...year, label }] : []
    })
  }
}

/** Areas in which a product was applied more often than the label lets it, and whether it was in all. */
export function overApplied({ daysIn, days, label, treatment }: LabelledYear): {
  readonly areas: readonly string[]
  readonly inAll: boolean
} {
  const limit = label.says['applications-a-year'] ?? Number.POSITIVE_INFINITY
  if (!treatment.application) return { areas: [], inAll: false }
  return {
    areas: [...daysIn].flatMap(([area, count]) => (count > limit ? [area] : [])),
    inAll: days > limit,
  }
}

function isLimited(label: LabelInForce | undefined): boolean {
  return label?.says['applications-a-year'] !== undefined || label?.says['amount-a-year'] !== undefined
}

function byProduct(treatments: readonly Treatment[]): Map<string, Treatment[]> {
  const products = new Map<string, Treatment[]>()
  for (const treatment of treatments)
    getOrMake(products, treatment.productId, () => [] as Treatment[]).push(treatment)
  return products
}

/** A limit is passed once, at the use that passes it, until a use is within it again; those between are counted. */
function passings<T>(uses: readonly T[], isOver: (use: T) => boolean): { readonly first: T; more: number }[] {
  const found: { readonly first: T; more: number }[] = []
  let before = false
  for (const use of uses) {
    const over = isOver(use)
    const last = found.at(-1)
    if (over && before && last) last.more += 1
    else if (over) found.push({ first: use, more: 0 })
    before = over
  }
  return found
}

/**
 * Labels mostly limit how often one place is treated, so more than that in one area is over any reading of the limit;
 * more only on the site as a whole may be, and is said so.
 */
function* tooOften(all: readonly LabelledYear[], view: SiteView): Iterable<Finding<YearlyArgs>> {
  const years = all.filter(({ treatment }) => treatment.application)
  const overIn = (year: LabelledYear, area: string) => overApplied(year).areas.includes(area)
  const areas = new Set(years.flatMap(({ daysIn }) => [...daysIn.keys()]))
  for (const area of areas) {
    const here = years.filter(({ daysIn }) => daysIn.has(area))
    for (const { first, more } of passings(here, (year) => overIn(year, area)))
      yield finding(first, 'applications-a-year', {
        used: `${first.daysIn.get(area)} applications`,
        where: `in \`${area}\``,
        more,
        perhaps: false,
      })
  }
  // Where one area had too many, the count of all of them says nothing more.
  if (years.some((year) => [...areas].some((area) => overIn(year, area)))) return
  for (const { first, more } of passings(years, (year) => overApplied(year).inAll))
    yield finding(first, 'applications-a-year', {
      used: `${first.days} applications`,
      where: `at ${view.site.data.name}`,
      more,
      perhaps: true,
    })
}

/** The amount of twelve months that is over the limit of the label; undefined where what is recorded is within it. */
export function usedOverLimit({ label, sums, treatment }: LabelledYear): string | undefined {
  const limit = parseQuantity(label.says['amount-a-year'] ?? '')
  const most = limit && exactly(limit)
  if (!limit || !most) return undefined
  const { product } = treatment
  const { size } = sumAs(sums, limit, product && measuresOf(product))
  return compareFractions(size, most) === 1 ? shown(inUnitOf(size, limit), limit) : undefined
}

/** What is not told, or in a unit that does not compare, could only make it more. */
function* tooMuch(years: readonly LabelledYear[]): Iterable<Finding<YearlyArgs>> {
  for (const { first, more } of passings(years, (year) => usedOverLimit(year) !== undefined))
    yield finding(first, 'amount-a-year', {
      used: usedOverLimit(first) ?? '',
      where: 'at this site',
      more,
      perhaps: false,
    })
}

function finding(
  { treatment, label }: LabelledYear,
  limit: 'applications-a-year' | 'amount-a-year',
  args: Omit<YearlyArgs, 'product' | 'most'>,
): Finding<YearlyArgs> {
  return {
    args: { product: productName(treatment), most: String(label.says[limit]), ...args },
    at: treatment.at(limit === 'amount-a-year' && treatment.amount !== undefined ? 'amount' : 'product'),
    related: [{ place: label.at(limit), says: 'the limit, as the register tells it' }],
    from: treatment.day,
    identity: [limit, args.where],
    ...(args.perhaps ? { level: 'warning' as const, sources: [printedLabelDecides] } : restsOn(treatment)),
  }
}
