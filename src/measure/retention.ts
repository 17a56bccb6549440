import { addMonths } from './calendar.js'
import { convert, parseQuantity } from './quantities.js'

/**
 * How long something lasts that a law counts in months or years: a record is kept, a training or an approval is
 * good.
 */

/** Calendar months in `2 years` or `6 months`; a part of a month counts as a whole one. Null for any other text. */
export function monthsIn(text: string): number | null {
  const quantity = parseQuantity(text)
  const months = quantity && convert(quantity, 'month')
  return months ? Math.ceil(months.value) : null
}

/**
 * The last day on which what began on a day still lasts, so many months later. As time is counted in law, the day
 * it began is not one of them: a year from 15 March lasts through 15 March. Where the month has no such day, it is
 * that month's last.
 */
export function lastDayOf(day: number, months: number): number {
  return addMonths(day, months)
}

/**
 * The first day on which the record of something that happened on a day need no longer be kept: the day after its
 * months are over. The laws are silent on 29 February; the later day is taken, so that two years from 2024-02-29
 * are over only when 2026-03-01 has come.
 */
export function earliestDiscardDay(day: number, months: number): number {
  return lastDayOf(day, months) + 1
}

/** The first day of which records are still kept on a day, where they are kept for so many months. */
export function oldestKeptOn(day: number, months: number): number {
  let oldest = addMonths(day, -months)
  // A month that has no such day ends earlier, so several days may last to the same one, or none to this one.
  while (lastDayOf(oldest - 1, months) >= day) oldest--
  while (lastDayOf(oldest, months) < day) oldest++
  return oldest
}
