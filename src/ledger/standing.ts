import type { Day } from '../types.js'
import type { DeviceHistory, Stand } from './device-history.js'

/** Whether a device stood out on a day: set on it or before, not taken up before it, not picked up. */
export function isOut(device: DeviceHistory, day: Day): boolean {
  return device.out.some(({ from, until }) => from <= day && (until === undefined || day < until))
}

/** Where a device stood at the beginning of a day, before anything was moved on it; undefined before it was set. */
export function standOn(device: DeviceHistory, day: Day): Stand | undefined {
  return (
    device.stands.findLast((stand) => stand.from.day < day) ??
    device.stands.find((stand) => stand.from.day === day)
  )
}

/** How a device stands at the end of a day, after whatever was moved on it; undefined before it was set. */
export function standAtEndOf(device: DeviceHistory, day: Day): Stand | undefined {
  return device.stands.findLast((stand) => stand.from.day <= day)
}

/** Where a device stands at the end of a day. */
export function areaOn(device: DeviceHistory, day: Day): string {
  return standAtEndOf(device, day)?.area ?? device.setFacts.area
}

/** Whether a device is out, not picked up, at some time of a day. */
export function standsOutOn(device: DeviceHistory, day: Day): boolean {
  return device.out.some((span) => span.from <= day && (span.until === undefined || day <= span.until))
}
