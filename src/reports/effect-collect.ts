import type { DeviceHistory } from '../ledger/device-history.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { ThingDone } from '../ledger/things-done.js'
import { thingsDone } from '../ledger/things-done.js'
import type { Day } from '../types.js'
import type { Period } from './period.js'

/** What one device caught of one pest between two looks. */
export interface TrapInterval {
  /** One life of one device. */
  readonly device: string
  /** Day of the look before, or on which it was set or put out again. */
  readonly start: Day
  /** Day on which it was read. */
  readonly day: Day
  readonly count: number
  /** Effort, in trap-nights; above zero. */
  readonly trapNights: number
  readonly file: string
}

/** Everything the traps of one area tell of one pest, device by device. */
export interface AreaCatch {
  readonly site: string
  readonly area: string
  /** Undefined where the site has no such area. */
  readonly areaKind: string | undefined
  readonly pest: string
  readonly intervals: readonly TrapInterval[]
}

export interface DoneAtSite {
  readonly site: string
  readonly things: readonly ThingDone[]
}

/** What was done at a site in these days, in order of day. */
export function doneAt(view: SiteView, { from, to }: Period): DoneAtSite {
  return { site: view.id, things: thingsDone(view).filter(({ day }) => from <= day && day <= to) }
}

/**
 * Catches by area and pest whose whole interval lies in these days. As in `catchSeriesOf`, a device tells of the pests it
 * is for, and what tells nothing is left out with its effort; but intervals stay apart by device, with their first day,
 * so that one which spans an event can be seen to.
 */
export function areaCatchesOf(view: SiteView, { from, to }: Period): AreaCatch[] {
  const byKey = new Map<string, { area: string; pest: string; intervals: TrapInterval[] }>()
  for (const device of view.devices) {
    for (const pest of device.for) {
      for (const { area, interval } of intervalsOf(device, pest)) {
        if (interval.start < from || interval.day > to) continue
        getOrMake(byKey, `${area} ${pest}`, () => ({ area, pest, intervals: [] })).intervals.push(interval)
      }
    }
  }
  return [...byKey.values()].map(({ area, pest, intervals }) => ({
    site: view.id,
    area,
    areaKind: view.areas.get(area)?.facts.kind,
    pest,
    intervals: intervals.sort((a, b) => a.day - b.day),
  }))
}

/**
 * What is caught in a look without a night of effort belongs to the look of the same day that has them, or else stays on
 * the device and is counted with the next.
 */
function intervalsOf(device: DeviceHistory, pest: string): { area: string; interval: TrapInterval }[] {
  const found: { area: string; interval: TrapInterval }[] = []
  let lastLook = device.set.day
  let held = 0
  for (const check of device.checks) {
    if (check.noAccess) continue
    const { day, visit } = check.moment
    const start = outFrom(device, lastLook)
    lastLook = day
    const count = check.caught.get(pest)
    if (check.unusable !== undefined || count === undefined) {
      held = 0
      continue
    }
    const last = found.at(-1)
    if (check.trapNights > 0) {
      const interval = {
        device: `${device.id} ${device.set.day}`,
        start,
        day,
        count: count + held,
        trapNights: check.trapNights,
        file: visit.file,
      }
      found.push({ area: check.area, interval })
      held = 0
    } else if (last?.interval.day === day)
      found[found.length - 1] = {
        ...last,
        interval: { ...last.interval, count: last.interval.count + count },
      }
    else held += count
  }
  return found
}

/** The first day from a look on, on which the device stood out. */
function outFrom({ out }: DeviceHistory, look: Day): Day {
  const span = out.find(({ until }) => until === undefined || until > look)
  return Math.max(look, span?.from ?? look)
}
