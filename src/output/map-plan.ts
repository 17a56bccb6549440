import type { Bounds } from '../reports/map-outline.js'
import type { MapArea, MapDevice, SiteMap, Spot } from '../reports/map-site.js'
import type { Drawn } from './map-device.js'
import { deviceAt, labelOf, shortLabelOf } from './map-device.js'
import type { Box, TextPart } from './map-elements.js'
import { el, faintInk, ink, px, textOver, textRun, textWidth } from './map-elements.js'
import { marksOf, patternOf } from './map-marks.js'
import { isInside, placeAreaLabel } from './map-plan-areas.js'
import { boxAbout, isWithin, Room } from './map-room.js'
import { leaderTo } from './map-shapes.js'
import type { Sheet } from './map-sheets.js'
import type { Element } from './xml.js'

export interface Frame {
  /** Where the plan stands on the page. */
  readonly box: Box
  /** Pixels for one unit of position. */
  readonly scale: number
  readonly bounds: Bounds
}

/** As large as the page is wide, but not so large that a small room fills it, nor so high that it is many pages. */
export function frameFor(bounds: Bounds, x: number, y: number, width: number): Frame {
  const [across, down] = [bounds.right - bounds.left, bounds.bottom - bounds.top]
  const scale = Math.min(width / across, (width * 1.1) / down, 40)
  return { box: { x, y, width: across * scale, height: down * scale }, scale, bounds }
}

export interface Plan {
  readonly elements: readonly Element[]
  /** Devices for whose shape there was no room near their position. */
  readonly crowdedOut: readonly MapDevice[]
  /** Devices that bear their number in the table, and those that bear nothing. */
  readonly numbered: readonly MapDevice[]
  readonly unlabelled: readonly MapDevice[]
  /** Areas that bear only their number. */
  readonly unnamed: readonly MapArea[]
  readonly displaced: number
}

interface Standing {
  readonly device: MapDevice
  /** Where it is, and where its shape is. */
  readonly at: Spot
  readonly shown: Spot
}

/** One sheet, to scale. Shapes come first, then names of areas, then what stands beside devices: nothing covers anything. */
export function planOf(map: SiteMap, sheet: Sheet, frame: Frame, drawn: Drawn): Plan {
  const toPage = ({ x, y }: Spot): Spot => ({
    x: frame.box.x + (x - frame.bounds.left) * frame.scale,
    y: frame.box.y + (y - frame.bounds.top) * frame.scale,
  })
  const { room, radius, standing, crowdedOut } = settled(sheet.devices, toPage, frame.box)
  const lines = gapLines(map, standing, room)
  const circles = placeCircles(sheet, toPage, frame.scale, room)
  const areas = sheet.areas.map((area) => ({ area, corners: area.outline.map(toPage) }))
  const names = areas.map(({ area, corners }) => placeAreaLabel(area, corners, marksOf(map, area), room))
  const cornersOf = new Map(areas.map(({ area, corners }) => [area.id, corners]))
  const labels = standing.map((one) =>
    placeLabel(one, cornersOf.get(one.device.area), radius, room, frame.box),
  )
  return {
    elements: [
      ...underlay(map, toPage, drawn.prefix),
      ...areas.map(({ area, corners }) => areaShape(map, area, corners)),
      ...areas.flatMap(({ area, corners }) => areaHatching(map, area, corners, drawn.prefix)),
      ...circles.shapes,
      ...lines.shapes,
      ...names.flatMap(({ elements }) => elements),
      ...standing.flatMap(({ at, shown }) => (isSame(at, shown) ? [] : leaderTo(at, shown))),
      ...standing.map(({ device, shown }) => deviceAt(device, shown, radius, drawn)),
      ...labels.flatMap(({ elements }) => elements),
      ...circles.labels,
      ...lines.labels,
    ],
    crowdedOut,
    numbered: labels.filter(({ as }) => as === 'number').map(({ device }) => device),
    unlabelled: labels.filter(({ as }) => as === 'nothing').map(({ device }) => device),
    unnamed: areas.filter((_, at) => names[at]?.isNamed === false).map(({ area }) => area),
    displaced: standing.filter(({ at, shown }) => !isSame(at, shown)).length,
  }
}

const isSame = (a: Spot, b: Spot) => a.x === b.x && a.y === b.y

/** The largest shapes with which most devices stand where they are. */
function settled(devices: readonly MapDevice[], toPage: (spot: Spot) => Spot, paper: Box) {
  const tries = [7.5, 6.5, 5.5, 4.5].map((radius) => ({ radius, ...settle(devices, toPage, radius, paper) }))
  const good = tries.find(
    ({ standing, crowdedOut }) =>
      crowdedOut.length === 0 &&
      standing.filter(({ at, shown }) => !isSame(at, shown)).length <= Math.max(1, devices.length / 10),
  )
  return good ?? tries.reduce((best, one) => (one.crowdedOut.length < best.crowdedOut.length ? one : best))
}

function settle(devices: readonly MapDevice[], toPage: (spot: Spot) => Spot, radius: number, paper: Box) {
  const room = new Room()
  const standing: Standing[] = []
  const crowdedOut: MapDevice[] = []
  const wide = { x: paper.x - 12, y: paper.y - 12, width: paper.width + 24, height: paper.height + 24 }
  for (const device of devices) {
    if (device.spot === null) continue
    const at = toPage(device.spot)
    const shown = spotsAround(at, 2 * radius + 3).find((spot) => {
      const box = boxAbout(spot, radius)
      return room.isFree(box) && isWithin(box, wide)
    })
    if (!shown) {
      crowdedOut.push(device)
      continue
    }
    room.take(boxAbout(shown, radius))
    standing.push({ device, at, shown })
  }
  return { room, standing, crowdedOut }
}

/** The spot itself, then rings about it. */
function spotsAround(at: Spot, step: number): Spot[] {
  const rings = [1, 2].flatMap((ring) =>
    Array.from({ length: 6 * ring }, (_, n) => {
      const angle = ((n + 0.5) / (3 * ring)) * Math.PI
      return { x: at.x + ring * step * Math.cos(angle), y: at.y + ring * step * Math.sin(angle) }
    }),
  )
  return [at, ...rings]
}

function underlay(map: SiteMap, toPage: (spot: Spot) => Spot, prefix: string): Element[] {
  if (map.drawing.is !== 'drawn') return []
  const [from, to] = [toPage(map.drawing.from), toPage(map.drawing.to)]
  return [
    el('use', {
      href: `#${prefix}drawing`,
      transform: `translate(${px(from.x)} ${px(from.y)}) scale(${px(to.x - from.x)} ${px(to.y - from.y)})`,
    }),
  ]
}

function areaShape(map: SiteMap, area: MapArea, corners: readonly Spot[]): Element {
  const overDrawing = map.drawing.is === 'drawn'
  return el('polygon', {
    points: pointsOf(corners),
    fill: overDrawing ? 'none' : area.floor === 'outdoors' ? '#ffffff' : '#f6f4ef',
    'fill-rule': 'evenodd',
    stroke: '#4d4d4d',
    'stroke-width': 1.2,
    'stroke-dasharray':
      area.outlineState === 'crosses itself' ? '8 3 2 3' : area.floor === 'outdoors' ? '2 3' : undefined,
  })
}

function areaHatching(map: SiteMap, area: MapArea, corners: readonly Spot[], prefix: string): Element[] {
  const pattern = patternOf(map, area.id, prefix)
  return pattern.map((fill) =>
    el('polygon', { points: pointsOf(corners), fill, 'fill-rule': 'evenodd', stroke: 'none' }),
  )
}

const pointsOf = (corners: readonly Spot[]) => corners.map(({ x, y }) => `${px(x)},${px(y)}`).join(' ')

interface Drawings {
  readonly shapes: readonly Element[]
  readonly labels: readonly Element[]
}

/** A circle about the devices of a place that stands out, with its mark on top. */
function placeCircles(sheet: Sheet, toPage: (spot: Spot) => Spot, scale: number, room: Room): Drawings {
  const drawn = sheet.places.map(({ no, centre, radius }) => {
    const at = toPage(centre)
    const r = radius * scale + 13
    const mark = `p${no}`
    const top = { x: at.x - textWidth(mark, 12) / 2, y: at.y - r + 4 }
    room.take({ x: top.x - 2, y: top.y - 12, width: textWidth(mark, 12) + 4, height: 16 })
    return {
      shape: el('circle', {
        cx: px(at.x),
        cy: px(at.y),
        r: px(r),
        fill: 'none',
        stroke: ink,
        'stroke-width': 2.2,
        'stroke-dasharray': '9 4',
      }),
      label: textOver(top.x, top.y, 12, mark, { 'font-weight': 'bold' }),
    }
  })
  return { shapes: drawn.map(({ shape }) => shape), labels: drawn.map(({ label }) => label) }
}

/** A line between two neighbours of a run that stand too far apart. */
function gapLines(map: SiteMap, standing: readonly Standing[], room: Room): Drawings {
  const at = new Map(
    standing.filter(({ device }) => device.stands).map(({ device, shown }) => [device.id, shown]),
  )
  const drawn = map.gaps.flatMap(({ no, from, to, more }) => {
    const [a, b] = [at.get(from), at.get(to)]
    if (!a || !b) return []
    const words = `g${no} +${more}`
    const middle = { x: (a.x + b.x) / 2 - textWidth(words, 11) / 2, y: (a.y + b.y) / 2 - 5 }
    room.take({ x: middle.x, y: middle.y - 10, width: textWidth(words, 11), height: 13 })
    return [
      {
        shape: el('line', {
          x1: px(a.x),
          y1: px(a.y),
          x2: px(b.x),
          y2: px(b.y),
          stroke: ink,
          'stroke-width': 2.4,
          'stroke-dasharray': '1 5',
          'stroke-linecap': 'round',
        }),
        label: textOver(middle.x, middle.y, 11, words, { 'font-weight': 'bold' }),
      },
    ]
  })
  return { shapes: drawn.map(({ shape }) => shape), labels: drawn.map(({ label }) => label) }
}

interface Labelled {
  readonly device: MapDevice
  readonly as: 'name' | 'number' | 'nothing'
  readonly elements: readonly Element[]
}

/** Beside the shape wherever there is room: name and rate, or only the number in the table, or nothing. */
function placeLabel(
  { device, shown }: Standing,
  corners: readonly Spot[] | undefined,
  radius: number,
  room: Room,
  paper: Box,
): Labelled {
  const size = radius < 6 ? 8 : 10
  const wide = { x: paper.x - 20, y: paper.y - 14, width: paper.width + 80, height: paper.height + 28 }
  const tries = [
    { as: 'name', parts: labelOf(device) },
    { as: 'number', parts: shortLabelOf(device) },
  ] as const
  for (const { as, parts } of tries) {
    const width = widthOf(parts, size)
    if (as === 'name' && width > 130) continue
    const free = besides(shown, radius + 3 + (device.outlying ? 5 : 0), width, size).filter(
      (box) => isWithin(box, wide) && room.isFree(box),
    )
    // A label across a wall would seem to belong to the room next door.
    const spot = free.find((box) => corners !== undefined && isInside(box, corners)) ?? free[0]
    if (!spot) continue
    room.take(spot)
    return { device, as, elements: [textRun(spot.x, spot.y + size * 0.85, size, parts)] }
  }
  return { device, as: 'nothing', elements: [] }
}

export function widthOf(parts: readonly TextPart[], size: number): number {
  return parts.reduce((sum, { text }) => sum + textWidth(text, size), 0) + (parts.length - 1) * size * 0.3 + 3
}

function besides({ x, y }: Spot, away: number, width: number, size: number): Box[] {
  const height = size + 1
  const middle = y - height / 2
  const spots: readonly (readonly [number, number])[] = [
    [x + away, middle],
    [x - away - width, middle],
    [x - width / 2, y + away],
    [x - width / 2, y - away - height],
    [x + away * 0.8, y + away * 0.7],
    [x + away * 0.8, y - away * 0.7 - height],
    [x - away * 0.8 - width, y + away * 0.7],
    [x - away * 0.8 - width, y - away * 0.7 - height],
  ]
  return spots.map(([left, top]) => ({ x: left, y: top, width, height }))
}

/** A length that can be read off: a bar of 1, 2 or 5 times a power of ten. */
export function scaleBar({ box, scale }: Frame, y: number, unit: 'ft' | 'm' | undefined): Element[] {
  const longest = 180 / scale
  const power = 10 ** Math.floor(Math.log10(longest))
  const length = ([5, 2].find((times) => times * power <= longest) ?? 1) * power
  const right = box.x + length * scale
  return [
    el('path', {
      d: `M${px(box.x)} ${px(y - 5)}v5h${px(right - box.x)}v-5`,
      fill: 'none',
      stroke: ink,
      'stroke-width': 1.5,
    }),
    textOver(right + 8, y + 1, 11, `${Number(length.toPrecision(3))} ${unit ?? '(unit not said)'}`, {
      fill: faintInk,
    }),
  ]
}
