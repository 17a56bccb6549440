/** A span of days: the first is in it, `until` is not. Days as in calendar.ts. Empty when until <= from. */
export interface DaySpan {
  from: number
  until: number
}

/** The part two spans share, or null when they share no day. */
export function overlap(a: DaySpan, b: DaySpan): DaySpan | null {
  const from = Math.max(a.from, b.from)
  const until = Math.min(a.until, b.until)
  return from < until ? { from, until } : null
}

/** How many days two spans share. */
export function daysInCommon(a: DaySpan, b: DaySpan): number {
  const shared = overlap(a, b)
  return shared === null ? 0 : shared.until - shared.from
}

/** The same days as spans in order that neither overlap nor touch; empty spans vanish. */
export function joined(spans: readonly DaySpan[]): DaySpan[] {
  const result: DaySpan[] = []
  const inOrder = spans.filter((span) => span.from < span.until).sort((a, b) => a.from - b.from)
  for (const { from, until } of inOrder) {
    const last = result[result.length - 1]
    if (last !== undefined && from <= last.until) last.until = Math.max(last.until, until)
    else result.push({ from, until })
  }
  return result
}

/** How many days lie in at least one of the spans. */
export function daysInAny(spans: readonly DaySpan[]): number {
  return joined(spans).reduce((sum, { from, until }) => sum + until - from, 0)
}
