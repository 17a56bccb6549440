import type { DeviceHistory } from '../../ledger/device-history.js'
import { deviceTable } from '../../records/tables.js'

/** A device in one of its lives, since an id may be used again after it was taken up. */
export interface DeviceLife {
  readonly device: DeviceHistory
  /** 1 for the first life under this id. */
  readonly life: number
  /** Whether devices of its kind count animals. */
  readonly counts: boolean
}

/** Devices of a site in order of the day they were set, each life numbered. */
export function livesOf(devices: readonly DeviceHistory[]): DeviceLife[] {
  const lives = new Map<string, number>()
  return devices.map((device) => {
    const life = (lives.get(device.id) ?? 0) + 1
    lives.set(device.id, life)
    return { device, life, counts: deviceTable()[device.kind].reads.includes('counts') }
  })
}
