import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'
import { efficiency } from './efficiency.js'
import { nearSource, type Trial } from './trial.js'
import { type DemoTruth, expectedRates } from './truth.js'

/** What the truth expects one device to have caught of one pest since the look before. */
interface ExpectedCatch {
  readonly device: DeviceHistory
  readonly area: string
  readonly pest: string
  readonly day: Day
  readonly animals: number
}

/**
 * What the truth expects of every series of a site, day read by day read, over the very intervals that tell something:
 * the catch series of the same site hold what was caught in them. By area and pest, with a space between, then by day.
 * Only pests that the trial plants, and only devices that stand out all the time.
 */
export function expectedCatches(
  truth: DemoTruth,
  trial: Trial,
  view: SiteView,
): Map<string, Map<Day, number>> {
  const series = new Map<string, Map<Day, number>>()
  for (const { area, pest, day, animals } of expectedByReading(truth, trial, view)) {
    const key = `${area} ${pest}`
    const days = series.get(key) ?? new Map<Day, number>()
    series.set(key, days.set(day, (days.get(day) ?? 0) + animals))
  }
  return series
}

/** The same for one device (its id and the day it was set, with a space between), one pest and one day read. */
export function expectedOfDevice(
  truth: DemoTruth,
  trial: Trial,
  view: SiteView,
): (device: string, pest: string, day: Day) => number {
  const sums = new Map<string, number>()
  const keyOf = (device: string, pest: string, day: Day) => `${device} ${pest} ${day}`
  for (const { device, pest, day, animals } of expectedByReading(truth, trial, view)) {
    const key = keyOf(`${device.id} ${device.set.day}`, pest, day)
    sums.set(key, (sums.get(key) ?? 0) + animals)
  }
  return (device, pest, day) => sums.get(keyOf(device, pest, day)) ?? 0
}

function expectedByReading(truth: DemoTruth, trial: Trial, view: SiteView): ExpectedCatch[] {
  const found: ExpectedCatch[] = []
  const ratesUpTo = ratesOf(truth, view.id)
  for (const device of view.devices) {
    let last = device.set.day
    for (const check of device.checks) {
      if (check.noAccess) continue
      const { day } = check.moment
      for (const pest of check.unusable === undefined ? device.for : []) {
        if (trial.pests[pest] === undefined) continue
        const upTo = ratesUpTo(check.area, pest)
        const animals = (upTo(day) - upTo(last)) * caughtBy(trial, device, check, pest)
        found.push({ device, area: check.area, pest, day, animals })
      }
      last = day
    }
  }
  return found
}

/** Animals a night for each unit of the rate: how well the device catches where it stood until this check. */
function caughtBy(trial: Trial, device: DeviceHistory, check: Check, pest: string): number {
  const stand = device.stands.findLast(({ from }) => from.day < check.moment.day) ?? device.stands[0]
  const at = stand?.facts.at
  const near = nearSource(trial.pests[pest]?.source, at ?? [Infinity, Infinity])
  return (efficiency[device.kind][pest] ?? 0) * device.traps * near
}

/** Sum of the daily rates up to and with a day, for each area and pest; worked out once for each. */
function ratesOf(truth: DemoTruth, site: string) {
  const sums = new Map<string, Float64Array>()
  return (area: string, pest: string) => {
    const key = `${area} ${pest}`
    let sum = sums.get(key)
    if (!sum) {
      sum = expectedRates(truth, site, area, pest)
      for (let place = 1; place < sum.length; place++) sum[place] = (sum[place] ?? 0) + (sum[place - 1] ?? 0)
      sums.set(key, sum)
    }
    const upTo = sum
    return (day: Day) => (day < truth.from ? 0 : (upTo[day - truth.from] ?? 0))
  }
}
