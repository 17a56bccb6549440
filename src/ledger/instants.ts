import { clockTimeOf, timeZone } from '../measure/zone.js'
import type { Day } from '../types.js'
import type { DistrictView } from './district-view.js'
import type { Treatment } from './treatments.js'

/** Minutes since 1970-01-01 00:00 UTC. */
export type Instant = number

/**
 * When something happened, as far as a record tells: the earliest and the latest instant it can have been. Both are
 * the same where day and hour are stated; the first and the last minute of the day where only the day is; an hour apart
 * for a time that the clock showed twice.
 */
export interface InstantRange {
  readonly earliest: Instant
  readonly latest: Instant
}

const minutesPerDay = 1440
const noon = 720

/** The first minute of a day in the zone of the district: after the gap where the clock skips midnight. */
export function beginningOf(district: DistrictView, day: Day): Instant {
  const zone = timeZone(district.district.data['time-zone'])
  const { earliest, latest } = at(district, day, 0)
  return zone?.offsetsAt(day, 0).length === 0 ? latest : earliest
}

/**
 * The range of a wall time on a day in the zone of the district; any minute of the day where no time is stated. The
 * minute in which the next day begins is none of them: what happened then would bear the next day's date.
 */
export function instantOn(district: DistrictView, day: Day, time: string | undefined): InstantRange {
  const clock = time === undefined ? null : clockTimeOf(time)
  if (!clock) return { earliest: beginningOf(district, day), latest: beginningOf(district, day + 1) - 1 }
  if (clock.offset !== undefined) {
    const instant = day * minutesPerDay + clock.minutes - clock.offset
    return { earliest: instant, latest: instant }
  }
  return at(district, day, clock.minutes)
}

/** When a treatment began and ended, as far as its record tells. */
export function timesOf(
  district: DistrictView,
  treatment: Treatment,
): { readonly start: InstantRange; readonly end: InstantRange } {
  const time = (treatment.record.data as { readonly time?: string }).time
  const [start, end] = time?.split(' to ') ?? []
  return {
    start: instantOn(district, treatment.day, start),
    end: instantOn(district, treatment.day, end),
  }
}

function at(district: DistrictView, day: Day, minutes: number): InstantRange {
  const wall = day * minutesPerDay + minutes
  // A zone that is not known is reported by its own rule.
  const zone = timeZone(district.district.data['time-zone'])
  if (!zone) return { earliest: wall, latest: wall }
  // So is a time that the clock skipped: it is taken to lie about the gap, by the offset before it and the one after.
  const stated = zone.offsetsAt(day, minutes)
  const offsets =
    stated.length > 0 ? stated : [...zone.offsetsAt(day - 1, noon), ...zone.offsetsAt(day + 1, noon)]
  const instants = offsets.map((offset) => wall - offset)
  return { earliest: Math.min(...instants), latest: Math.max(...instants) }
}
