import { dayOf } from '../measure/calendar.js'
import type { Day } from '../types.js'
import type { Surroundings } from './terminal.js'
import { UsageError } from './usage-error.js'

/** Today in a time zone. DOORSWEEP_TODAY stands in for the clock, so that a run can be repeated. */
export function today(timeZone: string, here: Surroundings): Day {
  const stated = here.env.DOORSWEEP_TODAY
  if (stated !== undefined) {
    const day = dayOf(stated)
    if (day === null) throw new UsageError(`DOORSWEEP_TODAY=${stated}: write a day as year-month-day.`)
    return day
  }
  const parts = formatIn(timeZone).formatToParts(new Date())
  const part = (type: string) => parts.find((found) => found.type === type)?.value ?? ''
  return dayOf(`${part('year')}-${part('month')}-${part('day')}`) ?? 0
}

function formatIn(timeZone: string): Intl.DateTimeFormat {
  const shape = { year: 'numeric', month: '2-digit', day: '2-digit' } as const
  try {
    return new Intl.DateTimeFormat('en-CA', { ...shape, timeZone })
  } catch {
    return new Intl.DateTimeFormat('en-CA', { ...shape, timeZone: 'UTC' })
  }
}
