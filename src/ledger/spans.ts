import { dayOf } from '../measure/calendar.js'
import type { Day } from '../types.js'

/** A dated span as records write it: both ends are days on which it holds. */
export interface DatedSpan {
  readonly from: string
  readonly until?: string | undefined
}

/** A date of a record as a day; a date that is not in the calendar was reported when it was read. */
export function dayIn(text: string): Day {
  return dayOf(text) ?? 0
}

export function holdsOn(span: DatedSpan, day: Day): boolean {
  return dayIn(span.from) <= day && (span.until === undefined || day <= dayIn(span.until))
}

/**
 * What a reference record said on a day: of the spans that hold, the one that began last. The only way to read
 * dated spans, so that a renewed licence or a new label never rewrites the past.
 */
export function inForce<S extends DatedSpan>(spans: readonly S[] | undefined, day: Day): S | undefined {
  let best: S | undefined
  for (const span of spans ?? []) {
    if (holdsOn(span, day) && (best === undefined || dayIn(span.from) >= dayIn(best.from))) best = span
  }
  return best
}

/** `2025-12-22 to 2026-01-02`, or one day, as first and last day. */
export function firstAndLast(text: string): readonly [Day, Day] {
  const [first = '', last = first] = text.split(' to ')
  return [dayIn(first), dayIn(last)]
}
