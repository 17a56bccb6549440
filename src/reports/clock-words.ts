import type { SiteView } from '../ledger/site-view.js'
import { clockText, isoOf } from '../measure/calendar.js'
import { clockTimeOf, offsetText, type TimeZone, timeZone } from '../measure/zone.js'
import type { Day } from '../types.js'

/**
 * What a clock that is set forward or back makes of a time that states no offset: that no clock showed it, or showed it
 * twice. Undefined for a time that is one moment.
 */
export function unsureClock(view: SiteView, day: Day, text: string): string | undefined {
  const clock = clockTimeOf(text)
  const zone = timeZone(view.district.district.data['time-zone'])
  if (!clock || clock.offset !== undefined || !zone) return undefined
  const [first, second, ...more] = zone.offsetsAt(day, clock.minutes)
  if (first === undefined) return `${isoOf(day)} has no ${text}: ${skipped(zone, day, clock.minutes)}`
  if (second === undefined || more.length > 0) return undefined
  return `the clock shows ${text} twice on ${isoOf(day)}, and both were looked at: the earlier for what is due before, the later for what is counted after; write ${text}${offsetText(first)} for the first, ${text}${offsetText(second)} for the second`
}

const minutesPerDay = 1440

/** The hour that is left out, found from a minute within it. */
function skipped(zone: TimeZone, day: Day, within: number): string {
  const isThere = (minutes: number) => zone.offsetsAt(day, minutes).length > 0
  let from = within
  while (from > 0 && !isThere(from - 1)) from--
  let until = within
  while (until < minutesPerDay && !isThere(until)) until++
  return `the clock goes from ${clockText(from)} to ${clockText(until)}`
}
