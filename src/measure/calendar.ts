/**
 * Days as whole numbers: days since 1970-01-01, proleptic Gregorian calendar. Integer arithmetic only, after
 * Hinnant H (2013) chrono-compatible low-level date algorithms (days_from_civil, civil_from_days). No clock,
 * no time zone.
 */

/** A day taken apart; month and day of month from 1. */
export interface CivilDay {
  year: number
  month: number
  dayOfMonth: number
}

const DAYS_PER_ERA = 146_097
const DAYS_TO_EPOCH = 719_468

/** Day number of a civil date that exists. */
function dayNumber(year: number, month: number, dayOfMonth: number): number {
  const y = month > 2 ? year : year - 1
  const era = Math.floor(y / 400)
  const yearOfEra = y - era * 400
  const monthFromMarch = month > 2 ? month - 3 : month + 9
  const dayOfYear = Math.floor((153 * monthFromMarch + 2) / 5) + dayOfMonth - 1
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear
  return era * DAYS_PER_ERA + dayOfEra - DAYS_TO_EPOCH
}

/** Year, month and day of month of a day. */
export function civilOf(day: number): CivilDay {
  const z = day + DAYS_TO_EPOCH
  const era = Math.floor(z / DAYS_PER_ERA)
  const dayOfEra = z - era * DAYS_PER_ERA
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  )
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100))
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153)
  const dayOfMonth = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0)
  return { year, month, dayOfMonth }
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31
}

/** The value of the two digits at `at`, or −1 when they are not both digits. */
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48
  const ones = text.charCodeAt(at + 1) - 48
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1
}

/**
 * The day of a date written YYYY-MM-DD, years 1900 to 2199. Null for any other spelling, another year, and a
 * date that does not exist (2026-02-30).
 */
export function dayOf(text: string): number | null {
  if (text.length !== 10 || text.charCodeAt(4) !== 45 || text.charCodeAt(7) !== 45) return null
  const century = twoDigits(text, 0)
  const yearInCentury = twoDigits(text, 2)
  const month = twoDigits(text, 5)
  const dayOfMonth = twoDigits(text, 8)
  if (century < 19 || century > 21 || yearInCentury < 0) return null
  const year = century * 100 + yearInCentury
  if (month < 1 || month > 12 || dayOfMonth < 1 || dayOfMonth > daysInMonth(year, month)) return null
  return dayNumber(year, month, dayOfMonth)
}

function padded(number: number, width: number): string {
  return String(number).padStart(width, '0')
}

/** The day written YYYY-MM-DD. For the years 0 to 9999. */
export function isoOf(day: number): string {
  const { year, month, dayOfMonth } = civilOf(day)
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(dayOfMonth, 2)}`
}

/** Day of the week, 1 = Monday to 7 = Sunday (ISO 8601). */
export function weekdayOf(day: number): number {
  return ((((day + 3) % 7) + 7) % 7) + 1
}

/** The month of a day, written YYYY-MM. */
export function monthOf(day: number): string {
  return isoOf(day).slice(0, 7)
}

/** The first day of the month that `day` is in. */
export function firstOfMonth(day: number): number {
  return day - civilOf(day).dayOfMonth + 1
}

/** The last day of the month that `day` is in. */
export function lastOfMonth(day: number): number {
  const { year, month, dayOfMonth } = civilOf(day)
  return day - dayOfMonth + daysInMonth(year, month)
}

/**
 * The same day of the month so many whole months later (earlier, if negative); the last day of that month
 * where it has no such day: one month after 31 January is 28 or 29 February.
 */
export function addMonths(day: number, months: number): number {
  const { year, month, dayOfMonth } = civilOf(day)
  const fromZero = year * 12 + month - 1 + months
  const toYear = Math.floor(fromZero / 12)
  const toMonth = fromZero - toYear * 12 + 1
  return dayNumber(toYear, toMonth, Math.min(dayOfMonth, daysInMonth(toYear, toMonth)))
}

/** Minutes since midnight of a time written HH:MM, 00:00 to 23:59. Null for anything else. */
export function minutesOf(text: string): number | null {
  if (text.length !== 5 || text.charCodeAt(2) !== 58) return null
  const hours = twoDigits(text, 0)
  const minutes = twoDigits(text, 3)
  return hours >= 0 && hours <= 23 && minutes >= 0 && minutes <= 59 ? hours * 60 + minutes : null
}

/** Minutes after midnight as a clock shows them: 490 is `08:10`. */
export function clockText(minutes: number): string {
  const pair = (number: number) => String(number).padStart(2, '0')
  return `${pair(Math.floor(minutes / 60))}:${pair(minutes % 60)}`
}
