import { routineDays, servicePieces } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import { onlyNext } from './lapse.js'
import type { RoutineVisitDue, RoutineVisitGap } from './routine-visits.js'
import { routineVisitDays } from './routine-visits.js'
import { countedVisitsDue } from './routine-visits-counted.js'
import { monthlyVisitsDue } from './routine-visits-monthly.js'

/** Every routine visit the contract asked for up to the as-of day, and those that come due next. */
export function routineVisitsDue(view: SiteView): RoutineVisitDue[] {
  const days = routineVisitDays(view)
  const pieces = servicePieces(view)
  const monthly = pieces.filter(({ terms }) => routineDays(terms.contract) === undefined)
  return [...monthlyVisitsDue(view, monthly, days), ...countedVisitsDue(view, pieces, days)]
}

/** Every gap between routine visits, and the next one to come. */
export function routineVisitGaps(view: SiteView): RoutineVisitGap[] {
  const gaps = routineVisitsDue(view).flatMap(({ gap }) => gap ?? [])
  return onlyNext(gaps, view.asOf).sort((a, b) => a.from - b.from)
}
