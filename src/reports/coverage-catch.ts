import type { Check, DeviceHistory } from '../ledger/device-history.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Day } from '../types.js'
import { canBeSamePest, isMeantFor } from './coverage-devices.js'
import type { Period } from './period.js'

/** What devices showed of one pest in one area in a period. */
export interface AreaCatch {
  /** Animals caught, in whatever device; also on boards that were full or wet. */
  readonly caught: number
  /** A device that counts nothing showed the pest: tracks, a station eaten by termites, a block pushed aside. */
  readonly shown: boolean
  /** Usable effort of devices that are for the pest and count, in trap-nights. */
  readonly trapNights: number
  readonly daysRead: number
  /** The last day read with any effort, and the effort behind it. */
  readonly last?: { readonly day: Day; readonly trapNights: number }
  /** Effort of readings after the day of the last complaint or sighting. */
  readonly trapNightsSince: number
  /** Whether any device for the pest was read there, or should have been. */
  readonly read: boolean
  readonly files: readonly string[]
}

interface CheckOf {
  readonly device: DeviceHistory
  readonly check: Check
}

/** The checks of a period by the area they were made in. */
export type ChecksByArea = ReadonlyMap<string, readonly CheckOf[]>

export function checksByArea(view: SiteView, { from, to }: Period): ChecksByArea {
  const byArea = new Map<string, CheckOf[]>()
  for (const device of view.devices)
    for (const check of device.checks)
      if (check.moment.day >= from && check.moment.day <= to)
        getOrMake(byArea, check.area, () => []).push({ device, check })
  return byArea
}

/** `area` undefined: the whole site. `since`: the day of the last complaint or sighting. */
export function areaCatchOf(
  checks: ChecksByArea,
  area: string | undefined,
  pest: string,
  since: Day | undefined,
): AreaCatch {
  const byDay = new Map<Day, number>()
  const files = new Set<string>()
  let caught = 0
  let shown = false
  let trapNightsSince = 0
  for (const { device, check } of area === undefined
    ? [...checks.values()].flat()
    : (checks.get(area) ?? [])) {
    const { day, visit } = check.moment
    const meant = isMeantFor(device, pest)
    const named = caughtOf(check, pest)
    if (!meant && !named) continue
    files.add(visit.file)
    caught += named ?? 0
    if (!meant) continue
    if (showsWithoutCount(check)) shown = true
    if (named === undefined || check.trapNights === 0) continue
    byDay.set(day, (byDay.get(day) ?? 0) + check.trapNights)
    if (since !== undefined && day > since) trapNightsSince += check.trapNights
  }
  const lastDay = [...byDay.keys()].reduce<Day | undefined>(
    (last, day) => Math.max(last ?? day, day),
    undefined,
  )
  const trapNights = [...byDay.values()].reduce((sum, nights) => sum + nights, 0)
  return {
    caught,
    shown,
    trapNights,
    daysRead: byDay.size,
    ...(lastDay === undefined ? {} : { last: { day: lastDay, trapNights: byDay.get(lastDay) ?? 0 } }),
    trapNightsSince,
    read: files.size > 0,
    files: [...files].sort(),
  }
}

/** Animals of the pest new on the device; undefined where it says nothing of the pest. */
function caughtOf(check: Check, pest: string): number | undefined {
  let caught: number | undefined
  for (const [one, count] of check.caught) if (canBeSamePest(one, pest)) caught = (caught ?? 0) + count
  return caught
}

function showsWithoutCount({ reading }: Check): boolean {
  return (
    reading?.tracks === 'some' ||
    reading?.tracks === 'many' ||
    reading?.active === 'yes' ||
    reading?.block === 'moved'
  )
}
