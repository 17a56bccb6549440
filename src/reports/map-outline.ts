import type { OutlineState, Spot } from './map-site.js'

/** No school reaches so far, in feet or metres: a position beyond it is a slip, and would shrink all others to a dot. */
export const farthest = 20_000

/** No room has so many; to look for crossing sides among more would take long. */
const mostCorners = 500

export interface Bounds {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** The smallest upright box about some spots; null about none. */
export function boundsOf(spots: readonly Spot[]): Bounds | null {
  if (spots.length === 0) return null
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const { x, y } of spots) {
    left = Math.min(left, x)
    right = Math.max(right, x)
    top = Math.min(top, y)
    bottom = Math.max(bottom, y)
  }
  return { left, top, right, bottom }
}

export function isTooFar({ x, y }: Spot): boolean {
  return !(Math.abs(x) <= farthest && Math.abs(y) <= farthest)
}

/** What can be drawn of an outline as it is recorded, closed from the last corner to the first. */
export function outlineOf(corners: readonly (readonly [number, number])[] | undefined): {
  readonly outlineState: OutlineState
  readonly outline: readonly Spot[]
} {
  if (corners === undefined) return { outlineState: 'none', outline: [] }
  if (corners.length > mostCorners) return { outlineState: 'too many corners', outline: [] }
  const outline = corners.map(([x, y]) => ({ x, y }))
  if (outline.some(isTooFar)) return { outlineState: 'too far', outline: [] }
  if (crossesItself(outline)) return { outlineState: 'crosses itself', outline }
  if (Math.abs(twiceTheArea(outline)) < 1e-9) return { outlineState: 'no size', outline: [] }
  return { outlineState: 'drawn', outline }
}

/** Shoelace formula; its sign tells which way round the corners go. */
function twiceTheArea(outline: readonly Spot[]): number {
  return sidesOf(outline).reduce((sum, [a, b]) => sum + a.x * b.y - b.x * a.y, 0)
}

function sidesOf(outline: readonly Spot[]): (readonly [Spot, Spot])[] {
  return outline.map((corner, at) => [corner, outline[(at + 1) % outline.length] ?? corner] as const)
}

/** Whether two sides that are no neighbours cross in the open, as in a bow tie. Sides that only touch do not. */
function crossesItself(outline: readonly Spot[]): boolean {
  const sides = sidesOf(outline)
  return sides.some(([a, b], at) => sides.slice(at + 2).some(([c, d]) => doCross(a, b, c, d)))
}

function doCross(a: Spot, b: Spot, c: Spot, d: Spot): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0
}

/** On which side of the line from a to b the spot c lies: a sign, 0 on it. */
function turn(a: Spot, b: Spot, c: Spot): number {
  return Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x))
}

/** Whether a spot lies in an outline or on its edge. In one that crosses itself, by the even-odd rule. */
export function liesIn(spot: Spot, outline: readonly Spot[]): boolean {
  let inside = false
  for (const [a, b] of sidesOf(outline)) {
    if (isOnSide(spot, a, b)) return true
    if (a.y > spot.y !== b.y > spot.y && spot.x < a.x + ((spot.y - a.y) / (b.y - a.y)) * (b.x - a.x))
      inside = !inside
  }
  return inside
}

function isOnSide(spot: Spot, a: Spot, b: Spot): boolean {
  return (
    turn(a, b, spot) === 0 &&
    spot.x >= Math.min(a.x, b.x) &&
    spot.x <= Math.max(a.x, b.x) &&
    spot.y >= Math.min(a.y, b.y) &&
    spot.y <= Math.max(a.y, b.y)
  )
}
