import { isoOf, weekdayOf } from '../measure/calendar.js'
import type { RecordOf } from '../records/kinds.js'
import type { Day } from '../types.js'
import { dayIn, firstAndLast } from './spans.js'

/** When school is in session. Without a stated school year every Monday to Friday counts. */
export interface SchoolCalendar {
  isSchoolDay(day: Day): boolean
  /** The closure a day falls in: its name, first and last day without school; undefined on and between school days. */
  closureOn(day: Day): Closure | undefined
  /** School days in a calendar month, given as `2026-03`. */
  schoolDaysIn(month: string): number
  /** The first school day on or after a day, looking at most a year ahead. */
  nextSchoolDay(day: Day): Day
}

export interface Closure {
  readonly name: string
  readonly first: Day
  readonly last: Day
}

export function schoolCalendar(district: RecordOf<'district'>): SchoolCalendar {
  const years = district.calendar
    .map((year) => ({ first: dayIn(year.from), last: dayIn(year.until) }))
    .sort((a, b) => a.first - b.first)
  const closures = closuresOf(district, years)
  const closureOn = (day: Day) => closures.find((closure) => closure.first <= day && day <= closure.last)
  const isSchoolDay = (day: Day) => weekdayOf(day) <= 5 && (years.length === 0 || !closureOn(day))
  const monthCounts = new Map<string, number>()
  return {
    isSchoolDay,
    closureOn,
    schoolDaysIn(month) {
      const known = monthCounts.get(month)
      if (known !== undefined) return known
      let count = 0
      for (let day = dayIn(`${month}-01`); isoOf(day).startsWith(month); day++) if (isSchoolDay(day)) count++
      monthCounts.set(month, count)
      return count
    },
    nextSchoolDay(day) {
      for (let later = day; later < day + 366; later++) if (isSchoolDay(later)) return later
      return day
    },
  }
}

/** Stated closures, and the time between, before and after the stated school years. */
function closuresOf(district: RecordOf<'district'>, years: readonly { first: Day; last: Day }[]): Closure[] {
  const closures: Closure[] = []
  for (const year of district.calendar) {
    for (const [name, text] of Object.entries(year.closed ?? {})) {
      const [first, last] = firstAndLast(text)
      closures.push({ name, first, last })
    }
  }
  years.forEach((year, at) => {
    const next = years[at + 1]
    if (next && year.last + 1 < next.first)
      closures.push({ name: 'recess', first: year.last + 1, last: next.first - 1 })
  })
  const first = years[0]
  const last = years.at(-1)
  if (first) closures.push({ name: 'recess', first: first.first - 400, last: first.first - 1 })
  if (last) closures.push({ name: 'recess', first: last.last + 1, last: last.last + 120 })
  return closures
}
