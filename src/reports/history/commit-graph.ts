import type { CommitFacts } from './facts.js'

type Graph = readonly Pick<CommitFacts, 'at' | 'cameFrom'>[]

/** Whether one commit is in the history of another. */
export function isAncestor(graph: Graph, ancestor: number, of: number): boolean {
  const seen = new Set<number>([of])
  const waiting = [of]
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (at === ancestor) return true
    for (const parent of graph[at]?.cameFrom ?? []) {
      // Parents come before children, so nothing before the ancestor leads to it.
      if (parent < ancestor || seen.has(parent)) continue
      seen.add(parent)
      waiting.push(parent)
    }
  }
  return false
}

const ofFirst = 1
const ofSecond = 2
const known = 4

/**
 * Where two lines of history parted: the last commits that both have, none of them in the history of another. Usually
 * one; none where the lines have nothing in common. The cost is that of the commits since.
 */
export function partedAt(graph: Graph, first: number, second: number): number[] {
  const marks = new Map<number, number>([[first, ofFirst]])
  marks.set(second, (marks.get(second) ?? 0) | ofSecond)
  const waiting = waitingPlaces()
  waiting.add(first)
  if (second !== first) waiting.add(second)
  const parted: number[] = []
  // How many that wait are not known to be in the history of one that was found.
  let open = second === first ? 1 : 2
  while (open > 0) {
    const at = waiting.takeLast()
    if (at === undefined) break
    const mark = marks.get(at) ?? 0
    if ((mark & known) === 0) open--
    let handed = mark
    if (mark === (ofFirst | ofSecond)) {
      parted.push(at)
      handed = mark | known
    }
    for (const parent of graph[at]?.cameFrom ?? []) {
      const before = marks.get(parent)
      const now = (before ?? 0) | handed
      marks.set(parent, now)
      if (before === undefined) {
        waiting.add(parent)
        if ((now & known) === 0) open++
      } else if ((before & known) === 0 && (now & known) !== 0) open--
    }
  }
  return parted
}

/** Places of commits, of which the last one comes out first: a binary heap. */
function waitingPlaces() {
  const heap: number[] = []
  const add = (place: number): void => {
    let at = heap.push(place) - 1
    while (at > 0) {
      const above = (at - 1) >> 1
      if ((heap[above] ?? 0) >= place) break
      heap[at] = heap[above] ?? 0
      heap[above] = place
      at = above
    }
  }
  const takeLast = (): number | undefined => {
    const top = heap[0]
    const moved = heap.pop()
    if (top === undefined || moved === undefined || heap.length === 0) return top
    let at = 0
    for (let below = 1; below < heap.length; below = 2 * at + 1) {
      if (below + 1 < heap.length && (heap[below + 1] ?? 0) > (heap[below] ?? 0)) below++
      if ((heap[below] ?? 0) <= moved) break
      heap[at] = heap[below] ?? 0
      at = below
    }
    heap[at] = moved
    return top
  }
  return { add, takeLast }
}
