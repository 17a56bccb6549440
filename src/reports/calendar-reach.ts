import type { InstantRange } from '../ledger/instants.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn } from '../ledger/spans.js'
import type { Treatment } from '../ledger/treatments.js'
import { dutiesFor } from '../ledger/use-classes.js'
import { isoOf, weekdayOf } from '../measure/calendar.js'
import { owed } from '../rules/notices/duties-in-emergency.js'
import { wallTimeAt } from '../rules/notices/moments.js'
import type { Day } from '../types.js'

/** First and last day that the school calendar tells of; undefined where no school year is stated. */
function reachOf({ district }: SiteView): { readonly first: Day; readonly last: Day } | undefined {
  const years = district.district.data.calendar
  if (years.length === 0) return undefined
  return {
    first: Math.min(...years.map(({ from }) => dayIn(from))),
    last: Math.max(...years.map(({ until }) => dayIn(until))),
  }
}

/** Why the calendar does not tell of a day; undefined where it does, and for a Saturday or Sunday. */
function untold(view: SiteView, day: Day): string | undefined {
  const reach = reachOf(view)
  if (!reach || weekdayOf(day) > 5) return undefined
  if (day > reach.last) return `the school calendar ends on ${isoOf(reach.last)}`
  return day < reach.first ? `the school calendar begins on ${isoOf(reach.first)}` : undefined
}

/**
 * Why a moment that is counted in school days cannot be said: a day that had to be counted, or not, lies beyond the
 * school calendar. Undefined where it can be, or where no school days are counted.
 */
export function notCounted(
  view: SiteView,
  { day }: Treatment,
  term: string,
  moment: InstantRange | undefined,
): string | undefined {
  if (!term.includes('school day') || !moment) return undefined
  const days = [moment.earliest, moment.latest].map((instant) => wallTimeAt(view.district, instant).day)
  const first = Math.min(day + 1, ...days)
  const last = Math.max(day - 1, ...days)
  for (let counted = first; counted <= last; counted++) {
    const why = counted === day ? undefined : untold(view, counted)
    if (why !== undefined) return why
  }
  return undefined
}

/**
 * Why it cannot be said whether duties hold that end in a recess: whether the day lies in one is not known. Undefined
 * where nothing hangs on it.
 */
export function recessNotKnown(view: SiteView, treatment: Treatment): string | undefined {
  const why = untold(view, treatment.day)
  const isLeftOut = (['notices', 'postings'] as const).some(
    (section) => dutiesFor(view, section, treatment).length > owed(view, section, treatment).length,
  )
  return isLeftOut ? why : undefined
}
