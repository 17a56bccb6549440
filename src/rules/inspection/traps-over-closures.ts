import { closuresOf } from '../../ledger/closures.js'
import type { DeviceHistory } from '../../ledger/device-history.js'
import { daysOf } from '../../ledger/parameters.js'
import type { Closure } from '../../ledger/school-calendar.js'
import type { SiteView } from '../../ledger/site-view.js'
import { firstOfMonth } from '../../measure/calendar.js'
import type { Citation } from '../../types.js'
import { checkTermsOn, lastDayInTime } from './check-terms.js'
import type { DeviceGap } from './device-gaps.js'
import { gapsOf, holdsAnimals } from './device-gaps.js'
import type { Lapse } from './lapse.js'
import { lapse } from './lapse.js'

/** Days of a closure, one after the other, that a set trap may stand without anyone looking. */
export const closedDaysParameter = 'trap.closed-days'

/** A trap that stands out in a closure for longer than that. */
export interface TrapOverClosure extends Lapse {
  readonly gap: DeviceGap
  readonly closure: Closure
  /** Closed days running that would have been in time, and who says so. */
  readonly days: number
  readonly sources: readonly Citation[]
}

/**
 * Gaps between looks at one trap in which it stood out unattended over a closure, and the next one to come. A
 * longer interval counts only where the contract or a plan states it for this kind of trap.
 */
export function trapOverClosures(view: SiteView, device: DeviceHistory): TrapOverClosure[] {
  if (!holdsAnimals(device.kind)) return []
  const found: TrapOverClosure[] = []
  const closures = closuresOf(view.district)
  let next = 0
  for (const gap of gapsOf(device)) {
    while ((closures[next]?.last ?? gap.since + 1) <= gap.since) next++
    if (gap.outOfService) continue
    const over = firstIn(view, device, gap, closures, next)
    if (over) found.push(over)
  }
  return found
}

function firstIn(
  view: SiteView,
  device: DeviceHistory,
  gap: DeviceGap,
  closures: readonly Closure[],
  next: number,
): TrapOverClosure | undefined {
  const advice = view.district.parameters(closedDaysParameter, gap.since)
  const days = advice && daysOf(advice.value)
  if (!advice || typeof days !== 'number') return undefined
  const terms = checkTermsOn(view, device, gap.since)
  const stated =
    terms?.adopted === true
      ? (lastDayInTime(view, device, terms, gap.since, firstOfMonth(gap.since)) ?? gap.since)
      : gap.since
  for (let at = next; at < closures.length; at++) {
    const closure = closures[at]
    if (!closure) break
    if (gap.end !== undefined && closure.first >= gap.end) return undefined
    const attended = Math.max(closure.first - 1, gap.since, view.begins)
    const from = Math.max(attended + days, stated) + 1
    if (from > closure.last) continue
    const when = lapse(view, from, gap.end)
    return when && { ...when, gap, closure, days, sources: advice.sources }
  }
  return undefined
}
