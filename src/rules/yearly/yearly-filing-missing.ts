import type { DistrictView } from '../../ledger/district-view.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import type { SiteDigest, YearlyUse } from '../../ledger/site-digest.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import type { Finding } from '../rule.js'
import { districtRule } from '../rule.js'
import { annualNotice, underYearlyDuty } from './example-ledgers.js'
import { askedByRulebooks, filingWords } from './words.js'
import type { NamedYear, YearlyDuty } from './years.js'
import { dueDay, dutiesOfYear, entryOf, filingsAreWhole, isInForce, yearsOf } from './years.js'

type MissingArgs = { readonly what: string; readonly year: string; readonly due: string }

export const yearlyFilingMissing = districtRule<MissingArgs>({
  id: 'yearly-filing-missing',
  title: 'what is sent or filed for a year is not recorded',
  level: 'error',
  judgedOn: 'the first day of the year it is for',
  why: 'Parents, staff and the state learn from it what is used, whom to ask and how to be told; nothing else tells them.',
  remedy:
    'Send or file it, also late, and write it down as `filings/<date>-<who>.yaml`: `{by: marsh, what: annual-notice, year: 2025-2026, to: everyone, says: [policy, coordinator-contact]}`.',
  source: askedByRulebooks,
  actor: 'coordinator',
  gap: true,
  says: ({ what, year, due }) => `The records show no ${what} for ${year}, which was due by ${due}.`,
  *check(view, digests) {
    if (!filingsAreWhole(view)) return
    const asked = new Map<string, AskedFiling[]>()
    for (const one of askedFilings(view, digests))
      getOrMake(asked, `${one.duty.says.what} ${one.year.name}`, () => []).push(one)
    for (const several of asked.values()) yield* findingsOf(view, several)
  },
  failing: underYearlyDuty('days-from-start: 30, to: everyone', '# expect: yearly-filing-missing'),
  passing: `${underYearlyDuty('days-from-start: 30, to: everyone')}${annualNotice('to: everyone')}`,
})

/** Everything that the yearly duties ask of the years in the records. */
export function askedFilings(view: DistrictView, digests: readonly SiteDigest[]): AskedFiling[] {
  const uses = digests.flatMap(({ yearlyUses }) => yearlyUses)
  return [...everyYear(view, uses), ...everySoManyYears(view, uses)]
}

/** One duty asked of one year, and the first day after its term. */
export interface AskedFiling {
  readonly duty: YearlyDuty
  readonly year: NamedYear
  readonly due: Day
  readonly from: Day
}

/** Duties of each year that began within the records; one that is for once, of the first such year only. */
function* everyYear(view: DistrictView, uses: readonly YearlyUse[]): Iterable<AskedFiling> {
  const askedOnce = new Set<string>()
  for (const kind of ['school', 'calendar'] as const) {
    for (const year of yearsOf(view, kind)) {
      if (year.first < view.recordsBegin) continue
      for (const duty of dutiesOfYear(view, kind, year)) {
        if ((duty.says.every ?? 1) > 1) continue
        const name = `${duty.rulebook} ${duty.name}`
        for (const one of asked(duty, year, uses)) {
          if (duty.says.once === 'yes' && askedOnce.has(name)) continue
          askedOnce.add(name)
          yield one
        }
      }
    }
  }
}

/**
 * Duties of every so many years. They are counted from the year of the last filing, or, as nothing tells what was filed
 * before, from the year in which records and duty both had begun.
 */
function* everySoManyYears(view: DistrictView, uses: readonly YearlyUse[]): Iterable<AskedFiling> {
  for (const kind of ['school', 'calendar'] as const) {
    const years = yearsOf(view, kind)
    const begun = new Map<string, number>()
    for (const year of years) {
      for (const duty of view.rulebooks.duties('yearly', Math.min(year.through, view.asOf))) {
        const { what, every = 1 } = duty.says
        if (duty.says.year !== kind || every <= 1) continue
        const begin = getOrMake(begun, `${duty.rulebook} ${duty.name}`, () => year.number)
        const last = lastFiledBefore(view, what, year.number)
        // What was filed longer ago than a whole term before the records tells nothing of the terms between.
        const base = last + every >= begin ? last : begin
        const isDue = year.number === base + every
        if (isDue && isInForce(view, duty, dueDay(year, duty.says))) yield* asked(duty, year, uses)
      }
    }
  }
}

/** The last year before another one for which something was filed. */
function lastFiledBefore(view: DistrictView, what: YearlyDuty['says']['what'], year: number): number {
  const numbers = view.filings
    .filter(({ data }) => data.what === what)
    .map(({ data }) => Number(data.year.slice(0, 4)))
  return Math.max(Number.NEGATIVE_INFINITY, ...numbers.filter((number) => number < year))
}

/** Asked only for a year with a use, a duty cannot be broken before that use. */
function* asked(duty: YearlyDuty, year: NamedYear, uses: readonly YearlyUse[]): Iterable<AskedFiling> {
  const due = dueDay(year, duty.says)
  if (duty.says['only-if-used'] !== 'yes') yield { duty, year, due, from: due + 1 }
  else {
    const days = uses
      .filter((use) => use.rulebook === duty.rulebook && use.duty === duty.name)
      .map(({ day }) => day)
      .filter((day) => year.first <= day && day <= year.through)
    if (days.length > 0) yield { duty, year, due, from: Math.max(due, Math.min(...days)) + 1 }
  }
}

/** What several rulebooks ask of one year is told once, for the earliest term. */
function* findingsOf(view: DistrictView, several: AskedFiling[]): Iterable<Finding<MissingArgs>> {
  several.sort((a, b) => a.from - b.from)
  const first = several[0]
  if (!first) return
  const { duty, year, due, from } = first
  const { what } = duty.says
  const ofKind = view.filings.filter(({ data }) => data.what === what)
  const filed = ofKind.filter(({ data }) => isFor(data.year, year, duty))
  if (filed.some(({ day }) => day < from)) return
  // Late, a filing for a later year ends what was to be done once.
  const late = duty.says.once === 'yes' ? ofKind.find(({ day }) => day >= from) : filed[0]
  const sources = several
    .filter((one) => one.from <= Math.max(from, view.asOf))
    .map((one) => one.duty.citation)
  yield {
    args: { what: filingWords[what], year: year.name, due: isoOf(due) },
    at: entryOf(view, duty.rulebook, year.first),
    from,
    ...(late ? { until: late.day } : {}),
    identity: [what, year.name],
    sources,
    level: levelOfDuty(sources),
  }
}

/** A filing for the year, or one that will do: a later one of what is for so many years, an earlier one of what is once. */
export function isFor(written: string, year: NamedYear, { says }: YearlyDuty): boolean {
  const number = Number(written.slice(0, 4))
  if (says.once === 'yes') return number <= year.number
  return (says.every ?? 1) > 1 ? number >= year.number : written === year.name
}
