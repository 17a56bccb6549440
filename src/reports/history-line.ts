import type { CatchObservation } from '../ledger/catch-series.js'
import { addMonths, firstOfMonth, monthOf } from '../measure/calendar.js'
import type { Day } from '../types.js'

const steps = '▁▂▃▄▅▆▇█'

/**
 * Catch per trap-night by calendar month, as one character a month: the height is relative to the highest month of
 * the line, `·` is a month without a usable reading, `▁` a month read with nothing caught.
 */
export function historyLine(observations: readonly CatchObservation[], from: Day, to: Day): string {
  const months = new Map<string, { count: number; trapNights: number }>()
  for (const { day, count, trapNights } of observations) {
    const month = monthOf(day)
    const sums = months.get(month)
    if (sums) {
      sums.count += count
      sums.trapNights += trapNights
    } else months.set(month, { count, trapNights })
  }
  const rates: (number | null)[] = []
  for (let day = firstOfMonth(from); day <= to; day = addMonths(day, 1)) {
    const sums = months.get(monthOf(day))
    rates.push(sums && sums.trapNights > 0 ? sums.count / sums.trapNights : null)
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
