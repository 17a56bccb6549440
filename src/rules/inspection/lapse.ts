import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'

/** When something is lacking: first day, and first day no longer. */
export interface Lapse {
  readonly from: Day
  readonly until?: Day
}

export function spell(from: Day, until: Day | undefined): Lapse {
  return until === undefined ? { from } : { from, until }
}

/**
 * A lapse within the days the ledger answers for the site: nothing is lacking before it begins or once it is
 * closed. Undefined when nothing is left of it, as when it was made good on the day it arose.
 */
export function lapse(
  view: SiteView,
  from: Day,
  ...endings: readonly (Day | undefined)[]
): Lapse | undefined {
  const late = lateness(view, from, ...endings)
  return late?.until === late?.from ? undefined : late
}

/**
 * The same for something with a last day in time, `from` being the day after it. What was done on that very day
 * was done a day late: no day ends with it lacking, yet it is kept, with `until` the same as `from`.
 */
export function lateness(
  view: SiteView,
  from: Day,
  ...endings: readonly (Day | undefined)[]
): Lapse | undefined {
  const starts = Math.max(from, view.begins)
  if (view.ends !== undefined && starts > view.ends) return undefined
  const stops = earliest(view.ends === undefined ? undefined : view.ends + 1, ...endings)
  if (stops === undefined) return { from: starts }
  return stops < starts ? undefined : { from: starts, until: stops }
}

export function earliest(...days: readonly (Day | undefined)[]): Day | undefined {
  let first: Day | undefined
  for (const day of days) if (day !== undefined && (first === undefined || day < first)) first = day
  return first
}

/** Lapses that other problems tell, in an order that lets one be found without looking at each. */
export interface ToldElsewhere {
  readonly byStart: readonly Lapse[]
  /** For each place of `byStart`, the last day on which one of those up to it ends. */
  readonly endOfThoseBefore: readonly Day[]
}

export function toldElsewhere(lapses: readonly Lapse[]): ToldElsewhere {
  const byStart = [...lapses].sort((a, b) => a.from - b.from)
  let end = Number.NEGATIVE_INFINITY
  const endOfThoseBefore = byStart.map(({ until }) => {
    end = Math.max(end, until ?? Number.POSITIVE_INFINITY)
    return end
  })
  return { byStart, endOfThoseBefore }
}

/**
 * What is left of a lapse where other problems tell the same cause better: nothing if one of them stands when it
 * begins, else it ends when the first of them begins. What those only foretell changes nothing yet.
 */
export function withoutToldElsewhere(
  found: Lapse | undefined,
  told: readonly ToldElsewhere[],
  asOf: Day,
): Lapse | undefined {
  if (!found) return undefined
  // What was made good on the very day this began still tells a lapse of no days.
  const over = found.until === found.from ? found.from - 1 : found.from
  let until = found.until
  for (const { byStart, endOfThoseBefore } of told) {
    const begun = countUpTo(byStart, found.from)
    if ((endOfThoseBefore[begun - 1] ?? over) > over) return undefined
    const next = byStart[begun]
    if (next && next.from <= asOf) until = earliest(until, next.from)
  }
  return spell(found.from, until)
}

/** How many of the lapses, in order of their first days, have begun by a day. */
function countUpTo(byStart: readonly Lapse[], day: Day): number {
  let low = 0
  let high = byStart.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((byStart[middle]?.from ?? 0) <= day) low = middle + 1
    else high = middle
  }
  return low
}

/** Of findings that may lie ahead, all that have begun and the one that begins next. */
export function onlyNext<F extends { readonly from: Day }>(findings: readonly F[], asOf: Day): F[] {
  const begun = findings.filter((finding) => finding.from <= asOf)
  let next: F | undefined
  for (const finding of findings)
    if (finding.from > asOf && (!next || finding.from < next.from)) next = finding
  return next ? [...begun, next] : begun
}
