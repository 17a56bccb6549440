import { isBusinessDay } from './federal-holidays.js'

/**
 * How long before something a notice is due, and how long after it a sign stays. Moments are minutes since
 * 1970-01-01 00:00 UTC.
 *
 * Readings taken here, where a text does not say more:
 * - Hours are hours that have passed. 72 hours before 07:00 is 06:00 three days earlier when the clock was set forward
 *   between, and 08:00 when it was set back.
 * - Days, business days and school days before something are counted back from its day, which does not count. With
 *   `2 business days`, notice of what happens on a Thursday is due on the Tuesday, the second day back, and any hour of
 *   that day will do: the last moment is its last minute. On the Wednesday, however early, it is too late.
 * - A business day is Monday to Friday and no federal holiday; a school day is what the calendar says it is.
 * - The first moment of a longest lead is the first minute of the day counted back to.
 * - A stay of days after something is that many times 24 hours from its end. A stay of business or school days lasts
 *   through the last minute of the last of them, the day of the end not counted.
 * - A term of days after something ends with the last minute of the last of them, the first day not counted.
 * - Part of a day counts as a whole one where more is safer, and not at all where less is.
 */
export interface Lead {
  readonly count: number
  readonly unit: 'hours' | 'days' | 'business days' | 'school days'
}

/** A moment and the day it lies on in the district. */
export interface Moment {
  readonly day: number
  readonly instant: number
}

export interface LeadCalendar {
  /** The moment at which a day begins there. */
  beginningOf(day: number): number
  isSchoolDay(day: number): boolean
}

const minutesPerHour = 60
const minutesPerDay = 1440
/** A calendar without any school day must not be searched for ever. */
const farthest = 4000

/** A lead time as rulebooks write it: `72 hours`, `2 business days`. Null for anything else. */
export function parseLead(text: string): Lead | null {
  const match = /^(\d+(?:\.\d+)?) (hours|days|business days|school days)$/.exec(text)
  return match ? { count: Number(match[1]), unit: match[2] as Lead['unit'] } : null
}

/** The latest moment that is at least the lead before something. */
export function latestInstantBefore(start: Moment, lead: Lead, calendar: LeadCalendar): number {
  if (lead.unit === 'hours') return start.instant - roundedUp(lead.count * minutesPerHour)
  return lastMinuteOf(countedDay(start.day, -1, roundedUp(lead.count), lead.unit, calendar), calendar)
}

/** The earliest moment that is at most the lead before something. */
export function earliestInstantBefore(start: Moment, lead: Lead, calendar: LeadCalendar): number {
  if (lead.unit === 'hours') return start.instant - roundedDown(lead.count * minutesPerHour)
  return calendar.beginningOf(countedDay(start.day, -1, roundedDown(lead.count), lead.unit, calendar))
}

/** The moment until which something stays that stays at least the lead after an end. */
export function addLead(end: Moment, lead: Lead, calendar: LeadCalendar): number {
  if (lead.unit === 'hours') return end.instant + roundedUp(lead.count * minutesPerHour)
  if (lead.unit === 'days') return end.instant + roundedUp(lead.count * minutesPerDay)
  return lastMinuteOf(countedDay(end.day, 1, roundedUp(lead.count), lead.unit, calendar), calendar)
}

/** The latest moment that is at most the lead after something. */
export function latestInstantAfter(start: Moment, lead: Lead, calendar: LeadCalendar): number {
  if (lead.unit === 'hours') return start.instant + roundedDown(lead.count * minutesPerHour)
  return lastMinuteOf(countedDay(start.day, 1, roundedDown(lead.count), lead.unit, calendar), calendar)
}

/** The last minute of a day. */
export function lastMinuteOf(day: number, calendar: LeadCalendar): number {
  return calendar.beginningOf(day + 1) - 1
}

/** 1.1 hours are 66 minutes, and not a hair more. */
const hair = 1e-6
const roundedUp = (count: number) => Math.ceil(count - hair)
const roundedDown = (count: number) => Math.floor(count + hair)

function countedDay(
  from: number,
  step: 1 | -1,
  count: number,
  unit: Exclude<Lead['unit'], 'hours'>,
  calendar: LeadCalendar,
): number {
  if (unit === 'days') return from + step * count
  const counts = unit === 'business days' ? isBusinessDay : calendar.isSchoolDay
  let day = from
  for (let found = 0, walked = 0; found < count && walked < farthest; walked++) {
    day += step
    if (counts(day)) found++
  }
  return day
}
