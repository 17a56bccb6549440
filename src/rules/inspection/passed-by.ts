import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import { standOn } from '../../ledger/standing.js'
import type { Day } from '../../types.js'
import { checkTermsOn, longerThanRoutine } from './check-terms.js'
import { leftUnusable } from './device-gaps.js'

/** Routine visits that went by one device, and the day it was read or taken up after each. */
export function* passedBy(
  view: SiteView,
  device: DeviceHistory,
): Iterable<readonly [LoadedEvent<'visit'>, Day | undefined]> {
  const gone = device.takenUp?.day
  let next = 0
  for (const visit of view.routineVisits) {
    const { day } = visit
    if (day < view.begins || day <= device.set.day) continue
    if (gone !== undefined && gone <= day) return
    while (next < device.checks.length && (device.checks[next]?.moment.day ?? 0) < day) next++
    // Another visit of the same morning may have read it.
    if (device.checks[next]?.moment.day === day) continue
    if (!wasOut(device, visit) || !inspectedWhereItStood(device, visit)) continue
    const last = lookFrom(device, next - 1, -1)
    // A lost device is told as lost; one with a longer interval of its own waits for that.
    if (last && leftUnusable(last)) continue
    if (longerThanRoutine(checkTermsOn(view, device, day))) continue
    yield [visit, lookFrom(device, next, 1)?.moment.day ?? gone]
  }
}

/** The first look at a device from one of its checks on, forward (1) or back (-1); no access is no look. */
function lookFrom(device: DeviceHistory, start: number, step: 1 | -1): Check | undefined {
  for (let at = start; at >= 0 && at < device.checks.length; at += step) {
    const check = device.checks[at]
    if (check && !check.noAccess) return check
  }
  return undefined
}

/** Out since before the day of the visit, and not picked up on that day by anyone but the visit itself. */
function wasOut(device: DeviceHistory, visit: LoadedEvent<'visit'>): boolean {
  return device.out.some(
    (span) =>
      span.from < visit.day &&
      (span.until === undefined ||
        span.until > visit.day ||
        (span.until === visit.day && visit.data['picked-up']?.includes(device.id) === true)),
  )
}

/** A device is read before it is moved, so what counts is where it stood when the day began. */
function inspectedWhereItStood(device: DeviceHistory, visit: LoadedEvent<'visit'>): boolean {
  const area = standOn(device, visit.day)?.area
  return area !== undefined && visit.data.inspected?.includes(area) === true
}
