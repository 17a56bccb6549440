import type { MapArea, MapDevice, SiteMap } from '../reports/map-site.js'
import type { Drawn } from './map-device.js'
import { deviceAt, labelOf, shortLabelOf } from './map-device.js'
import type { Box } from './map-elements.js'
import { el, faintInk, px, shortened, tabsAt, tabsWidth, textAt, textRun, textWidth } from './map-elements.js'
import { marksOf, patternOf } from './map-marks.js'
import { widthOf } from './map-plan.js'
import type { Element } from './xml.js'

export interface Boxes {
  readonly elements: readonly Element[]
  readonly height: number
  readonly numbered: readonly MapDevice[]
}

interface BoxOfArea {
  readonly title: string
  readonly why: string
  readonly id: string
  readonly devices: readonly MapDevice[]
}

const cell = { width: 118, height: 21 }
const head = 46
const air = 10

/**
 * What cannot be drawn to scale: areas without an outline as boxes in walking order, and devices without a usable
 * position in the box of their area. Nothing is left out for want of geometry.
 */
export function boxesOf(
  map: SiteMap,
  { boxed, crowdedOut }: { readonly boxed: readonly MapDevice[]; readonly crowdedOut: readonly MapDevice[] },
  at: Pick<Box, 'x' | 'y' | 'width'>,
  drawn: Drawn,
): Boxes {
  const crowded = new Set(crowdedOut)
  const here = [...boxed, ...crowdedOut]
  const boxes = [...map.areas.flatMap((area) => boxOfArea(area, here, crowded)), ...boxesElsewhere(map, here)]
  const elements: Element[] = []
  const numbered: MapDevice[] = []
  let [x, y, rowHeight] = [at.x, at.y, 0]
  for (const box of boxes) {
    const marks = marksOf(map, box)
    const columns = columnsFor(box.devices.length, at.width)
    const width = Math.min(
      at.width,
      Math.max(170, columns * cell.width + 2 * air, titleWidth(box) + 2 * air, tabsWidth(marks) + 2 * air),
    )
    const height =
      head + Math.ceil(box.devices.length / columns) * cell.height + (marks.length > 0 ? 18 : 0) + 4
    if (x > at.x && x + width > at.x + at.width) {
      x = at.x
      y += rowHeight + air
      rowHeight = 0
    }
    const one = drawBox(map, box, { x, y, width, height }, columns, marks, drawn)
    elements.push(...one.elements)
    numbered.push(...one.numbered)
    x += width + air
    rowHeight = Math.max(rowHeight, height)
  }
  return { elements, height: boxes.length === 0 ? 0 : y + rowHeight - at.y, numbered }
}

const longestTitle = 40
const titleWidth = ({ title, why }: BoxOfArea) =>
  Math.max(textWidth(shortened(title, longestTitle), 12), textWidth(why, 10))

function boxOfArea(area: MapArea, boxed: readonly MapDevice[], crowded: ReadonlySet<MapDevice>): BoxOfArea[] {
  const devices = boxed.filter((device) => device.area === area.id)
  const isDrawn = area.outline.length > 0
  if (isDrawn && devices.length === 0) return []
  const why = !isDrawn
    ? 'no outline that can be drawn'
    : devices.every((device) => crowded.has(device))
      ? 'too close together on the plan'
      : devices.some((device) => crowded.has(device))
        ? 'no position, or too close together'
        : 'no position on the plan'
  return [{ title: `${area.no} ${area.name}`, why, id: area.id, devices }]
}

/** Devices whose area is no part of the site on this day, or is not known at all. */
function boxesElsewhere(map: SiteMap, boxed: readonly MapDevice[]): BoxOfArea[] {
  const known = new Set(map.areas.map(({ id }) => id))
  const others = boxed.filter(({ area }) => !known.has(area))
  return [...new Set(others.map(({ area }) => area))].map((area) => {
    const devices = others.filter((device) => device.area === area)
    return { title: devices[0]?.areaName ?? area, why: 'no area of the site on this day', id: area, devices }
  })
}

/** About as wide as high, within the page. */
function columnsFor(devices: number, width: number): number {
  const most = Math.max(1, Math.floor((width - 2 * air) / cell.width))
  return Math.min(most, Math.max(1, Math.ceil(Math.sqrt(devices / 3))))
}

function drawBox(
  map: SiteMap,
  { title, why, id, devices }: BoxOfArea,
  box: Box,
  columns: number,
  marks: readonly string[],
  drawn: Drawn,
): { readonly elements: readonly Element[]; readonly numbered: readonly MapDevice[] } {
  const frame = { x: px(box.x), y: px(box.y), width: px(box.width), height: px(box.height), rx: 5 }
  const top = box.y + head + (marks.length > 0 ? 18 : 0) - 4
  const numbered: MapDevice[] = []
  const cells = devices.flatMap((device, at) => {
    const x = box.x + air + (at % columns) * cell.width
    const y = top + Math.floor(at / columns) * cell.height
    const isLong = widthOf(labelOf(device), 10) > cell.width - 26
    if (isLong) numbered.push(device)
    return [
      deviceAt(device, { x: x + 9, y: y + 3 }, 7, drawn),
      textRun(x + 22, y + 6.5, 10, isLong ? shortLabelOf(device) : labelOf(device)),
    ]
  })
  return {
    elements: [
      el('rect', {
        ...frame,
        fill: '#fbfaf7',
        stroke: faintInk,
        'stroke-width': 1,
        'stroke-dasharray': '5 3',
      }),
      ...patternOf(map, id, drawn.prefix).map((fill) => el('rect', { ...frame, fill })),
      textAt(box.x + air, box.y + 17, 12, shortened(title, longestTitle), { 'font-weight': 'bold' }),
      textAt(box.x + air, box.y + 31, 10, why, { fill: faintInk }),
      ...tabsAt(box.x + air, box.y + 37, marks),
      ...cells,
    ],
    numbered,
  }
}
