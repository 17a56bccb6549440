import type { DeviceHistory, Stand } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'

/** A device that stands on the as-of day. */
export interface StandingDevice {
  readonly device: DeviceHistory
  readonly stand: Stand
  /** Day from which it has stood there without a break. */
  readonly since: Day
}

/** Devices that stand on the as-of day, by id: set, not taken up, and not picked up for the time being. */
export function standingDevices(view: SiteView): Map<string, StandingDevice> {
  const standing = new Map<string, StandingDevice>()
  for (const device of view.devices) {
    const stand = device.stands.at(-1)
    const out = device.out.at(-1)
    if (device.takenUp || !stand || !out || out.until !== undefined) continue
    standing.set(device.id, { device, stand, since: Math.max(stand.from.day, out.from) })
  }
  return standing
}
