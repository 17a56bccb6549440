import type { Day } from '../types.js'
import { compareText } from './compare-text.js'
import type { Check } from './device-history.js'
import { getOrMake } from './get-or-make.js'
import type { SiteView } from './site-view.js'

/** Catch and effort of one pest in one area, read day by read day. */
export interface CatchSeries {
  readonly site: string
  readonly area: string
  readonly pest: string
  readonly observations: readonly CatchObservation[]
}

export interface CatchObservation {
  readonly day: Day
  /** Animals caught since the look before, over all devices read that day. */
  readonly count: number
  /** Effort behind them, in trap-nights. */
  readonly trapNights: number
  readonly files: readonly string[]
}

interface Gathering {
  readonly area: string
  readonly pest: string
  readonly byDay: Map<Day, Sums>
}

interface Sums {
  count: number
  trapNights: number
  readonly files: Set<string>
}

/**
 * The series of a site. A device belongs to a series only for the pests it is for, since only there does a reading
 * that does not name the pest mean zero. Intervals that tell nothing (lost, wet, full, moved, flushed, no access)
 * are left out, with their effort.
 */
export function catchSeriesOf(view: SiteView, from: Day, to: Day): CatchSeries[] {
  const byKey = new Map<string, Gathering>()
  for (const device of view.devices) {
    for (const check of device.checks) {
      const { day, visit } = check.moment
      if (day < from || day > to || !tells(check)) continue
      for (const pest of device.for) {
        const count = check.caught.get(pest)
        if (count === undefined) continue
        const series = getOrMake(byKey, `${check.area} ${pest}`, () => ({
          area: check.area,
          pest,
          byDay: new Map(),
        }))
        const sums = getOrMake(series.byDay, day, () => ({
          count: 0,
          trapNights: 0,
          files: new Set<string>(),
        }))
        sums.files.add(visit.file)
        sums.count += count
        sums.trapNights += check.trapNights
      }
    }
  }
  return [...byKey.values()]
    .map(({ area, pest, byDay }) => ({
      site: view.id,
      area,
      pest,
      observations: observationsOf(byDay),
    }))
    .filter(({ observations }) => observations.length > 0)
    .sort((a, b) => compareText(a.area, b.area) || compareText(a.pest, b.pest))
}

/**
 * In order of day. What was caught on a day without a night of effort (a device read on the day it was set) stays on
 * the device and is counted with its next reading, so that it is not lost.
 */
function observationsOf(byDay: ReadonlyMap<Day, Sums>): CatchObservation[] {
  const observations: CatchObservation[] = []
  let held = 0
  let heldFiles: string[] = []
  for (const [day, { count, trapNights, files }] of [...byDay].sort(([a], [b]) => a - b)) {
    held += count
    heldFiles.push(...files)
    if (trapNights === 0) continue
    observations.push({ day, count: held, trapNights, files: heldFiles.sort() })
    held = 0
    heldFiles = []
  }
  return observations
}

/** Whether a check says how many were caught over a known effort. */
function tells(check: Check): boolean {
  return !check.noAccess && check.unusable === undefined
}
