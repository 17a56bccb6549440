import type { ServicePiece, ServiceTerms } from '../../ledger/service-terms.js'
import { leastSchoolDays, monthlyLastDay, weekdaysBetween } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import { addMonths, firstOfMonth, lastOfMonth, monthOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import type { RoutineVisitDue } from './routine-visits.js'
import { gapAfter } from './routine-visits.js'

/** Calendar is looked at this far beyond the as-of day for what comes due next. */
const daysAhead = 800

interface MonthDue extends RoutineVisitDue {
  readonly month: Day
  /** Days of visits in the month itself that do not count for the month before. */
  readonly own: readonly Day[]
}

/**
 * One visit for each calendar month of which enough school days are left under the contract. A visit in the days
 * of grace counts for the month before if that month has none; no visit counts for two months.
 */
export function monthlyVisitsDue(
  view: SiteView,
  pieces: readonly ServicePiece[],
  days: readonly Day[],
): RoutineVisitDue[] {
  return withLateVisits([...monthsDue(view, pieces, days)], new Set(days))
}

function* monthsDue(
  view: SiteView,
  pieces: readonly ServicePiece[],
  days: readonly Day[],
): Iterable<MonthDue> {
  const start = pieces[0]?.from
  if (start === undefined) return
  let next = 0
  let countsBefore: Day | undefined
  for (let month = firstOfMonth(start); month <= view.asOf + daysAhead; month = addMonths(month, 1)) {
    const last = lastOfMonth(month)
    while (next < days.length && (days[next] ?? 0) < month) next++
    const own: Day[] = []
    for (; next < days.length && (days[next] ?? 0) <= last; next++) {
      const day = days[next]
      if (day !== undefined && day !== countsBefore) own.push(day)
    }
    const terms = termsOfMonth(view, pieces, month, last)
    if (!terms) continue
    const lastDay = monthlyLastDay(month, terms)
    const due = { terms, about: monthOf(month), first: Math.max(month, start), lastDay, month, own }
    if (own.length > 0) {
      yield { ...due, made: own[0], gap: undefined, ended: false }
      continue
    }
    const inGrace = days.slice(next, next + 2).find((day) => day <= lastDay && day !== countsBefore)
    if (inGrace !== undefined) {
      countsBefore = inGrace
      yield { ...due, made: inGrace, gap: undefined, ended: false }
      continue
    }
    const visited = days.find((day) => day > lastDay)
    const gap = gapAfter(view, terms, due.about, lastDay, visited)
    if (gap || lastDay < view.asOf) yield { ...due, made: undefined, gap, ended: gap === undefined }
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

/**
 * Gives the visit that ended a gap to the last month it was late for, unless its own month has no other: then it
 * counts for its own, and the earlier month has none.
 */
function withLateVisits(dues: readonly MonthDue[], days: ReadonlySet<Day>): MonthDue[] {
  const told = [...dues]
  dues.forEach((due, at) => {
    const visit = due.gap?.until
    if (visit === undefined || !days.has(visit) || dues[at + 1]?.gap?.until === visit) return
    const ownAt = told.findIndex(({ month }) => month === firstOfMonth(visit))
    const own = told[ownAt]
    if (own && !own.own.includes(visit)) return
    const other = own?.own.find((day) => day !== visit)
    if (own && other === undefined) return
    if (own) told[ownAt] = { ...own, made: other }
    told[at] = { ...due, made: visit }
  })
  return told
}
