import type { ServicePiece, ServiceTerms } from '../../ledger/service-terms.js'
import { routineDays, routineDueDay, routineLastDay, serviceTermsOn } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { earliest } from './lapse.js'
import type { RoutineVisitDue } from './routine-visits.js'
import { gapAfter } from './routine-visits.js'

/** A stretch under terms that count the same days; `until` is the first day after it. */
interface Run {
  readonly from: Day
  until: Day | undefined
  readonly days: number
}

/** A visit that is due some days after a day, by the terms of that day. */
interface NextVisit {
  readonly terms: ServiceTerms
  readonly dueDay: Day
  readonly lastDay: Day
  /** The stretch is over before it could be overdue. */
  readonly cutOff: boolean
}

/** So many days from the last routine visit, or from where these terms began, to the next. */
export function* countedVisitsDue(
  view: SiteView,
  pieces: readonly ServicePiece[],
  days: readonly Day[],
): Iterable<RoutineVisitDue> {
  for (const run of runsOfSameInterval(pieces)) {
    const within = days.filter((day) => day > run.from && (run.until === undefined || day < run.until))
    let since = run.from
    for (let at = 0; at <= within.length; at++) {
      const next = nextVisit(view, run, since)
      if (!next) break
      const visit = within[at]
      if (visit === undefined || visit > next.lastDay) {
        yield* overdue(view, run, since, visit)
        if (visit === undefined) break
        since = visit
        continue
      }
      while (isBeyondWhatIsDue(view, run, next, within[at], within[at + 1])) at++
      const made = within[at] ?? visit
      yield { ...dueOf(next, since), made, gap: undefined, ended: false }
      since = made
    }
  }
}

/** Stretches that follow on each other and count the same days: a renewed contract does not start the count anew. */
function runsOfSameInterval(pieces: readonly ServicePiece[]): Run[] {
  const runs: Run[] = []
  for (const { from, until, terms } of pieces) {
    const days = routineDays(terms.contract)
    const last = runs.at(-1)
    if (days === undefined) continue
    if (last && last.until === from && last.days === days) last.until = until
    else runs.push({ from, until, days })
  }
  return runs
}

function nextVisit(view: SiteView, { days, until }: Run, since: Day): NextVisit | undefined {
  const { district } = view
  const terms = serviceTermsOn(view, since)
  if (!terms) return undefined
  const lastDay = routineLastDay(district, terms, since, days)
  return {
    terms,
    dueDay: routineDueDay(district, terms, since, days),
    lastDay,
    cutOff: until !== undefined && lastDay + 1 >= until,
  }
}

function dueOf({ terms, lastDay }: NextVisit, since: Day) {
  return { terms, about: isoOf(since), first: since + 1, lastDay }
}

/** Whether the visit after one would have been in time without it. */
function isBeyondWhatIsDue(
  view: SiteView,
  run: Run,
  asked: NextVisit,
  visit: Day | undefined,
  after: Day | undefined,
): boolean {
  if (visit === undefined || after === undefined || after > asked.lastDay) return false
  const fromHere = nextVisit(view, run, visit)
  return fromHere !== undefined && after <= fromHere.lastDay
}

/**
 * The visits that were due from one to the next where that was too long. The next one counts for the first for which
 * it is in time, or else for the last that was due by then; the others have none. They are one gap, which begins with
 * the first.
 */
function* overdue(view: SiteView, run: Run, since: Day, visit: Day | undefined): Iterable<RoutineVisitDue> {
  let from = since
  for (let isFirst = true; ; isFirst = false) {
    const next = nextVisit(view, run, from)
    if (!next) return
    const { terms, dueDay, lastDay, cutOff } = next
    const due = dueOf(next, from)
    const gap =
      isFirst && !cutOff ? gapAfter(view, terms, due.about, lastDay, earliest(visit, run.until)) : undefined
    const following = nextVisit(view, run, dueDay)
    if (visit !== undefined && (visit <= lastDay || !following || visit < following.dueDay)) {
      yield { ...due, made: visit, gap, ended: false }
      return
    }
    const ended = cutOff || (isFirst && !gap)
    if (!ended || (run.until !== undefined && dueDay < run.until && lastDay < view.asOf))
      yield { ...due, made: undefined, gap, ended }
    if (ended || (visit === undefined && lastDay >= view.asOf)) return
    from = dueDay
  }
}
