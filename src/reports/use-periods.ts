import { addMonths, civilOf, firstOfMonth, isoOf, lastOfMonth, monthOf } from '../measure/calendar.js'
import type { Day } from '../types.js'
import type { Period } from './period.js'

export interface NamedPeriod extends Period {
  readonly name: string
}

/** The period of the same length that ends on the day before: whole months where it is whole months, else days. */
export function periodBefore({ from, to }: Period): Period {
  const months = wholeMonthsOf({ from, to })
  return { from: months === undefined ? from - (to - from + 1) : addMonths(from, -months), to: from - 1 }
}

/** Months that a period spans exactly, so that a year with a leap day is held against the year before it. */
function wholeMonthsOf({ from, to }: Period): number | undefined {
  const [first, end] = [civilOf(from), civilOf(to + 1)]
  // From the 29th on, months of different length make a count of months ambiguous.
  if (first.dayOfMonth > 28 || first.dayOfMonth !== end.dayOfMonth) return undefined
  return (end.year - first.year) * 12 + end.month - first.month
}

/** The parts in which use over time is told: months, up to two years of them; then school years, or calendar years. */
export function partsOf(
  period: Period,
  schoolYearsFrom: readonly Day[],
): { readonly by: 'month' | 'school year' | 'year'; readonly parts: readonly NamedPeriod[] } {
  const months = monthsOf(period)
  if (months.length <= 25) return { by: 'month', parts: months }
  if (schoolYearsFrom.length > 0)
    return { by: 'school year', parts: schoolYearsOf(period, schoolYearsFrom).map(named) }
  return { by: 'year', parts: calendarYearsOf(period).map(named) }
}

const named = (part: Period): NamedPeriod => ({ ...part, name: `${isoOf(part.from)} to ${isoOf(part.to)}` })

function monthsOf({ from, to }: Period): NamedPeriod[] {
  const months: NamedPeriod[] = []
  for (let day = firstOfMonth(from); day <= to; day = addMonths(day, 1))
    months.push({ name: monthOf(day), from: Math.max(day, from), to: Math.min(lastOfMonth(day), to) })
  return months
}

/** A school year with the recess after it: from its first day to the day before the next one's. */
function schoolYearsOf({ from, to }: Period, firstDays: readonly Day[]): Period[] {
  const begins = [from, ...[...firstDays].sort((a, b) => a - b).filter((day) => day > from && day <= to)]
  return begins.map((day, at) => ({ from: day, to: (begins[at + 1] ?? to + 1) - 1 }))
}

function calendarYearsOf({ from, to }: Period): Period[] {
  const years: Period[] = []
  for (let day = from; day <= to; ) {
    const next = addMonths(firstOfMonth(day), 13 - civilOf(day).month)
    years.push({ from: day, to: Math.min(next - 1, to) })
    day = next
  }
  return years
}
