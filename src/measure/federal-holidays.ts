import { civilOf, dayOf, weekdayOf } from './calendar.js'

/**
 * Legal public holidays of the United States and the weekdays on which they are observed: 5 U.S.C. 6103(a) for the
 * holidays, 6103(b)(1) for the Friday before one that falls on a Saturday, Executive Order 11582, section 3, for the
 * Monday after one that falls on a Sunday; all from memory. As they stand since 1986, when the birthday of Martin
 * Luther King, Jr. was first kept; Juneteenth since the day its Act was signed, 2021-06-17 (Public Law 117-17), so
 * first observed on Friday 2021-06-18. Inauguration Day (6103(c)) is a holiday only around Washington and is left
 * out, and so are holidays of states.
 */
interface Holiday {
  readonly name: string
  readonly month: number
  /** A day of the month; or a weekday (1 = Monday) and which one of the month, -1 for the last. */
  readonly on: number | readonly [weekday: number, which: number]
  readonly since?: string
}

const monday = 1
const thursday = 4

const holidays: readonly Holiday[] = [
  { name: "New Year's Day", month: 1, on: 1 },
  { name: 'Birthday of Martin Luther King, Jr.', month: 1, on: [monday, 3] },
  { name: "Washington's Birthday", month: 2, on: [monday, 3] },
  { name: 'Memorial Day', month: 5, on: [monday, -1] },
  { name: 'Juneteenth National Independence Day', month: 6, on: 19, since: '2021-06-17' },
  { name: 'Independence Day', month: 7, on: 4 },
  { name: 'Labor Day', month: 9, on: [monday, 1] },
  { name: 'Columbus Day', month: 10, on: [monday, 2] },
  { name: 'Veterans Day', month: 11, on: 11 },
  { name: 'Thanksgiving Day', month: 11, on: [thursday, 4] },
  { name: 'Christmas Day', month: 12, on: 25 },
]

/** The name of the holiday observed on a day; undefined on every other day. */
export function federalHolidayOn(day: number): string | undefined {
  const { year } = civilOf(day)
  // New Year's Day can be observed on the last day of the year before.
  return observedIn(year).get(day) ?? observedIn(year + 1).get(day)
}

/** Monday to Friday, and no federal holiday observed on it. */
export function isBusinessDay(day: number): boolean {
  return weekdayOf(day) <= 5 && federalHolidayOn(day) === undefined
}

const known = new Map<number, ReadonlyMap<number, string>>()

function observedIn(year: number): ReadonlyMap<number, string> {
  const found = known.get(year)
  if (found) return found
  const observed = new Map<number, string>()
  for (const holiday of holidays) {
    const day = dayIn(year, holiday)
    if (holiday.since === undefined || day >= (dayOf(holiday.since) ?? 0))
      observed.set(observedOn(day), holiday.name)
  }
  known.set(year, observed)
  return observed
}

function dayIn(year: number, { month, on }: Holiday): number {
  if (typeof on === 'number') return firstOf(year, month) + on - 1
  const [weekday, which] = on
  if (which < 0) {
    const last = firstOf(month === 12 ? year + 1 : year, (month % 12) + 1) - 1
    return last - ((weekdayOf(last) - weekday + 7) % 7)
  }
  const first = firstOf(year, month)
  return first + ((weekday - weekdayOf(first) + 7) % 7) + 7 * (which - 1)
}

function firstOf(year: number, month: number): number {
  return dayOf(`${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-01`) ?? 0
}

function observedOn(day: number): number {
  const weekday = weekdayOf(day)
  if (weekday === 6) return day - 1
  return weekday === 7 ? day + 1 : day
}
