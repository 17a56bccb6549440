import { compareText } from '../ledger/compare-text.js'
import type { DeviceHistory, Stand } from '../ledger/device-history.js'
import type { SiteView } from '../ledger/site-view.js'
import { isOut, standAtEndOf } from '../ledger/standing.js'
import { isoOf } from '../measure/calendar.js'
import type { Clumping } from '../measure/effective-counts.js'
import { deviceTable } from '../records/tables.js'
import { areaName } from './area-name.js'
import { isFit } from './coverage-devices.js'
import { catchByPlace, catchOf, keyOfStand, measuredCatch } from './map-catch.js'
import { isTooFar, liesIn } from './map-outline.js'
import type { DevicePlace, MapArea, MapDevice, Spot } from './map-site.js'
import type { Period } from './period.js'

export interface DevicesAsked {
  readonly view: SiteView
  readonly areas: readonly MapArea[]
  readonly period: Period
  readonly pest: string | undefined
  /** How catches of the pest clump over the whole ledger. */
  readonly ofPest: Clumping | null
  /** Keys of the places that stand out by themselves. */
  readonly outlying: ReadonlySet<string>
}

type Unnumbered = Omit<MapDevice, 'no'>

/** The devices that stand on the as-of day, then the places in which one stood in the period and no longer does. */
export function mapDevices(asked: DevicesAsked): MapDevice[] {
  const { view, period, pest } = asked
  const caught = pest === undefined ? new Map() : catchByPlace(view, period, pest)
  const standing = view.devices.flatMap((device) => {
    const stand = isOut(device, view.asOf) ? standAtEndOf(device, view.asOf) : undefined
    return stand ? [{ device, stand, key: keyOfStand(device.id, stand) }] : []
  })
  const now = standing.map(({ device, stand, key }): Unnumbered => {
    const here = caught.get(key)
    return {
      ...deviceAt(asked, device, stand.area, spotOf(stand)),
      stands: true,
      catch:
        pest === undefined
          ? { is: 'not asked' }
          : catchOf(device, here, { pest, period, ofPest: asked.ofPest }),
      outlying: asked.outlying.has(key),
      records: recordsOf(stand, here?.files),
    }
  })
  const keys = new Set(standing.map(({ key }) => key))
  const former = [...caught].flatMap(([key, here]): Unnumbered[] => {
    const device = view.devices.findLast(({ id }) => id === here.place.device)
    if (keys.has(key) || !device) return []
    return [
      {
        ...deviceAt(asked, device, here.place.area, here.place.spot),
        stands: false,
        catch: measuredCatch(here, asked.ofPest, ''),
        outlying: asked.outlying.has(key),
        records: [...here.files].sort(compareText),
      },
    ]
  })
  const rank = new Map(asked.areas.map(({ id, no }) => [id, no]))
  return [...now, ...former]
    .sort(
      (a, b) =>
        Number(b.stands) - Number(a.stands) ||
        (rank.get(a.area) ?? Infinity) - (rank.get(b.area) ?? Infinity) ||
        compareText(a.area, b.area) ||
        compareIds(a.id, b.id) ||
        compareText(JSON.stringify(a.spot), JSON.stringify(b.spot)),
    )
    .map((device, at) => ({ no: at + 1, ...device }))
}

function spotOf({ facts: { at } }: Stand): Spot | null {
  return at === undefined ? null : { x: at[0], y: at[1] }
}

function deviceAt({ view, areas }: DevicesAsked, device: DeviceHistory, area: string, spot: Spot | null) {
  const lastRead = device.checks.findLast(({ noAccess }) => !noAccess)?.moment.day
  const where = placeOf(areas, area, spot)
  return {
    id: device.id,
    markedAs: device.setFacts['marked-as'],
    kind: device.kind,
    kindName: deviceTable()[device.kind].name,
    area,
    areaName: areaName(view, area),
    floor: areas.find(({ id }) => id === area)?.floor ?? '1',
    spot,
    place: where.place,
    liesIn: where.liesIn,
    traps: device.traps,
    fit: isFit(device),
    lastRead: lastRead === undefined ? undefined : isoOf(lastRead),
  }
}

/** Whether a position agrees with the area that is recorded with it. Areas of other floors lie over one another. */
function placeOf(
  areas: readonly MapArea[],
  area: string,
  spot: Spot | null,
): { readonly place: DevicePlace; readonly liesIn: string | undefined } {
  if (spot === null) return { place: 'no position', liesIn: undefined }
  if (isTooFar(spot)) return { place: 'too far', liesIn: undefined }
  const own = areas.find(({ id }) => id === area)
  if (own && own.outline.length > 0 && liesIn(spot, own.outline))
    return { place: 'in its area', liesIn: undefined }
  const other = areas.find(
    ({ id, outline, floor }) =>
      id !== area &&
      outline.length > 0 &&
      (own === undefined || floor === own.floor) &&
      liesIn(spot, outline),
  )
  if (other) return { place: 'in another area', liesIn: other.id }
  if (own && own.outline.length === 0) return { place: 'its area has no outline', liesIn: undefined }
  return { place: 'outside every outline', liesIn: undefined }
}

function recordsOf({ from }: Stand, files: ReadonlySet<string> | undefined): string[] {
  return [...new Set([from.visit.file, ...(files ?? [])])].sort(compareText)
}

/** K2 before K10: runs of digits by their number, all else by its letters. */
export function compareIds(a: string, b: string): number {
  const [first, second] = [a.match(/\d+|\D+/g) ?? [], b.match(/\d+|\D+/g) ?? []]
  for (let at = 0; at < Math.min(first.length, second.length); at++) {
    const [one = '', other = ''] = [first[at], second[at]]
    const both = /^\d/.test(one) && /^\d/.test(other)
    const order = (both ? Number(one) - Number(other) : 0) || compareText(one, other)
    if (order !== 0) return order
  }
  return first.length - second.length || compareText(a, b)
}
