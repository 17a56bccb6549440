import type { DistrictView } from '../../ledger/district-view.js'
import type { Instant, InstantRange } from '../../ledger/instants.js'
import { beginningOf, timesOf } from '../../ledger/instants.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { clockText, isoOf } from '../../measure/calendar.js'
import type { Lead, LeadCalendar, Moment } from '../../measure/lead-time.js'
import { timeZone } from '../../measure/zone.js'
import type { Day } from '../../types.js'

const minutesPerDay = 1440
const noon = 720

const calendars = new WeakMap<DistrictView, LeadCalendar>()

/** The days of the district: when they begin, and which are school days. */
export function leadCalendarOf(district: DistrictView): LeadCalendar {
  const known = calendars.get(district)
  if (known) return known
  const calendar: LeadCalendar = {
    beginningOf: (day) => beginningOf(district, day),
    isSchoolDay: (day) => district.calendar.isSchoolDay(day),
  }
  calendars.set(district, calendar)
  return calendar
}

/** A range of moments from the start or the end of a treatment, counted from the earliest and the latest it can have been. */
export function countedFrom(
  view: SiteView,
  treatment: Treatment,
  which: 'start' | 'end',
  lead: Lead,
  count: (moment: Moment, lead: Lead, calendar: LeadCalendar) => Instant,
): InstantRange {
  const calendar = leadCalendarOf(view.district)
  const from = timesOf(view.district, treatment)[which]
  const counted = (instant: Instant) => count({ day: treatment.day, instant }, lead, calendar)
  return { earliest: counted(from.earliest), latest: counted(from.latest) }
}

/** The day and minute that the clocks of the district show at a moment. */
export function wallTimeAt(district: DistrictView, instant: Instant): { day: Day; minutes: number } {
  const zone = timeZone(district.district.data['time-zone'])
  const about = Math.floor(instant / minutesPerDay)
  const offsets = [about - 1, about, about + 1].flatMap((day) => zone?.offsetsAt(day, noon) ?? [])
  for (const offset of offsets) {
    const wall = split(instant + offset)
    if (zone?.offsetsAt(wall.day, wall.minutes).includes(offset)) return wall
  }
  return split(instant)
}

function split(minutes: number): { day: Day; minutes: number } {
  const day = Math.floor(minutes / minutesPerDay)
  return { day, minutes: minutes - day * minutesPerDay }
}

/** `2026-03-09 15:40` on the clocks of the district; the day alone for its last minute, and where the hour is not known. */
export function momentText(district: DistrictView, range: InstantRange): string {
  const { day, minutes } = wallTimeAt(district, range.earliest)
  if (minutes === minutesPerDay - 1) return `the end of ${isoOf(day)}`
  if (range.latest - range.earliest > 60) return isoOf(day)
  return `${isoOf(day)} ${clockText(minutes)}`
}

/** The day after the one on which a term ended; where no term is set, the day after the application. */
export function dayAfterTerm(
  district: DistrictView,
  { latest }: { readonly latest: InstantRange | undefined },
  day: Day,
): Day {
  return (latest ? wallTimeAt(district, latest.latest).day : day) + 1
}
