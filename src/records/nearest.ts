import { distance } from 'fastest-levenshtein'

/** The known name nearest to a misspelt one, if it is near enough to be worth saying. A suggestion, never assumed. */
export function nearest(written: string, known: Iterable<string>): string | undefined {
  let best: string | undefined
  let least = Math.max(1, Math.floor(written.length / 3)) + 1
  for (const name of known) {
    const steps = distance(written.toLowerCase(), name.toLowerCase())
    if (steps < least) {
      least = steps
      best = name
    }
  }
  return best
}
