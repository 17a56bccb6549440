import { textWidth } from '../../src/output/map-elements.js'
import { mapSvg } from '../../src/output/map-svg.js'
import type { SiteMap } from '../../src/reports/map-site.js'
import type { ReadElement } from './read-xml.js'
import { readXml } from './read-xml.js'

/** The picture of a map, read back strictly. */
export function pictureOf(map: SiteMap): ReadElement {
  return readXml(mapSvg(map))
}

/** An element and all in it. */
export function allIn(element: ReadElement): ReadElement[] {
  return [element, ...element.children.flatMap(allIn)]
}

/** Text of an element with that of the elements in it, blanks as a browser has them. */
export function textIn(element: ReadElement): string {
  return [element.text, ...element.children.map(textIn)].join(' ').replace(/\s+/g, ' ').trim()
}

export interface Rect {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

export interface DrawnDevice {
  /** `n1 T1, sticky trap, kitchen: …` */
  readonly says: string
  readonly shape: ReadElement
  readonly box: Rect
  readonly middle: readonly [number, number]
}

/** The shapes of devices: groups that say what they are. */
export function devicesIn(picture: ReadElement): DrawnDevice[] {
  return allIn(picture).flatMap((group) => {
    const [title, shape] = group.children
    if (group.name !== 'g' || title?.name !== 'title' || !shape) return []
    const box = boxOf(shape)
    return [
      { says: title.text, shape, box, middle: [(box.left + box.right) / 2, (box.top + box.bottom) / 2] },
    ]
  })
}

export function cornersOf({ attributes }: ReadElement): (readonly [number, number])[] {
  return (attributes.points ?? '').split(' ').map((pair) => {
    const [x = Number.NaN, y = Number.NaN] = pair.split(',').map(Number)
    return [x, y] as const
  })
}

function boxOf(shape: ReadElement): Rect {
  if (shape.name === 'circle') {
    const [x, y, r] = [Number(shape.attributes.cx), Number(shape.attributes.cy), Number(shape.attributes.r)]
    return { left: x - r, top: y - r, right: x + r, bottom: y + r }
  }
  const corners = cornersOf(shape)
  const [across, down] = [corners.map(([x]) => x), corners.map(([, y]) => y)]
  return {
    left: Math.min(...across),
    top: Math.min(...down),
    right: Math.max(...across),
    bottom: Math.max(...down),
  }
}

export interface Label {
  readonly text: string
  readonly box: Rect
}

/** What stands beside devices: the texts made of pieces. */
export function labelsIn(picture: ReadElement): Label[] {
  return allIn(picture).flatMap((element) => {
    if (element.name !== 'text' || !element.children.some(({ name }) => name === 'tspan')) return []
    const text = textIn(element)
    const [x, y, size] = ['x', 'y', 'font-size'].map((key) => Number(element.attributes[key]))
    if (x === undefined || y === undefined || size === undefined) return []
    return [{ text, box: { left: x, top: y - size * 0.75, right: x + textWidth(text, size), bottom: y } }]
  })
}

/** Pairs that lie over one another, by their places in the list. */
export function overlapsIn(boxes: readonly Rect[]): (readonly [number, number])[] {
  return boxes.flatMap((a, at) =>
    boxes.flatMap((b, other) =>
      other > at && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
        ? [[at, other] as const]
        : [],
    ),
  )
}
