import type { InstantRange } from '../../ledger/instants.js'
import { instantOn } from '../../ledger/instants.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn, holdsOn } from '../../ledger/spans.js'
import { weekdayOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'

const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const

/** Hours of a day in which pupils are expected in a building; the whole day where no occupied hours are stated. */
export interface ExpectedHours {
  readonly day: Day
  readonly start: InstantRange
  readonly end: InstantRange
  /** When they begin, as the record states it; undefined where no hours are stated. */
  readonly startsAt: string | undefined
}

/**
 * When pupils are expected on a day, by the occupied hours of the site or of the district; undefined on days without
 * them. The site's own hours hold on the days of the district's. Nobody is expected in a closure or a recess.
 */
export function expectedHours(view: SiteView, day: Day): ExpectedHours | undefined {
  const { district } = view
  if (district.calendar.closureOn(day)) return undefined
  const stated = occupiedOn(view, day)
  if (stated.length === 0) {
    if (!district.calendar.isSchoolDay(day)) return undefined
    return hoursFrom(view, day, view.site.data.hours)
  }
  const today = stated.find(({ days }) => days.includes(weekdayName(day)))
  return today && hoursFrom(view, day, view.site.data.hours ?? today.hours)
}

function weekdayName(day: Day): (typeof weekdays)[number] {
  return weekdays[weekdayOf(day) - 1] ?? 'mon'
}

/** Occupied hours in force: those that began last, of which there can be several for different days of the week. */
function occupiedOn(view: SiteView, day: Day) {
  const holding = (view.district.district.data.occupied ?? []).filter((span) => holdsOn(span, day))
  const latest = Math.max(...holding.map(({ from }) => dayIn(from)))
  return holding.filter(({ from }) => dayIn(from) === latest)
}

function hoursFrom(view: SiteView, day: Day, hours: string | undefined): ExpectedHours {
  const [start, end] = hours?.split(' to ') ?? []
  return {
    day,
    start: instantOn(view.district, day, start ?? '00:00'),
    end: end === undefined ? instantOn(view.district, day + 1, '00:00') : instantOn(view.district, day, end),
    startsAt: start,
  }
}
