import type { DistrictView } from '../../ledger/district-view.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import { dayIn, holdsOn } from '../../ledger/spans.js'
import { addMonths, civilOf, dayOf } from '../../measure/calendar.js'
import type { DutyOf } from '../../records/rulebook-duties.js'
import type { Day, Place } from '../../types.js'

export type YearlyDuty = Duty<'yearly'>
type YearKind = DutyOf<'yearly'>['year']

/** A school year or a calendar year, by the name under which filings are for it. */
export interface NamedYear {
  readonly name: string
  /** The civil year it begins in. */
  readonly number: number
  readonly first: Day
  readonly last: Day
  /** Last day that is counted to it: the recess after a school year belongs to it. */
  readonly through: Day
}

/** The years that have begun by the as-of day and of which at least a part lies in the records, the oldest first. */
export function yearsOf(view: DistrictView, kind: YearKind): NamedYear[] {
  const years = kind === 'calendar' ? calendarYears(view) : schoolYears(view)
  return years.filter(({ first, through }) => first <= view.asOf && through >= view.recordsBegin)
}

function calendarYears({ recordsBegin, asOf }: DistrictView): NamedYear[] {
  const years: NamedYear[] = []
  for (let number = civilOf(recordsBegin).year; number <= civilOf(asOf).year; number++) {
    const first = dayOf(`${number}-01-01`) ?? recordsBegin
    const last = dayOf(`${number}-12-31`) ?? recordsBegin
    years.push({ name: String(number), number, first, last, through: last })
  }
  return years
}

function schoolYears({ district }: DistrictView): NamedYear[] {
  const stated = district.data.calendar
    .map(({ from, until }) => ({ first: dayIn(from), last: dayIn(until) }))
    .sort((a, b) => a.first - b.first)
  return stated.map(({ first, last }, at) => {
    const number = civilOf(first).year
    const end = civilOf(last).year
    const next = stated[at + 1]?.first ?? Number.POSITIVE_INFINITY
    return {
      name: end === number ? String(number) : `${number}-${end}`,
      number,
      first,
      last,
      through: Math.max(last, Math.min(next, addMonths(first, 12)) - 1),
    }
  })
}

/** The year a day is counted to. */
export function yearOfDay(view: DistrictView, kind: YearKind, day: Day): NamedYear | undefined {
  return yearsOf(view, kind).find(({ first, through }) => first <= day && day <= through)
}

/** Last day on which what a duty asks for a year is in time. */
export function dueDay(year: NamedYear, says: DutyOf<'yearly'>): Day {
  if (says['days-from-start'] !== undefined) return year.first + says['days-from-start']
  return year.last + (says['days-after-end'] ?? 0)
}

/** The duties asked of a year as a whole: in force on its first day and still on the day they are due. */
export function dutiesOfYear(view: DistrictView, kind: YearKind, year: NamedYear): YearlyDuty[] {
  return view.rulebooks
    .duties('yearly', year.first)
    .filter(({ says }) => says.year === kind)
    .filter((duty) => isInForce(view, duty, dueDay(year, duty.says)))
}

/** Whether a duty of that name, in whatever version, is in force on a day. */
export function isInForce(
  view: DistrictView,
  { rulebook, name }: Pick<YearlyDuty, 'rulebook' | 'name'>,
  day: Day,
): boolean {
  return view.rulebooks
    .duties('yearly', day)
    .some((other) => other.rulebook === rulebook && other.name === name)
}

/** The line of district.yaml that brings a rulebook into force. */
export function entryOf({ district }: DistrictView, rulebook: string, day: Day): Place {
  const at = district.data.rulebooks.findIndex((entry) => entry.rulebook === rulebook && holdsOn(entry, day))
  return { file: district.file, path: at < 0 ? ['rulebooks'] : ['rulebooks', at] }
}

/** Whether every filing could be read: where one could not, nothing is said to be missing. */
export function filingsAreWhole(view: DistrictView): boolean {
  return ![...view.broken].some((name) => name.startsWith('filing '))
}
