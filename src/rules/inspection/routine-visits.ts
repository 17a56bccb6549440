import type { ServiceTerms } from '../../ledger/service-terms.js'
import { servicePieces, serviceTermsOn } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'
import type { Lapse } from './lapse.js'
import { lateness } from './lapse.js'

/** A routine visit that the contract asks for and that is not there in time. */
export interface RoutineVisitGap extends Lapse {
  readonly terms: ServiceTerms
  /** The calendar month that has none, or the day from which the days were counted. */
  readonly about: string
  readonly lastDay: Day
}

/**
 * One routine visit that the contract asks for. A visit counts for one of them only, except where a contract by the
 * month gives way to one that counts days: there it may end the month of the one and an interval of the other.
 */
export interface RoutineVisitDue {
  readonly terms: ServiceTerms
  /** The calendar month it is for, or the day from which the days were counted. */
  readonly about: string
  /** First and last day on which a visit is in time for it. */
  readonly first: Day
  readonly lastDay: Day
  /** Day of the visit that counts for it; after the last day if that was late. */
  readonly made: Day | undefined
  /**
   * The gap that begins with it. None where a visit was in time, where it lies in a gap that began with the one
   * before, and where service ended before the last day in time.
   */
  readonly gap: RoutineVisitGap | undefined
  /** Service ended before the last day in time, so that whether the visit was owed cannot be told. */
  readonly ended: boolean
}

/** Days with a routine visit, in order. */
export function routineVisitDays(view: SiteView): Day[] {
  return [...new Set(view.routineVisits.map((visit) => visit.day))]
}

/** The gap from the day after the last day in time; nothing while there is no contract to ask for the visit. */
export function gapAfter(
  view: SiteView,
  terms: ServiceTerms,
  about: string,
  lastDay: Day,
  visited: Day | undefined,
): RoutineVisitGap | undefined {
  const from = lastDay + 1
  if (!serviceTermsOn(view, from)) return undefined
  const found = lateness(view, from, visited, endOfService(view, from))
  return found && { ...found, terms, about, lastDay }
}

/** First day after `from` on which no contract is in force. */
function endOfService(view: SiteView, from: Day): Day | undefined {
  let day: Day | undefined = from
  for (const piece of servicePieces(view)) {
    if (piece.until !== undefined && piece.until <= day) continue
    if (piece.from > day) return day
    if (piece.until === undefined) return undefined
    day = piece.until
  }
  return day
}
