import { dayOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import type { KeyChange, Keyed } from './changed-keys.js'
import { canonical, changedKeys, isKeyed, own } from './changed-keys.js'

/**
 * What a change of a reference file rewrote of the past: dated spans that had begun on the day of the change and say
 * something else since, or are gone. A new span, the end of an open one, a last day that is still to come put off or
 * forward, and a copy or its sum put beside are how such a file is meant to be kept.
 */
export function rewrittenSpans(
  before: unknown,
  after: unknown,
  on: Day,
  path: readonly string[] = [],
): KeyChange[] {
  // An exception is one span by itself.
  if (isSpan(before) && isSpan(after) && path.length === 0) return changesOfSpan(before, after, on, path)
  if (isKeyed(before)) {
    const others = isKeyed(after) ? after : {}
    return Object.keys(before).flatMap((key) =>
      rewrittenSpans(own(before, key), own(others, key), on, [...path, key]),
    )
  }
  if (!Array.isArray(before)) return []
  return rewrittenInList(before, Array.isArray(after) ? after : [], on, path)
}

interface Span extends Keyed {
  readonly from: string
}

function isSpan(value: unknown): value is Span {
  return isKeyed(value) && typeof own(value, 'from') === 'string'
}

/** Spans that stand unchanged are set aside first; each of the rest is held against one that begins on the same day. */
function rewrittenInList(
  before: readonly unknown[],
  after: readonly unknown[],
  on: Day,
  path: readonly string[],
): KeyChange[] {
  const left = after.filter(isSpan)
  const changed = before.filter(isSpan).filter((span) => {
    const same = left.findIndex((other) => canonical(other) === canonical(span))
    if (same !== -1) left.splice(same, 1)
    return same === -1
  })
  return changed.flatMap((span) => {
    if (!hasBegun(span, on)) return []
    const at = nearestTo(span, left)
    const [now] = at === -1 ? [] : left.splice(at, 1)
    const named = [...path, `from ${span.from}`]
    return now === undefined
      ? [{ path: named, before: span, after: undefined }]
      : changesOfSpan(span, now, on, named)
  })
}

/** Several may begin on one day: the one that says most of the same. Or one that only begins on another day. */
function nearestTo(span: Span, others: readonly Span[]): number {
  let best = -1
  let least = Number.POSITIVE_INFINITY
  for (const [at, other] of others.entries()) {
    const differences = changedKeys(span, other).length
    if ((other.from === span.from || differences === 1) && differences < least) {
      least = differences
      best = at
    }
  }
  return best
}

/** What stands at the path of a change, in every span that begins on the day the path names. */
export function valuesAt(record: unknown, path: readonly string[]): unknown[] {
  const [step, ...rest] = path
  if (step === undefined) return [record]
  if (isKeyed(record)) return valuesAt(own(record, step), rest)
  if (!Array.isArray(record)) return [undefined]
  const from = /^from (.*)$/.exec(step)?.[1]
  if (from === undefined) return valuesAt(record[Number(step)], rest)
  return record.filter((item) => isSpan(item) && item.from === from).flatMap((item) => valuesAt(item, rest))
}

/** What is put beside a span without changing what it says. */
const papers: ReadonlySet<string> = new Set(['file', 'sha256'])

function changesOfSpan(before: Span, after: Span, on: Day, path: readonly string[]): KeyChange[] {
  if (!hasBegun(before, on)) return []
  return changedKeys(before, after)
    .filter((change) => {
      const key = change.path.at(-1) ?? ''
      if ((change.before === undefined && papers.has(key)) || isOfDaysToCome(change, on)) return false
      return key !== 'until' || change.path.length > 1 || !isOrderlyEnd(change, on)
    })
    .map((change) => ({ ...change, path: [...path, ...change.path] }))
}

/** An open span that is ended on whatever day, and a last day still to come that is changed to another such day. */
function isOrderlyEnd({ before, after }: KeyChange, on: Day): boolean {
  if (before === undefined) return true
  return isToCome(before, on) && (after === undefined || isToCome(after, on))
}

/** Days after which a day that was noted late, such as one on which schools were closed for snow, is one of the past. */
const daysToNote = 7

/** A day or days put into a span about when they came, or days still to come that were changed or taken out. */
function isOfDaysToCome({ path, before, after }: KeyChange, on: Day): boolean {
  const inner = [before, after].flatMap((value) => (isKeyed(value) ? Object.keys(value) : []))
  if (inner.length > 0) {
    const at = (value: unknown, key: string) => (isKeyed(value) ? own(value, key) : undefined)
    return inner.every((key) =>
      isOfDaysToCome({ path: [...path, key], before: at(before, key), after: at(after, key) }, on),
    )
  }
  if (path.length < 2) return false
  const [was, is] = [firstDay(before), firstDay(after)]
  if ((before !== undefined && was === null) || (after !== undefined && is === null)) return false
  return (was === null || was >= on) && (is === null || is >= on - daysToNote)
}

function firstDay(value: unknown): Day | null {
  return typeof value === 'string' ? dayOf(value.slice(0, 10)) : null
}

function isToCome(date: unknown, on: Day): boolean {
  const day = typeof date === 'string' ? dayOf(date) : null
  return day !== null && day >= on
}

function hasBegun({ from }: Span, on: Day): boolean {
  return (dayOf(from) ?? Number.POSITIVE_INFINITY) <= on
}
