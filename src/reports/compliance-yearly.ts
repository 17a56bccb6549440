import type { DistrictView } from '../ledger/district-view.js'
import type { LoadedEvent } from '../ledger/loaded.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import { isoOf } from '../measure/calendar.js'
import { offenceOf } from '../rules/yearly/product-not-on-annual-list.js'
import { filingWords } from '../rules/yearly/words.js'
import { isWhole, lacking } from '../rules/yearly/yearly-filing-incomplete.js'
import type { AskedFiling } from '../rules/yearly/yearly-filing-missing.js'
import { askedFilings, isFor } from '../rules/yearly/yearly-filing-missing.js'
import type { NamedYear, YearlyDuty } from '../rules/yearly/years.js'
import { dueDay, filingsAreWhole, isInForce, yearsOf } from '../rules/yearly/years.js'
import type { Day, Row, Table } from '../types.js'
import type { Held, Part } from './compliance-duties/held.js'
import { notApplicable, notChecked, notShown, together } from './compliance-duties/held.js'
import { dutyInWords } from './compliance-duties/words.js'
import type { Period } from './period.js'

type Filing = LoadedEvent<'filing'>

/** One yearly duty, of one year that the period touches, with what the records show of it. */
export interface HeldYearly extends Held {
  readonly duty: YearlyDuty
  readonly year: NamedYear
  readonly due: Day
}

/** Every yearly duty of every year that lies in the period at least in part, or whose term ended in it. */
export function heldYearly(
  district: DistrictView,
  digests: readonly SiteDigest[],
  { from, to }: Period,
): HeldYearly[] {
  const asked = askedFilings(district, digests)
  const allRead = filingsAreWhole(district)
  return (['school', 'calendar'] as const).flatMap((kind) =>
    yearsOf(district, kind).flatMap((year) =>
      dutiesIn(district, kind, year)
        .map((duty) => ({ duty, year, due: dueDay(year, duty.says) }))
        .filter(({ due }) => year.first <= to && (year.through >= from || (due >= from && due <= to)))
        .map((one) => {
          const found = asked.find(
            ({ duty, year: other }) =>
              other.name === year.name && duty.rulebook === one.duty.rulebook && duty.name === one.duty.name,
          )
          const parts = found ? judged(district, found) : notAsked(district, asked, one)
          const answer = together([...parts, ...partsOfProducts(district, digests, one)])
          return { ...one, ...(allRead ? answer : inDoubt(answer)) }
        }),
    ),
  )
}

/** Duties in force on some day of a year: on its first, or on the last that is known of. */
function dutiesIn(district: DistrictView, kind: 'school' | 'calendar', year: NamedYear): YearlyDuty[] {
  const byName = new Map<string, YearlyDuty>()
  for (const day of [year.first, Math.min(year.through, district.asOf)])
    for (const duty of district.rulebooks.duties('yearly', day))
      if (duty.says.year === kind && !byName.has(`${duty.rulebook} ${duty.name}`))
        byName.set(`${duty.rulebook} ${duty.name}`, duty)
  return [...byName.values()]
}

function whyNotAsked(
  district: DistrictView,
  asked: readonly AskedFiling[],
  { duty, year, due }: { readonly duty: YearlyDuty; readonly year: NamedYear; readonly due: Day },
): string {
  const { says } = duty
  if (year.first < district.recordsBegin) return 'the year began before the records'
  if (!isInForce(district, duty, due)) return `not in force on ${isoOf(due)}, the day it would be due`
  if (!isInForce(district, duty, year.first)) return 'not in force on the first day of the year'
  const before = asked.find((one) => one.duty.rulebook === duty.rulebook && one.duty.name === duty.name)
  if (says.once === 'yes' && before && before.year.first < year.first)
    return `asked once, for ${before.year.name}`
  if ((says.every ?? 1) > 1) return `asked every ${says.every} years, and not in this one`
  return 'no use for which it holds is recorded in that year'
}

/** A year that began before the records is not asked as a whole; what was filed for it has to say what it has to all the same. */
function notAsked(
  district: DistrictView,
  asked: readonly AskedFiling[],
  one: { readonly duty: YearlyDuty; readonly year: NamedYear; readonly due: Day },
): Part[] {
  const parts: Part[] = [notApplicable(whyNotAsked(district, asked, one))]
  const filings = filingsFor(district, one)
  const [first] = filings
  const isEarly = one.year.first < district.recordsBegin && one.duty.says['only-if-used'] !== 'yes'
  return isEarly && first && first.day >= district.recordsBegin
    ? [...parts, ...partsOfFilings(one.duty, one.due, filings)]
    : parts
}

function filingsFor(
  district: DistrictView,
  { duty, year }: { readonly duty: YearlyDuty; readonly year: NamedYear },
): Filing[] {
  return district.filings.filter(({ data }) => data.what === duty.says.what && isFor(data.year, year, duty))
}

function judged(district: DistrictView, asked: AskedFiling): Part[] {
  const { duty, year, due, from } = asked
  const filings = filingsFor(district, asked)
  const inTime = filings.find(({ day }) => day < from)
  const [first] = filings
  if (!first)
    return from > district.asOf
      ? [notApplicable(`due by ${isoOf(due)}, after the as-of day`)]
      : [
          notShown(
            `no ${filingWords[duty.says.what]} for ${year.name} is recorded; it was due by ${isoOf(due)}`,
            'filing',
          ),
        ]
  const records = filings.map(({ file }) => file)
  return [
    inTime
      ? { outcome: 'shown', why: `filed ${isoOf(inTime.day)}`, records }
      : {
          outcome: 'not shown',
          why: `filed ${isoOf(first.day)}, after ${isoOf(due)}, the day it was due`,
          records,
        },
    ...partsOfFilings(duty, due, filings),
  ]
}

/** What was filed for a year, all together, held against what it has to say and whom it has to reach. */
function partsOfFilings({ says }: YearlyDuty, due: Day, filings: readonly Filing[]): Part[] {
  if (says.says === undefined && says.to === undefined) return []
  const records = filings.map(({ file }) => file)
  const { lacks, unreached } = lacking(says, filings)
  const parts: Part[] = []
  if (lacks.length > 0)
    parts.push({
      outcome: 'not shown',
      why: `it is not recorded to say ${lacks.join(', ')}`,
      absent: ['says'],
      records,
    })
  if (unreached.length > 0)
    parts.push({
      outcome: 'not shown',
      why: `it is not recorded as sent to ${unreached.join(' and ')}`,
      absent: ['to'],
      records,
    })
  if (parts.length > 0) return parts
  const whole = filings.find((_, at) => isWhole(says, filings.slice(0, at + 1)))
  return whole && whole !== filings[0] && whole.day > due
    ? [{ outcome: 'not shown', why: `whole only ${isoOf(whole.day)}, after the day it was due`, records }]
    : [{ outcome: 'shown', why: 'it says what is asked, to whom it has to', records }]
}

/** A list of products is asked of each use, also in a year that began before the records. */
function partsOfProducts(
  district: DistrictView,
  digests: readonly SiteDigest[],
  one: { readonly duty: YearlyDuty; readonly year: NamedYear },
): Part[] {
  const left = productsLeftOut(district, digests, one)
  if (left.length === 0) return []
  return [
    {
      outcome: 'not shown',
      why: `what was filed by then does not name ${left.join(', ')}`,
      absent: ['products'],
      records: filingsFor(district, one).map(({ file }) => file),
    },
  ]
}

/** Products used in the year that what was filed had to name and did not, each with its first such use. */
function productsLeftOut(
  district: DistrictView,
  digests: readonly SiteDigest[],
  { duty, year }: { readonly duty: YearlyDuty; readonly year: NamedYear },
): string[] {
  const found = new Map<string, string>()
  for (const { yearlyUses } of digests)
    for (const use of yearlyUses) {
      if (
        use.rulebook !== duty.rulebook ||
        use.duty !== duty.name ||
        use.day < year.first ||
        use.day > year.through
      )
        continue
      const offence = offenceOf(district, use)
      const stands = offence && offence.from <= district.asOf && (offence.until ?? Infinity) > district.asOf
      if (stands && !found.has(use.product))
        found.set(use.product, `${use.productName} (used ${isoOf(use.day)} at ${use.site})`)
    }
  return [...found.values()]
}

/** Where a filing cannot be used, nothing is said to be missing. */
function inDoubt(answer: Held): Held {
  return answer.outcome === 'not shown'
    ? notChecked(`${answer.why}; a record under filings/ cannot be used`, 'filings')
    : answer
}

export function yearlyTable(all: readonly HeldYearly[], period: Period): Table {
  return {
    id: 'yearly',
    title: 'What is sent or filed for a year',
    columns: [
      { id: 'year', title: 'year' },
      { id: 'asked', title: 'what is asked, and its clause', for: 'people' },
      { id: 'told', title: 'what the records show', for: 'people' },
      { id: 'duty', title: 'duty', for: 'work' },
      { id: 'due', title: 'due by', for: 'work' },
      { id: 'outcome', title: 'outcome', for: 'work' },
      { id: 'why', title: 'why', for: 'work' },
      { id: 'clause', title: 'clause', for: 'work' },
      { id: 'rulebook', title: 'rulebook', for: 'work' },
      { id: 'name', title: 'name', for: 'work' },
      { id: 'absent', title: 'absent fields', for: 'work' },
      { id: 'due-in-period', title: 'due within the period', for: 'work' },
    ],
    rows: all.map((one): Row => {
      const { duty, year, due, outcome, why, absent, records } = one
      return {
        cells: {
          year: year.name,
          asked: `${dutyInWords('yearly', duty)}, by ${isoOf(due)} (${duty.citation.text})`,
          told: `${outcome}: ${why}`,
          duty: dutyInWords('yearly', duty),
          due: isoOf(due),
          outcome,
          why,
          clause: duty.citation.text,
          rulebook: duty.rulebook,
          name: duty.name,
          absent: absent.join('; ') || null,
          'due-in-period': period.from <= due && due <= period.to ? 'yes' : 'no',
        },
        records,
      }
    }),
    empty: 'No rulebook in force asks for any.',
  }
}
