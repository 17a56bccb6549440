import { addMonths, civilOf, clockText, firstOfMonth, isoOf, weekdayOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'

/** The days of a school district, over the calendar of src/measure. */

const monday = 1
const thursday = 4
const friday = 5
const sunday = 7
export const weekdays = { monday, thursday, friday, sunday } as const

/** Day of a date; month 13 is January of the next year. */
export function dayOf(year: number, month: number, dayOfMonth: number): Day {
  return addMonths(0, (year - 1970) * 12 + month - 1) + dayOfMonth - 1
}

export const dateOf = civilOf
export const dateText = isoOf

export { clockText }

export function hoursText(from: number, to: number): string {
  return `${clockText(from)} to ${clockText(to)}`
}

export function isWeekday(day: Day): boolean {
  return weekdayOf(day) <= friday
}

export function firstOfNextMonth(day: Day): Day {
  return addMonths(firstOfMonth(day), 1)
}

/** The n-th given weekday of a month, 1 being Monday; a negative n counts from the end of the month. */
export function nthWeekday(year: number, month: number, weekday: number, n: number): Day {
  if (n > 0) {
    const first = dayOf(year, month, 1)
    return first + ((weekday - weekdayOf(first) + 7) % 7) + 7 * (n - 1)
  }
  const last = dayOf(year, month + 1, 1) - 1
  return last - ((weekdayOf(last) - weekday + 7) % 7) + 7 * (n + 1)
}

/**
 * Minutes that local time on the Pacific coast of the United States is ahead of UTC, by day: summer time from the
 * second Sunday of March to the first of November (Energy Policy Act of 2005, sec. 110). The hour of the change itself
 * is not told apart.
 */
export function pacificOffset(day: Day): number {
  const { year } = dateOf(day)
  const summer = day >= nthWeekday(year, 3, sunday, 2) && day < nthWeekday(year, 11, sunday, 1)
  return summer ? -420 : -480
}
