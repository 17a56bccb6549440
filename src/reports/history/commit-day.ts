import type { TimeZone } from '../../measure/zone.js'
import type { Day } from '../../types.js'

const minutesPerDay = 1440
const noon = 720

/** The day on the wall calendar of a zone at a moment, in seconds since 1970-01-01 00:00 UTC. */
export function dayInZone(zone: TimeZone | undefined, seconds: number): Day {
  const minutes = Math.floor(seconds / 60)
  const day = Math.floor(minutes / minutesPerDay)
  if (!zone) return day
  const at = (offset: number) => Math.floor((minutes + offset) / minutesPerDay)
  if (zone.isSteadyOn(day)) return at(zone.offsetsAt(day, noon)[0] ?? 0)
  const offsets = [day - 1, day, day + 1].flatMap((near) => zone.offsetsAt(near, noon))
  const inForce = offsets.find((offset) => {
    const wall = minutes + offset
    return zone.offsetsAt(at(offset), wall - at(offset) * minutesPerDay).includes(offset)
  })
  return at(inForce ?? offsets[0] ?? 0)
}
