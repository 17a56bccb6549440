import { minutesOf } from '../measure/calendar.js'
import { offsetText, timeZone } from '../measure/zone.js'
import type { Day } from '../types.js'

/** The time of day in a zone, as a record states it: with its offset in the hour that happens twice. */
export function clockIn(zone: string, day: Day, instant: Date): string {
  const shape = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const
  const format = (timeZoneName: string) =>
    new Intl.DateTimeFormat('en-US', { ...shape, timeZone: timeZoneName }).formatToParts(instant)
  let parts: Intl.DateTimeFormatPart[]
  try {
    parts = format(zone)
  } catch {
    parts = format('UTC')
  }
  const part = (type: string) => parts.find((found) => found.type === type)?.value ?? '00'
  const clock = `${part('hour')}:${part('minute')}`
  const minutes = minutesOf(clock) ?? 0
  const offsets = timeZone(zone)?.offsetsAt(day, minutes) ?? []
  if (offsets.length < 2) return clock
  const wall = day * 1440 + minutes
  const utc = Math.floor(instant.getTime() / 60_000)
  const offset = offsets.find((one) => wall - one === utc)
  return offset === undefined ? clock : `${clock}${offsetText(offset)}`
}
