import type { Day } from '../types.js'
import type { SiteView } from './site-view.js'

/** Days on which something holds: [from, until). */
export interface HeldSpan {
  readonly from: Day
  readonly until?: Day
}

/**
 * The part of a span in which the site answers for anything: not before its records begin, not after it is closed.
 * Undefined when nothing of it is left.
 */
export function answeredFor(
  view: Pick<SiteView, 'begins' | 'ends'>,
  span: { readonly from: Day; readonly until?: Day | undefined },
): HeldSpan | undefined {
  const from = Math.max(span.from, view.begins)
  const closed = view.ends === undefined ? undefined : view.ends + 1
  const until =
    span.until === undefined || closed === undefined ? (span.until ?? closed) : Math.min(span.until, closed)
  if (until === undefined) return { from }
  return from < until ? { from, until } : undefined
}
