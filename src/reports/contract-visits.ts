import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import { routineVisitsDue } from '../rules/inspection/routine-visit-gaps.js'
import type { Day } from '../types.js'
import type { Settled } from './contract-outcomes.js'
import { isSettledIn, settled } from './contract-outcomes.js'
import { spanIndexOn } from './contract-spans.js'
import type { Period } from './period.js'

/** A routine visit that was due, and what the records show of it. */
export interface VisitDueFact extends Settled {
  readonly index: number
  /** The calendar month it is for, or the day from which the days were counted. */
  readonly about: string
  readonly first: Day
  readonly lastDay: Day
  readonly made: Day | undefined
  /** First routine visit after the last day, where none counts for it. */
  readonly next: Day | undefined
  readonly by: string
  readonly files: readonly string[]
}

/** A routine visit that nothing due asked for. */
export interface VisitBeyond {
  readonly index: number
  readonly file: string
}

export interface VisitFacts {
  readonly due: readonly VisitDueFact[]
  readonly beyond: readonly VisitBeyond[]
}

/** Routine visits due in a period, and the recorded ones that count for none that was due. */
export function visitFacts(view: SiteView, period: Period): VisitFacts {
  const onDay = new Map<Day, SiteView['routineVisits'][number][]>()
  for (const visit of view.routineVisits) getOrMake(onDay, visit.day, () => []).push(visit)
  const dues = routineVisitsDue(view)
  const due = dues
    .filter(({ made, first }) => made !== undefined || first <= view.asOf)
    .map(({ terms, about, first, lastDay, made, ended }): VisitDueFact => {
      const visits = made === undefined ? [] : (onDay.get(made)?.slice(0, 1) ?? [])
      return {
        index: terms.index,
        about,
        first,
        lastDay,
        made,
        next: made === undefined ? view.routineVisits.find(({ day }) => day > lastDay)?.day : undefined,
        ...(ended ? { outcome: 'cannot be told', daysLate: 0 } : settled(made, lastDay, view.asOf)),
        by: visits.map(({ data }) => data.by).join(', '),
        files: [view.site.file, ...visits.map(({ file }) => file)],
      }
    })
    .filter(({ outcome, made, lastDay }) => isSettledIn(outcome, made, lastDay, period, view.asOf))
  return { due, beyond: beyondOf(view, period, new Set(dues.flatMap(({ made }) => made ?? []))) }
}

/** The first visit of a day that counts for something due is that; all else is beyond. */
function beyondOf(view: SiteView, { from, to }: Period, counted: Set<Day>): VisitBeyond[] {
  return view.routineVisits.flatMap(({ day, file }) => {
    if (counted.delete(day) || day < Math.max(from, view.begins) || day > to) return []
    return [{ index: spanIndexOn(view, day), file }]
  })
}
