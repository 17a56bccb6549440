import type { Bounds } from '../reports/map-outline.js'
import { boundsOf } from '../reports/map-outline.js'
import type { MapArea, MapDevice, MapPlace, SiteMap, Spot } from '../reports/map-site.js'

/** What is drawn to scale on one sheet: all of the site, or one floor of it. */
export interface Sheet {
  /** Undefined where one sheet holds all. */
  readonly title: string | undefined
  readonly areas: readonly MapArea[]
  readonly devices: readonly MapDevice[]
  readonly places: readonly MapPlace[]
}

export interface Sheets {
  readonly sheets: readonly Sheet[]
  /** What all sheets show, in the unit of positions; null where nothing has a position. */
  readonly bounds: Bounds | null
  /** Devices that cannot be drawn at a position: none is known, or it is far away from all else. */
  readonly offPlan: readonly MapDevice[]
}

/** A position further out than this share of the plan is a slip; drawn, it would shrink all else. */
const shareOutside = 0.25

export function sheetsOf(map: SiteMap): Sheets {
  const drawn = map.areas.filter(({ outline }) => outline.length > 0)
  const placed = map.devices.filter(({ spot, place }) => spot !== null && place !== 'too far')
  const paper = paperOf(map, drawn, placed)
  const isOn = ({ spot }: MapDevice) => spot !== null && paper !== null && liesNear(spot, paper)
  const devices = placed.filter(isOn)
  const places = map.places.filter(({ centre }) => paper !== null && liesNear(centre, paper))
  const on = new Set(devices)
  const all = { areas: drawn, devices, places }
  return {
    sheets:
      paper === null ? [] : floorsLieOverOneAnother(drawn) ? byFloor(all) : [{ title: undefined, ...all }],
    bounds: paper === null ? null : withAll(paper, devices, places),
    offPlan: map.devices.filter((device) => !on.has(device)),
  }
}

/** What outlines and the drawing reach over; without them, the positions. */
function paperOf(map: SiteMap, areas: readonly MapArea[], placed: readonly MapDevice[]): Bounds | null {
  const { drawing } = map
  const fixed = [
    ...areas.flatMap(({ outline }) => outline),
    ...(drawing.is === 'drawn' ? [drawing.from, drawing.to] : []),
  ]
  return boundsOf(fixed.length > 0 ? fixed : spotsOf(placed))
}

const spotsOf = (devices: readonly MapDevice[]): Spot[] => devices.flatMap(({ spot }) => spot ?? [])

function liesNear({ x, y }: Spot, { left, right, top, bottom }: Bounds): boolean {
  const reach = shareOutside * Math.max(right - left, bottom - top)
  return x >= left - reach && x <= right + reach && y >= top - reach && y <= bottom + reach
}

function withAll(paper: Bounds, devices: readonly MapDevice[], places: readonly MapPlace[]): Bounds {
  const { left, top, right, bottom } = paper
  const circles = places.flatMap(({ centre: { x, y }, radius }) => [
    { x: x - radius, y: y - radius },
    { x: x + radius, y: y + radius },
  ])
  const all =
    boundsOf([{ x: left, y: top }, { x: right, y: bottom }, ...spotsOf(devices), ...circles]) ?? paper
  // A single position has no size; ten feet or metres about it have.
  const [thin, flat] = [all.right - all.left < 10 ? 5 : 0, all.bottom - all.top < 10 ? 5 : 0]
  return {
    left: all.left - thin,
    right: all.right + thin,
    top: all.top - flat,
    bottom: all.bottom + flat,
  }
}

/** Whether storeys are drawn over one another, instead of side by side on the one diagram. */
function floorsLieOverOneAnother(areas: readonly MapArea[]): boolean {
  const indoors = areas.filter(({ floor }) => floor !== 'outdoors')
  return indoors.some((one, at) =>
    indoors.slice(at + 1).some((other) => one.floor !== other.floor && doOverlap(one, other)),
  )
}

function doOverlap(one: MapArea, other: MapArea): boolean {
  const [a, b] = [boundsOf(one.outline), boundsOf(other.outline)]
  if (!a || !b) return false
  const across = Math.min(a.right, b.right) - Math.max(a.left, b.left)
  const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
  const sizeOf = ({ left, right, top, bottom }: Bounds) => (right - left) * (bottom - top)
  return across > 0 && down > 0 && across * down > 0.1 * Math.min(sizeOf(a), sizeOf(b))
}

/** A sheet for each floor, from below upwards; the grounds are drawn with the ground floor. */
function byFloor({ areas, devices, places }: Omit<Sheet, 'title'>): Sheet[] {
  const floors = [...new Set([...areas, ...devices].map(({ floor }) => floor))]
    .filter((floor) => floor !== 'outdoors')
    .sort((a, b) => Number(a) - Number(b))
  const ground = floors.includes('1') ? '1' : floors[0]
  return floors.map((floor) => {
    const isHere = (one: { readonly floor: string }) =>
      one.floor === floor || (one.floor === 'outdoors' && floor === ground)
    return {
      title: `Floor ${floor}${floor === ground && areas.some((area) => area.floor === 'outdoors') ? ' and grounds' : ''}`,
      areas: areas.filter(isHere),
      devices: devices.filter(isHere),
      places: places.filter(isHere),
    }
  })
}
