import type { CatchObservation } from '../ledger/catch-series.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { civilOf } from '../measure/calendar.js'
import type { Day } from '../types.js'

const steps = '▁▂▃▄▅▆▇█'

/** Calendar months told by one character: more in a long period, so that its line stays short. */
export type MonthsAStep = 1 | 3 | 12

/** So many characters of a line are easily read. */
const fewSteps = 24

/** Months as long as there are at most two years of them; then quarters, then years. */
export function historyStep(from: Day, to: Day): MonthsAStep {
  const months = monthsSinceZero(to) - monthsSinceZero(from) + 1
  if (months <= fewSteps + 1) return 1
  return months <= 3 * fewSteps + 1 ? 3 : 12
}

export const historyTitles: Readonly<Record<MonthsAStep, string>> = {
  1: 'by month',
  3: 'by quarter',
  12: 'by year',
}

/**
 * Catch per trap-night by calendar month (quarter, year) as one character each: the height is relative to the highest
 * of the line, `·` is a time without a usable reading, `▁` a time read with nothing caught.
 */
export function historyLine(
  observations: readonly CatchObservation[],
  from: Day,
  to: Day,
  step: MonthsAStep = 1,
): string {
  const stepOf = (day: Day) => Math.floor(monthsSinceZero(day) / step)
  const sums = new Map<number, { count: number; trapNights: number }>()
  for (const { day, count, trapNights } of observations) {
    const sum = getOrMake(sums, stepOf(day), () => ({ count: 0, trapNights: 0 }))
    sum.count += count
    sum.trapNights += trapNights
  }
  const rates: (number | null)[] = []
  for (let at = stepOf(from); at <= stepOf(to); at++) {
    const sum = sums.get(at)
    rates.push(sum && sum.trapNights > 0 ? sum.count / sum.trapNights : null)
  }
  const highest = Math.max(...rates.map((rate) => rate ?? 0))
  return rates
    .map((rate) => {
      if (rate === null) return '·'
      if (rate === 0 || highest === 0) return steps[0]
      return steps[Math.min(steps.length - 1, 1 + Math.floor((rate / highest) * (steps.length - 1.000001)))]
    })
    .join('')
}

function monthsSinceZero(day: Day): number {
  const { year, month } = civilOf(day)
  return year * 12 + month - 1
}
