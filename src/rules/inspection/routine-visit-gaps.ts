import type { ServicePiece, ServiceTerms } from '../../ledger/service-terms.js'
import {
  leastSchoolDays,
  monthlyLastDay,
  routineDays,
  routineLastDay,
  servicePieces,
  serviceTermsOn,
  weekdaysBetween,
} from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import { addMonths, firstOfMonth, isoOf, lastOfMonth, monthOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import type { Lapse } from './lapse.js'
import { earliest, lateness, onlyNext } from './lapse.js'

/** A routine visit that the contract asks for and that is not there in time. */
export interface RoutineVisitGap extends Lapse {
  readonly terms: ServiceTerms
  /** The calendar month that has none, or the day from which the days were counted. */
  readonly about: string
  readonly lastDay: Day
}

/** Calendar is looked at this far beyond the as-of day for what comes due next. */
const daysAhead = 800

/** Every gap between routine visits, and the next one to come. */
export function routineVisitGaps(view: SiteView): RoutineVisitGap[] {
  const days = [...new Set(view.routineVisits.map((visit) => visit.day))]
  const pieces = servicePieces(view)
  const monthly = pieces.filter(({ terms }) => routineDays(terms.contract) === undefined)
  const gaps = [...monthlyGaps(view, monthly, days), ...countedGaps(view, pieces, days)]
  return onlyNext(gaps, view.asOf).sort((a, b) => a.from - b.from)
}

/**
 * One visit for each calendar month of which enough school days are left under the contract. A visit in the days
 * of grace counts for the month before if that month has none; no visit counts for two months.
 */
function* monthlyGaps(
  view: SiteView,
  pieces: readonly ServicePiece[],
  days: readonly Day[],
): Iterable<RoutineVisitGap> {
  const start = pieces[0]?.from
  if (start === undefined) return
  let next = 0
  let countsBefore: Day | undefined
  for (let month = firstOfMonth(start); month <= view.asOf + daysAhead; month = addMonths(month, 1)) {
    const last = lastOfMonth(month)
    while (next < days.length && (days[next] ?? 0) < month) next++
    let own = false
    for (; next < days.length && (days[next] ?? 0) <= last; next++) own ||= days[next] !== countsBefore
    const terms = termsOfMonth(view, pieces, month, last)
    if (!terms || own) continue
    const lastDay = monthlyLastDay(month, terms)
    const late = days.slice(next, next + 2).find((day) => day <= lastDay && day !== countsBefore)
    if (late !== undefined) {
      countsBefore = late
      continue
    }
    const gap = told(view, terms, monthOf(month), lastDay, firstAfter(days, lastDay))
    if (gap) yield gap
    if (gap && gap.from > view.asOf) return
  }
}

/** The terms under which a month is due; undefined where too little of it is in session under the contract. */
function termsOfMonth(
  view: SiteView,
  pieces: readonly ServicePiece[],
  first: Day,
  last: Day,
): ServiceTerms | undefined {
  let terms: ServiceTerms | undefined
  let served = 0
  for (const piece of pieces) {
    const from = Math.max(first, piece.from)
    const to = Math.min(last, piece.until === undefined ? last : piece.until - 1)
    if (from > to) continue
    terms = piece.terms
    served += weekdaysBetween(view.district, from, to, piece.terms.inRecess)
  }
  return served >= leastSchoolDays(view.district, last) ? terms : undefined
}

/** So many days from the last routine visit, or from where these terms began, to the next. */
function* countedGaps(
  view: SiteView,
  pieces: readonly ServicePiece[],
  days: readonly Day[],
): Iterable<RoutineVisitGap> {
  for (const run of runsOfSameInterval(pieces)) {
    let since = run.from
    const within = days.filter((day) => day > run.from && (run.until === undefined || day < run.until))
    for (const day of [...within, undefined]) {
      const terms = serviceTermsOn(view, since)
      if (!terms) break
      const lastDay = routineLastDay(view.district, terms, since, run.days)
      if (run.until !== undefined && lastDay + 1 >= run.until) break
      if (day === undefined || day > lastDay) {
        const gap = told(view, terms, isoOf(since), lastDay, earliest(day, run.until))
        if (gap) yield gap
      }
      if (day !== undefined) since = day
    }
  }
}

/** Stretches that follow on each other and count the same days: a renewed contract does not start the count anew. */
function runsOfSameInterval(pieces: readonly ServicePiece[]) {
  const runs: { from: Day; until: Day | undefined; days: number }[] = []
  for (const { from, until, terms } of pieces) {
    const days = routineDays(terms.contract)
    const last = runs.at(-1)
    if (days === undefined) continue
    if (last && last.until === from && last.days === days) last.until = until
    else runs.push({ from, until, days })
  }
  return runs
}

/** The gap from the day after the last day in time; nothing while there is no contract to ask for the visit. */
function told(
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

function firstAfter(days: readonly Day[], day: Day): Day | undefined {
  return days.find((visit) => visit > day)
}
