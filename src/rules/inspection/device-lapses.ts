import type { DeviceHistory } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { firstOfMonth } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import type { CheckTerms } from './check-terms.js'
import { checkTermsOn, lastDayInTime, monthCoveredBy } from './check-terms.js'
import type { DeviceGap } from './device-gaps.js'
import { gapsOf } from './device-gaps.js'

/** A gap between looks that became longer than what was asked, or, if still open, will. */
export interface DeviceLapse {
  readonly gap: DeviceGap
  readonly terms: CheckTerms
  readonly lastDay: Day
}

/** Walks the gaps of one device and gives those in which the interval in force ran out. */
export function* lapsesOf(
  view: SiteView,
  device: DeviceHistory,
  changes: readonly Day[],
): Iterable<DeviceLapse> {
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
    const found = ranOut(view, device, { ...gap, since }, terms, covered, changes)
    if (found) yield { ...found, gap }
  }
}

/**
 * When the interval runs out: under the terms of the day of the last look. If other terms begin before that, they
 * hold, and never leave less than no time: what they would find overdue at once is counted from their first day.
 */
function ranOut(
  view: SiteView,
  device: DeviceHistory,
  gap: DeviceGap,
  begun: CheckTerms | undefined,
  covered: Day,
  changes: readonly Day[],
): DeviceLapse | undefined {
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
  if (!terms || lastDay === undefined || (gap.end !== undefined && gap.end <= lastDay)) return undefined
  return { gap, terms, lastDay }
}

function same(a: CheckTerms | undefined, b: CheckTerms | undefined): boolean {
  return (
    a?.text === b?.text &&
    a?.adopted === b?.adopted &&
    a?.service?.contract['routine-visits'] === b?.service?.contract['routine-visits']
  )
}
