import { dayOf } from '../measure/calendar.js'
import type { Day } from '../types.js'
import { UsageError } from './usage-error.js'

/** The day that an option names. */
export function dayOption(option: string, text: string): Day {
  const day = dayOf(text)
  if (day === null)
    throw new UsageError(`${option} ${text}: write a day as year-month-day, such as 2026-03-12.`)
  return day
}
