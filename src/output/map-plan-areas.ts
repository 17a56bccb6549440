import { boundsOf, liesIn } from '../reports/map-outline.js'
import type { MapArea, Spot } from '../reports/map-site.js'
import type { Box } from './map-elements.js'
import { tabsAt, tabsWidth, textOver, textWidth } from './map-elements.js'
import type { Room } from './map-room.js'
import type { Element } from './xml.js'

export interface AreaLabel {
  readonly elements: readonly Element[]
  /** Whether its name stands there, and not only its number. */
  readonly isNamed: boolean
}

const size = 12
const lineHeight = 15

/** Number and name of an area with its marks below, inside its outline and over no device; without the name if it is too long. */
export function placeAreaLabel(
  area: MapArea,
  corners: readonly Spot[],
  marks: readonly string[],
  room: Room,
): AreaLabel {
  const name = `${area.no} ${area.name}`
  const tries = [
    { lines: [name], isNamed: true },
    ...inTwo(name).map((lines) => ({ lines, isNamed: true })),
    { lines: [String(area.no)], isNamed: false },
  ]
  for (const { lines, isNamed } of tries) {
    const width = Math.max(...lines.map((line) => textWidth(line, size)), tabsWidth(marks))
    const height = lines.length * lineHeight + (marks.length > 0 ? 17 : 0)
    const box = freeBoxIn(corners, width, height, room)
    if (!box) continue
    room.take(box)
    return { elements: labelIn(box, lines, marks), isNamed }
  }
  // Better over something than nowhere: a number and its marks are never left out.
  const forced = middleOf(corners)
  const box = { x: forced.x - 6, y: forced.y - 8, width: 20, height: lineHeight }
  room.take(box)
  return { elements: labelIn(box, [String(area.no)], marks), isNamed: false }
}

/** A text of several words on two lines, as even as can be; none where it is one word. */
function inTwo(text: string): string[][] {
  const words = text.split(' ')
  const ways = words
    .slice(1)
    .map((_, at) => [words.slice(0, at + 1).join(' '), words.slice(at + 1).join(' ')])
  const longest = (lines: readonly string[]) => Math.max(...lines.map((line) => textWidth(line, size)))
  return ways.sort((a, b) => longest(a) - longest(b)).slice(0, 1)
}

function labelIn(box: Box, lines: readonly string[], marks: readonly string[]): Element[] {
  return [
    ...lines.map((line, at) =>
      textOver(box.x, box.y + 11.5 + at * lineHeight, size, line, { 'font-weight': 'bold' }),
    ),
    ...tabsAt(box.x, box.y + lines.length * lineHeight + 1, marks),
  ]
}

/** The first free box from the top left on whose corners and middle lie in the outline. */
function freeBoxIn(corners: readonly Spot[], width: number, height: number, room: Room): Box | undefined {
  const bounds = boundsOf(corners)
  if (!bounds) return undefined
  const air = 5
  const step = {
    x: Math.max(6, (bounds.right - bounds.left) / 40),
    y: Math.max(5, (bounds.bottom - bounds.top) / 40),
  }
  for (let y = bounds.top + air; y + height + air <= bounds.bottom; y += step.y)
    for (let x = bounds.left + air; x + width + air <= bounds.right; x += step.x) {
      const box = { x, y, width, height }
      if (isInside(box, corners) && room.isFree(box)) return box
    }
  return undefined
}

export function isInside({ x, y, width, height }: Box, corners: readonly Spot[]): boolean {
  const spots = [
    { x, y },
    { x: x + width, y },
    { x, y: y + height },
    { x: x + width, y: y + height },
    { x: x + width / 2, y: y + height / 2 },
  ]
  return spots.every((spot) => liesIn(spot, corners))
}

/** A spot inside the outline, about its middle. */
function middleOf(corners: readonly Spot[]): Spot {
  const bounds = boundsOf(corners) ?? { left: 0, top: 0, right: 0, bottom: 0 }
  const middle = { x: (bounds.left + bounds.right) / 2, y: (bounds.top + bounds.bottom) / 2 }
  if (liesIn(middle, corners)) return middle
  const inside = corners.map((corner, at) => {
    const next = corners[(at + 1) % corners.length] ?? corner
    const after = corners[(at + 2) % corners.length] ?? corner
    return { x: (corner.x + next.x + after.x) / 3, y: (corner.y + next.y + after.y) / 3 }
  })
  return inside.find((spot) => liesIn(spot, corners)) ?? middle
}
