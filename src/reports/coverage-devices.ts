import type { DeviceHistory } from '../ledger/device-history.js'
import { routineDays, serviceTermsOn } from '../ledger/service-terms.js'
import type { SiteView } from '../ledger/site-view.js'
import { areaOn, isOut } from '../ledger/standing.js'
import { medianOf } from '../measure/order-statistics.js'
import type { AreaKind } from '../records/area-kinds.js'
import { liesOutdoors } from '../records/area-kinds.js'
import { deviceKinds } from '../records/device-kinds.js'
import { deviceTable, pestTable } from '../records/tables.js'
import type { Interval } from '../rules/inspection/check-terms.js'
import { checkTermsOn } from '../rules/inspection/check-terms.js'
import type { Day } from '../types.js'
import type { Period } from './period.js'

/** Whether two names can mean one pest: the same, or one is the kind not told (`rat`) of the other (`norway-rat`). */
export function canBeSamePest(a: string, b: string): boolean {
  if (a === b) return true
  const [long, short] = a.length > b.length ? [a, b] : [b, a]
  return long.endsWith(short) && long[long.length - short.length - 1] === '-'
}

export function isMeantFor(device: DeviceHistory, pest: string): boolean {
  return device.for.some((one) => canBeSamePest(one, pest))
}

/** Whether some kind of device is for the pest when its record does not say. */
export function hasDeviceOfItsOwn(pest: string): boolean {
  return deviceKinds.some((kind) => deviceTable()[kind].for.some((one) => canBeSamePest(one, pest)))
}

/**
 * Whether some kind of device could stand in such an area and show the pest. Boards and light traps are of no use in the
 * open, and stinging insects are dealt with at their nest (common practice, no source).
 */
export function canBeShown(pest: string, where: AreaKind | undefined): boolean {
  const group = pestTable().get(pest)?.group
  if (group === undefined || group === 'stinging') return false
  const inTheOpen = where !== undefined && liesOutdoors(where) === true
  return deviceKinds.some((kind) => {
    const { shows, rodent } = deviceTable()[kind]
    return shows.includes(group) && (!inTheOpen || rodent === 'yes' || kind === 'termite-station')
  })
}

export function counts(device: DeviceHistory): boolean {
  return deviceTable()[device.kind].reads.includes('counts')
}

/** Whether a device stands out in an area at the end of a day. A device taken up on the day does not. */
export function standsIn(device: DeviceHistory, area: string | undefined, day: Day): boolean {
  return isOut(device, day) && (area === undefined || areaOn(device, day) === area)
}

/** Whether a device stood out in an area, or anywhere if none is said, at the end of some day from one to another. */
export function stoodIn(device: DeviceHistory, area: string | undefined, from: Day, to: Day): boolean {
  return device.stands.some((stand, at) => {
    if (area !== undefined && stand.area !== area) return false
    const end = device.stands[at + 1]?.from.day ?? to + 1
    return device.out.some(
      (span) => Math.max(span.from, stand.from.day, from) < Math.min(span.until ?? to + 1, end, to + 1),
    )
  })
}

/**
 * Whether the last looks left a device able to catch: not lost, wet, damaged or full, and no snap trap gone off, without
 * having been renewed since.
 */
export function isFit(device: DeviceHistory): boolean {
  const looks = device.checks.filter((check) => !check.noAccess)
  const since = looks.slice(looks.findLastIndex((check) => check.renewed) + 1)
  const last = since.at(-1)
  if (last?.reading?.unusable === 'missing') return false
  if (since.some(({ reading }) => reading?.unusable !== undefined && reading.unusable !== 'missing'))
    return false
  if (device.kind !== 'snap-trap' || !last) return true
  const caught = [...last.counts.values()].reduce((sum, count) => sum + count, 0)
  return last.reading?.sprung === undefined && caught < device.traps
}

/** Nights from one check of devices to the next, and how that is known. */
export interface CheckInterval {
  readonly nights: number
  readonly how: string
}

/**
 * The median time between looks at these devices that ended in the period; before there is any, the longest time that the
 * contract, a plan or a rulebook leaves them unread, or the time between routine visits. Null where none tells.
 */
export function checkIntervalOf(
  view: SiteView,
  devices: readonly DeviceHistory[],
  { from, to }: Period,
): CheckInterval | null {
  const seen = devices.flatMap((device) => nightsBetweenLooks(device, from, to))
  const median = medianOf(Float64Array.from(seen))
  if (median !== null)
    return {
      nights: median,
      how: `median of ${seen.length} ${seen.length === 1 ? 'time' : 'times'} between checks`,
    }
  const duties = devices.flatMap((device) => {
    const terms = checkTermsOn(view, device, view.asOf)
    return terms ? asNights(terms.interval, terms.text, terms.sources[0]?.kind ?? 'rulebook') : []
  })
  const [shortest] = duties.sort((a, b) => a.nights - b.nights)
  return shortest ?? routineIntervalOf(view)
}

/** Devices of which nothing is said follow the routine visits. */
function routineIntervalOf(view: SiteView): CheckInterval | null {
  const contract = serviceTermsOn(view, view.asOf)?.contract
  if (!contract) return null
  const days = routineDays(contract)
  const [interval] = asNights(
    days === undefined ? 'monthly' : { days },
    contract['routine-visits'],
    'contract',
  )
  return interval ?? null
}

/** A month as 30 nights. */
function asNights(interval: Interval, text: string, source: string): CheckInterval[] {
  const nights = interval === 'monthly' ? 30 : 'days' in interval ? interval.days : interval.months * 30
  return nights > 0
    ? [{ nights, how: `not read in the period; by the ${source} ${text}, taken as ${nights} nights` }]
    : []
}

/** Two looks on one day are one. */
function nightsBetweenLooks(device: DeviceHistory, from: Day, to: Day): number[] {
  const nights: number[] = []
  let last = device.set.day
  for (const { moment, noAccess } of device.checks) {
    if (noAccess) continue
    if (moment.day > last && moment.day >= from && moment.day <= to) nights.push(moment.day - last)
    last = moment.day
  }
  return nights
}
