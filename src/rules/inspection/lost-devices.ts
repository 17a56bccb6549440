import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Citation, Day } from '../../types.js'
import { leftUnusable } from './device-gaps.js'
import { earliest } from './lapse.js'

export const replaceParameter = 'device.replace'

/** A device found lost or spoilt and not renewed then. */
export interface LostDevice {
  readonly device: DeviceHistory
  /** The check that first said so. */
  readonly at: Check
  /** Last day on which it is renewed in time, and who says so. */
  readonly lastDay: Day
  readonly sources: readonly Citation[]
  /** Day it was renewed, found again, picked up or taken up. */
  readonly end: Day | undefined
}

/** Devices found lost or spoilt since the ledger answers for the site, where something says how soon to renew them. */
export function* lostDevices(view: SiteView): Iterable<LostDevice> {
  for (const device of view.devices) {
    for (const { at, day, end } of outOfService(device)) {
      const advice = view.district.parameters(replaceParameter, day)
      const days = advice && daysOf(advice.value)
      if (!advice || typeof days !== 'number' || day < view.begins) continue
      yield { device, at, lastDay: day + days, sources: advice.sources, end }
    }
  }
}

interface OutOfService {
  readonly at: Check
  readonly day: Day
  readonly end: Day | undefined
}

/** Stretches in which a device was known to be lost or spoilt, each from the check that first said so. */
function outOfService(device: DeviceHistory): OutOfService[] {
  const stretches: OutOfService[] = []
  let open: Check | undefined
  const close = (end: Day | undefined) => {
    if (!open) return
    const { day } = open.moment
    const picked = device.out.find((span) => span.from <= day && (span.until ?? day) >= day)?.until
    stretches.push({ at: open, day, end: earliest(picked, end) })
    open = undefined
  }
  for (const check of device.checks) {
    if (check.noAccess) continue
    if (leftUnusable(check)) open ??= check
    // One that was only missing can be found again; a spoilt one stays spoilt until it is renewed.
    else if (check.renewed || open?.reading?.unusable === 'missing') close(check.moment.day)
  }
  close(undefined)
  return stretches
}
