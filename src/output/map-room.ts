import type { Box } from './map-elements.js'

const bucketSize = 40

/** What of a picture is taken, so that nothing is put over anything else. */
export class Room {
  readonly #buckets = new Map<string, Box[]>()

  isFree(box: Box): boolean {
    return this.#keysOf(box).every((key) =>
      (this.#buckets.get(key) ?? []).every((taken) => !doOverlap(taken, box)),
    )
  }

  take(box: Box): void {
    for (const key of this.#keysOf(box)) {
      const bucket = this.#buckets.get(key)
      if (bucket) bucket.push(box)
      else this.#buckets.set(key, [box])
    }
  }

  #keysOf({ x, y, width, height }: Box): string[] {
    const keys: string[] = []
    for (let column = Math.floor(x / bucketSize); column <= Math.floor((x + width) / bucketSize); column++)
      for (let row = Math.floor(y / bucketSize); row <= Math.floor((y + height) / bucketSize); row++)
        keys.push(`${column} ${row}`)
    return keys
  }
}

function doOverlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height
}

export function isWithin(inner: Box, outer: Box): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.width <= outer.x + outer.width &&
    inner.y + inner.height <= outer.y + outer.height
  )
}

/** The box of a symbol about its middle, with a little air. */
export function boxAbout({ x, y }: { readonly x: number; readonly y: number }, radius: number): Box {
  return { x: x - radius - 1, y: y - radius - 1, width: 2 * radius + 2, height: 2 * radius + 2 }
}
