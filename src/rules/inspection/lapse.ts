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

/**
 * What is left of a lapse where other problems tell the same cause better: nothing if one of them stands when it
 * begins, else it ends when the first of them begins. What those only foretell changes nothing yet.
 */
export function withoutToldElsewhere(
  found: Lapse | undefined,
  told: readonly Lapse[],
  asOf: Day,
): Lapse | undefined {
  if (!found) return undefined
  let until = found.until
  for (const other of told) {
    // What was made good on the very day this began still tells a lapse of no days.
    const over = found.until === found.from ? found.from - 1 : found.from
    if (other.until !== undefined && other.until <= over) continue
    if (other.from <= found.from) return undefined
    if (other.from <= asOf) until = earliest(until, other.from)
  }
  return spell(found.from, until)
}

/** Of findings that may lie ahead, all that have begun and the one that begins next. */
export function onlyNext<F extends { readonly from: Day }>(findings: readonly F[], asOf: Day): F[] {
  const begun = findings.filter((finding) => finding.from <= asOf)
  let next: F | undefined
  for (const finding of findings)
    if (finding.from > asOf && (!next || finding.from < next.from)) next = finding
  return next ? [...begun, next] : begun
}
