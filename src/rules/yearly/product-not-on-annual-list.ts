import { compareText } from '../../ledger/compare-text.js'
import type { DistrictView } from '../../ledger/district-view.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { YearlyUse } from '../../ledger/site-digest.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import type { Finding } from '../rule.js'
import { districtRule } from '../rule.js'
import { annualNotice, underYearlyDuty } from './example-ledgers.js'
import { askedByRulebooks, filingWords } from './words.js'
import type { NamedYear, YearlyDuty } from './years.js'
import { dueDay, dutiesOfYear, filingsAreWhole, yearOfDay } from './years.js'

type Filing = LoadedEvent<'filing'>

type ListArgs = {
  readonly product: string
  readonly what: string
  readonly year: string
  /** Where and when it was used, for a list that is missing a use. */
  readonly used: string
  /** How many later uses there were. */
  readonly more: number
}

export const productNotOnAnnualList = districtRule<ListArgs>({
  id: 'product-not-on-annual-list',
  title: 'a product was used that the list of that year does not name',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'Whoever read the list has been told that this was not used; it was.',
  remedy:
    'Before a product is used that the annual notice does not name, tell all parents and staff of that application: a notice with `sent: {to: everyone}`. Then send an amended list as a further filing, and name the product in reports under `products`.',
  source: askedByRulebooks,
  actor: 'coordinator',
  gap: true,
  says: ({ product, what, year, used, more }) => {
    const later = more === 0 ? '' : `, nor on ${more} later ${more === 1 ? 'use' : 'uses'}`
    return used === ''
      ? `No ${what} for ${year} sent by then names ${product}, and no notice of this application to everyone is recorded before it${later}.`
      : `The ${what} for ${year} does not name ${product}, which was used ${used}.`
  },
  *check(view, digests) {
    if (!filingsAreWhole(view)) return
    const found = new Map<string, Offence[]>()
    for (const { yearlyUses } of digests) {
      for (const use of yearlyUses) {
        const offence = offenceOf(view, use)
        if (offence) getOrMake(found, offence.key, () => []).push(offence)
      }
    }
    for (const offences of found.values()) yield* findingsOf(offences)
  },
  failing: `${underYearlyDuty('to: everyone, lists-products: yes')}
${annualNotice('to: everyone\nproducts: [spray-a]')}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 station} # expect: product-not-on-annual-list
`,
  passing: `${underYearlyDuty('to: everyone, lists-products: yes')}
${annualNotice('to: everyone\nproducts: [bait-a]')}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 station}
`,
})

/** A use that a list should name and does not. */
export interface Offence {
  readonly key: string
  readonly use: YearlyUse
  readonly duty: YearlyDuty
  readonly year: NamedYear
  readonly filings: readonly Filing[]
  readonly from: Day
  readonly until?: Day
}

export function offenceOf(view: DistrictView, use: YearlyUse): Offence | undefined {
  const duty = view.rulebooks
    .duties('yearly', use.day)
    .find(({ rulebook, name }) => rulebook === use.rulebook && name === use.duty)
  if (duty?.says['lists-products'] !== 'yes') return undefined
  const year = yearOfDay(view, duty.says.year, use.day)
  if (!year) return undefined
  const { what } = duty.says
  const filings = view.filings.filter(({ data }) => data.what === what && data.year === year.name)
  const named = filings.find(({ data }) => data.products?.includes(use.product))
  const offence = { key: `${what} ${year.name} ${use.product}`, use, duty, year, filings, from: use.day }
  if (what === 'annual-notice') {
    if (use.toldAll) return undefined
    const inSite = { ...offence, key: `${offence.key} ${use.site}` }
    const first = filings[0]
    if (duty.says['days-from-start'] !== undefined) {
      // There is a time for the list to go out; until it does, only that it is overdue could be told.
      if (!first) return undefined
      const from = Math.max(first.day, use.day)
      return named !== undefined && named.day <= from ? undefined : { ...inSite, from }
    }
    if (named !== undefined && named.day <= use.day) return undefined
    if (first) return inSite
    // Once the notice as a whole is overdue, that is what is told; where it was not asked, it may have gone out before.
    if (!isAskedFor(view, duty, year)) return undefined
    return { ...inSite, until: Math.max(dueDay(year, duty.says), use.day) + 1 }
  }
  const from = Math.max(filings[0]?.day ?? 0, use.day)
  if (filings.length === 0 || (named !== undefined && named.day <= from)) return undefined
  return { ...offence, from, ...(named ? { until: named.day } : {}) }
}

function isAskedFor(view: DistrictView, duty: YearlyDuty, year: NamedYear): boolean {
  if (year.first < view.recordsBegin) return false
  return dutiesOfYear(view, duty.says.year, year).some(
    ({ rulebook, name }) => rulebook === duty.rulebook && name === duty.name,
  )
}

/** One finding for a product and a year: at its first use there, or at the report that leaves it out. */
function* findingsOf(offences: Offence[]): Iterable<Finding<ListArgs>> {
  offences.sort((a, b) => a.use.day - b.use.day || compareText(a.use.at.file, b.use.at.file))
  const first = offences[0]
  if (!first) return
  const { use, duty, year, filings, from, until } = first
  const { what } = duty.says
  const sources = [...new Map(offences.map((one) => [one.duty.citation.text, one.duty.citation])).values()]
  const facts = {
    from,
    ...(until === undefined ? {} : { until }),
    identity: [use.product, what, year.name],
    sources,
    level: levelOfDuty(sources),
  }
  const args = { product: use.productName, what: filingWords[what], year: year.name }
  if (what === 'annual-notice') {
    const places = new Set(offences.map(({ use: { day, at } }) => `${day} ${at.file} ${at.path.join('.')}`))
    yield { args: { ...args, used: '', more: places.size - 1 }, at: use.at, ...facts }
    return
  }
  const [report] = filings
  if (!report) return
  yield {
    args: { ...args, used: `in ${use.site} on ${isoOf(use.day)}`, more: 0 },
    at: { file: report.file, path: [report.data.products === undefined ? 'what' : 'products'] },
    related: [{ place: use.at, says: 'it was used here' }],
    ...facts,
  }
}
