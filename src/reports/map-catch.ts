import { compareText } from '../ledger/compare-text.js'
import type { DeviceHistory, Stand } from '../ledger/device-history.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import { rateWithClumping } from '../measure/clumped-rate.js'
import type { CatchReading, Clumping } from '../measure/effective-counts.js'
import { totalOf } from '../measure/effective-counts.js'
import { clumpingFor } from './clumping.js'
import { counts } from './coverage-devices.js'
import type { TrapPlace } from './hotspots-collect.js'
import { catchMapsOf } from './hotspots-collect.js'
import type { MapCatch } from './map-site.js'
import type { Period } from './period.js'

/** What was caught of the pest at one place in which a device stood, reading by reading. */
export interface PlaceCatch {
  readonly place: Omit<TrapPlace, 'count' | 'trapNights' | 'files'>
  readonly readings: CatchReading[]
  readonly files: Set<string>
}

/** Key of a place: a device that was moved has one for each. */
export function placeKey(device: string, area: string, spot: { x: number; y: number } | null): string {
  return JSON.stringify([device, area, spot === null ? null : [spot.x, spot.y]])
}

export function keyOfStand(device: string, { area, facts }: Stand): string {
  const at = facts.at
  return placeKey(device, area, at === undefined ? null : { x: at[0], y: at[1] })
}

/**
 * What each place caught of one pest on each day of the period on which devices were read: the very catches of
 * `report hotspots`, day by day, so that an interval can allow for clumping.
 */
export function catchByPlace(view: SiteView, { from, to }: Period, pest: string): Map<string, PlaceCatch> {
  const days = new Set(view.devices.flatMap(({ checks }) => checks.map(({ moment }) => moment.day)))
  const byPlace = new Map<string, PlaceCatch>()
  for (const day of [...days].filter((one) => one >= from && one <= to).sort((a, b) => a - b))
    for (const map of catchMapsOf(view, { from: day, to: day }).maps) {
      if (map.pest !== pest) continue
      for (const { count, trapNights, files, ...place } of map.places) {
        const key = placeKey(place.device, place.area, place.spot)
        const sums = getOrMake(byPlace, key, () => ({ place, readings: [], files: new Set<string>() }))
        sums.readings.push({ count, effort: trapNights })
        for (const file of files) sums.files.add(file)
      }
    }
  return byPlace
}

/** A rate per trap-week with what clumping leaves of its certainty, or why there is none. */
export function measuredCatch(
  caught: PlaceCatch | undefined,
  ofPest: Clumping | null,
  notRead: string,
): MapCatch {
  if (caught === undefined) return { is: 'not measured', why: notRead }
  const { count, effort } = totalOf(caught.readings)
  if (effort === 0) return { is: 'not measured', why: 'read only on the day it was set' }
  const { clumping } = clumpingFor([caught.readings], ofPest)
  const rate = rateWithClumping(caught.readings, clumping)
  if (rate === null) return { is: 'not measured', why: 'its numbers are out of range' }
  return {
    is: 'measured',
    count,
    trapNights: effort,
    rate: rate.rate * 7,
    low: rate.lower * 7,
    high: rate.upper * 7,
  }
}

/** What is known of the catch at a device where it stands now. */
export function catchOf(
  device: DeviceHistory,
  here: PlaceCatch | undefined,
  {
    pest,
    period,
    ofPest,
  }: { readonly pest: string; readonly period: Period; readonly ofPest: Clumping | null },
): MapCatch {
  if (!counts(device)) return { is: 'counts nothing' }
  const looks = device.checks.filter(({ moment }) => moment.day >= period.from && moment.day <= period.to)
  if (!device.for.includes(pest))
    return { is: 'not for it', caught: looks.reduce((sum, check) => sum + (check.caught.get(pest) ?? 0), 0) }
  return measuredCatch(here, ofPest, notReadWords(device, looks))
}

function notReadWords({ stands }: DeviceHistory, looks: DeviceHistory['checks']): string {
  if (looks.length === 0) return 'not read in the period'
  const since = stands.at(-1)?.from.day ?? 0
  if (stands.length > 1 && !looks.some(({ moment }) => moment.day > since))
    return 'not read since it was moved here'
  return `no look in the period tells what it caught (${whyNoLookTells(looks)})`
}

function whyNoLookTells(looks: DeviceHistory['checks']): string {
  const reasons = looks.map(({ noAccess, unusable }) =>
    noAccess ? 'no access' : (unusable ?? 'not counted'),
  )
  return [...new Set(reasons)].sort(compareText).join(', ')
}
