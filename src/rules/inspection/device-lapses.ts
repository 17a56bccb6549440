import type { DeviceHistory } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { firstOfMonth } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import type { CheckTerms } from './check-terms.js'
import { checkTermsOn, lastDayInTime, monthCoveredBy } from './check-terms.js'
import type { DeviceGap } from './device-gaps.js'
import { gapsOf } from './device-gaps.js'

/** A gap between looks, what asks for a look, and the last day on which one is in time. */
export interface TimedGap {
  readonly gap: DeviceGap
  readonly terms: CheckTerms
  readonly lastDay: Day
}

/** Whether a gap became longer than what was asked, or, if still open, will. */
export function ranOut({ gap, lastDay }: TimedGap): boolean {
  return gap.end === undefined || gap.end > lastDay
}

/** Walks the gaps of one device and gives those in which a look was asked for. */
export function* timedGapsOf(
  view: SiteView,
  device: DeviceHistory,
  changes: readonly Day[],
): Iterable<TimedGap> {
  let covered: Day | undefined
  for (const gap of gapsOf(device)) {
    if (gap.end !== undefined && gap.end < view.begins) continue
    const since = Math.max(gap.since, view.begins)
    const terms = checkTermsOn(view, device, since)
    covered =
      gap.how === 'read' && covered !== undefined
        ? monthCoveredBy(view, terms?.service, since, covered)
        : firstOfMonth(since)
    if (gap.outOfService) continue
    const found = timed(view, device, { ...gap, since }, terms, covered, changes)
    if (found) yield { ...found, gap }
  }
}

/**
 * When the interval runs out: under the terms of the day of the last look. If other terms begin before that, they
 * hold, and never leave less than no time: what they would find overdue at once is counted from their first day.
 */
function timed(
  view: SiteView,
  device: DeviceHistory,
  gap: DeviceGap,
  begun: CheckTerms | undefined,
  covered: Day,
  changes: readonly Day[],
): TimedGap | undefined {
  const { since } = gap
  let terms = begun
  let lastDay = terms && lastDayInTime(view, device, terms, since, covered)
  for (const change of changes) {
    if (change <= since) continue
    if ((lastDay !== undefined && change > lastDay) || (gap.end !== undefined && change >= gap.end)) break
    const next = checkTermsOn(view, device, change)
    if (same(terms, next)) continue
    const counted = next && lastDayInTime(view, device, next, since, covered)
    lastDay =
      counted === undefined || counted >= change
        ? counted
        : next && lastDayInTime(view, device, next, change, firstOfMonth(change))
    terms = next
  }
  return terms && lastDay !== undefined ? { gap, terms, lastDay } : undefined
}

function same(a: CheckTerms | undefined, b: CheckTerms | undefined): boolean {
  return (
    a?.text === b?.text &&
    a?.adopted === b?.adopted &&
    a?.service?.contract['routine-visits'] === b?.service?.contract['routine-visits']
  )
}
