import { compareText } from '../ledger/compare-text.js'
import type { Check, DeviceHistory, Stand } from '../ledger/device-history.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { Area, SiteView } from '../ledger/site-view.js'
import { standOn } from '../ledger/standing.js'
import { liesOutdoors } from '../records/area-kinds.js'
import type { DeviceKind } from '../records/device-kinds.js'
import type { Day } from '../types.js'
import { areaName } from './area-name.js'
import type { Period } from './period.js'

/** One place in which a device stood: a device that was moved has several, each with what it caught while there. */
export interface TrapPlace {
  readonly device: string
  readonly area: string
  readonly areaName: string
  /** Place of the area in walking order. */
  readonly areaRank: number
  /** On the property diagram; null where no record says. */
  readonly spot: { readonly x: number; readonly y: number } | null
  readonly count: number
  readonly trapNights: number
  readonly files: readonly string[]
}

/** Devices of one kind for one pest on one floor of one site: those that can be held against each other. */
export interface CatchMap {
  readonly site: string
  readonly siteName: string
  /** `1`, `0`, …, or `outdoors`. */
  readonly floor: string
  readonly pest: string
  readonly kind: DeviceKind
  /** Unit of the positions, where the site says it. */
  readonly unit: 'ft' | 'm' | undefined
  readonly places: readonly TrapPlace[]
}

export interface SiteCatches {
  readonly maps: readonly CatchMap[]
  /** Readings whose catch belongs to no one place, because the device was moved since it was last looked at. */
  readonly movedBetween: number
}

interface Gathering {
  readonly place: Omit<TrapPlace, 'count' | 'trapNights' | 'files'>
  count: number
  trapNights: number
  readonly files: Set<string>
}

/**
 * What the devices of a site caught in a period, by floor, pest, kind of device and place. A device counts only for the
 * pests it is for, and only with readings that tell something, as in `catchSeriesOf`.
 */
export function catchMapsOf(view: SiteView, { from, to }: Period): SiteCatches {
  const byKey = new Map<string, { map: Omit<CatchMap, 'places'>; places: Map<string, Gathering> }>()
  const ranks = new Map([...view.areas.keys()].map((area, rank) => [area, rank]))
  let movedBetween = 0
  for (const device of view.devices) {
    let lastLook: Day = device.set.day
    for (const check of device.checks) {
      const { day, visit } = check.moment
      const since = lastLook
      if (!check.noAccess) lastLook = day
      if (day < from || day > to || check.noAccess || check.unusable !== undefined) continue
      const pests = device.for.filter((pest) => check.caught.has(pest))
      if (pests.length === 0) continue
      if (wasMoved(device, since, day)) {
        movedBetween += 1
        continue
      }
      const place = placeOf(view, ranks, device, check)
      const floor = floorOf(view.areas.get(check.area))
      for (const pest of pests) {
        const { places } = getOrMake(byKey, `${floor} ${pest} ${device.kind}`, () => ({
          map: {
            site: view.id,
            siteName: view.site.data.name,
            floor,
            pest,
            kind: device.kind,
            unit: view.site.data.diagram?.unit,
          },
          places: new Map(),
        }))
        const key = JSON.stringify([place.device, place.area, place.spot])
        const sums = getOrMake(places, key, () => ({ place, count: 0, trapNights: 0, files: new Set() }))
        sums.count += check.caught.get(pest) ?? 0
        sums.trapNights += check.trapNights
        sums.files.add(visit.file)
      }
    }
  }
  const maps = [...byKey.values()].map(({ map, places }) => ({
    ...map,
    places: [...places.values()].map(finished).sort(comparePlaces),
  }))
  return { maps: maps.sort(compareMaps), movedBetween }
}

/** Whether a device was moved after a look and before the next: what it then caught belongs to neither place. */
function wasMoved({ stands }: DeviceHistory, since: Day, day: Day): boolean {
  return stands.some(
    (stand, n) => since < stand.from.day && stand.from.day < day && !isSamePlace(stand, stands[n - 1]),
  )
}

function isSamePlace(stand: Stand, before: Stand | undefined): boolean {
  if (before === undefined) return true
  const [x, y] = stand.facts.at ?? []
  const [oldX, oldY] = before.facts.at ?? []
  return stand.area === before.area && x === oldX && y === oldY
}

function placeOf(view: SiteView, ranks: ReadonlyMap<string, number>, device: DeviceHistory, check: Check) {
  const { day } = check.moment
  const stood = standOn(device, day)
  // Moved and read on one day by two visits: the area of the reading tells which of the two places it was.
  const stand =
    stood?.area === check.area
      ? stood
      : device.stands.findLast(({ from, area }) => from.day <= day && area === check.area)
  const at = stand?.facts.at
  return {
    device: device.id,
    area: check.area,
    areaName: areaName(view, check.area),
    areaRank: ranks.get(check.area) ?? ranks.size,
    spot: at === undefined ? null : { x: at[0], y: at[1] },
  }
}

/** Floor 1 where it is not said. A dock or a place for waste may lie in the open, but is on the floor it is on. */
function floorOf(area: Area | undefined): string {
  if (area !== undefined && liesOutdoors(area.facts.kind) === true) return 'outdoors'
  return String(area?.facts.floor ?? 1)
}

function finished({ place, count, trapNights, files }: Gathering): TrapPlace {
  return { ...place, count, trapNights, files: [...files].sort(compareText) }
}

function comparePlaces(a: TrapPlace, b: TrapPlace): number {
  return (
    compareText(a.device, b.device) ||
    a.areaRank - b.areaRank ||
    (a.spot?.x ?? 0) - (b.spot?.x ?? 0) ||
    (a.spot?.y ?? 0) - (b.spot?.y ?? 0) ||
    Number(a.spot === null) - Number(b.spot === null)
  )
}

export function compareMaps(a: CatchMap, b: CatchMap): number {
  return (
    compareText(a.site, b.site) ||
    compareText(a.floor, b.floor) ||
    compareText(a.pest, b.pest) ||
    compareText(a.kind, b.kind)
  )
}
