import { clockText } from './calendar.js'

/**
 * Wall clocks in a time zone: which offsets from UTC a time of day can have. The rules of the zones are those
 * of the IANA time zone database (RFC 6557) that comes with the JavaScript engine, asked through Intl
 * (ECMA-402). No clock is read, and neither the zone nor the locale of the machine has a say.
 */

const MINUTES_PER_DAY = 1440

export interface TimeZone {
  /** True when the clock is set neither forward nor back on the day (nor close to it). */
  isSteadyOn(day: number): boolean
  /**
   * Offsets in minutes east of UTC that a wall time, in minutes since midnight of a day since 1970-01-01, can
   * have: one on most days; none where the clock skips the time; two where it shows the time twice, the
   * earlier instant first.
   */
  offsetsAt(day: number, minutes: number): readonly number[]
}

const zones = new Map<string, TimeZone | null>()

/** The zone of an IANA name such as America/Los_Angeles; undefined for a name that is none. */
export function timeZone(name: string): TimeZone | undefined {
  const known = zones.get(name)
  if (known !== undefined) return known ?? undefined
  const zone = makeZone(name)
  zones.set(name, zone ?? null)
  return zone
}

/** Names of zones, for whoever misspelt one. Some older names that are also understood are not among them. */
export function knownTimeZones(): readonly string[] {
  return ['UTC', ...Intl.supportedValuesOf('timeZone')]
}

function makeZone(name: string): TimeZone | undefined {
  const format = formatOf(name)
  if (!format) return undefined
  const atMidnight = new Map<number, number>()
  const offsetAt = (utcMinutes: number) => offsetIn(format.format(utcMinutes * 60_000))
  const offsetAtMidnight = (day: number) => {
    const known = atMidnight.get(day)
    if (known !== undefined) return known
    const offset = offsetAt(day * MINUTES_PER_DAY)
    atMidnight.set(day, offset)
    return offset
  }
  // A local day begins at most 14 hours before and ends at most 12 hours after the day of UTC with the same
  // date.
  const isSteadyOn = (day: number) => {
    const offset = offsetAtMidnight(day)
    return (
      offsetAtMidnight(day - 1) === offset &&
      offsetAtMidnight(day + 1) === offset &&
      offsetAtMidnight(day + 2) === offset
    )
  }
  return {
    isSteadyOn,
    offsetsAt(day, minutes) {
      if (isSteadyOn(day)) return [offsetAtMidnight(day)]
      const wall = day * MINUTES_PER_DAY + minutes
      const candidates = new Set([offsetAt(wall - MINUTES_PER_DAY), offsetAt(wall + MINUTES_PER_DAY)])
      return [...candidates].filter((offset) => offsetAt(wall - offset) === offset).sort((a, b) => b - a)
    },
  }
}

function formatOf(name: string): Intl.DateTimeFormat | undefined {
  try {
    return new Intl.DateTimeFormat('en-US', { timeZone: name, timeZoneName: 'longOffset' })
  } catch {
    return undefined
  }
}

/**
 * Minutes in `11/1/2026, GMT-07:00`. Seconds, which only local mean time before standard time has, are
 * dropped.
 */
function offsetIn(text: string): number {
  const match = /GMT(?:([+-])(\d\d):(\d\d)(?::\d\d)?)?$/.exec(text)
  const minutes = Number(match?.[2] ?? 0) * 60 + Number(match?.[3] ?? 0)
  return match?.[1] === '-' ? -minutes : minutes
}

/** A time of day as a record states it. */
export interface ClockTime {
  /** Minutes since midnight on the wall clock. */
  readonly minutes: number
  /** Minutes east of UTC, where the record says so. */
  readonly offset: number | undefined
}

/** The time written `06:10` or `01:30-07:00`; null for any other spelling. */
export function clockTimeOf(text: string): ClockTime | null {
  const match = /^([01]\d|2[0-3]):([0-5]\d)(?:([+-])(\d\d):([0-5]\d))?$/.exec(text)
  if (!match) return null
  const minutes = Number(match[1]) * 60 + Number(match[2])
  if (match[3] === undefined) return { minutes, offset: undefined }
  const size = Number(match[4]) * 60 + Number(match[5])
  return { minutes, offset: match[3] === '-' && size !== 0 ? -size : size }
}

/** An offset in minutes as a record writes it: −420 is `-07:00`. */
export function offsetText(offset: number): string {
  return `${offset < 0 ? '-' : '+'}${clockText(Math.abs(offset))}`
}
