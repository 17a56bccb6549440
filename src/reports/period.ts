import { addMonths } from '../measure/calendar.js'
import type { Day } from '../types.js'
import type { ReportOptions } from './options.js'

/** Days from the first to the last, both counted. */
export interface Period {
  readonly from: Day
  readonly to: Day
}

type AskedDays = Pick<ReportOptions, 'asOf' | 'from' | 'to'>

/** The days asked for, both counted, up to the as-of day at most; the year up to their end if not said. */
export function periodOf(options: AskedDays): Period {
  const to = Math.min(options.to ?? options.asOf, options.asOf)
  return { from: options.from ?? addMonths(to, -12) + 1, to }
}

/** What to say when more was asked for than the as-of day lets be told. */
export function cutCautions({ to, asOf }: AskedDays): string[] {
  return to !== undefined && to > asOf
    ? ['The period asked for ends after the as-of day; it is told up to that day.']
    : []
}
