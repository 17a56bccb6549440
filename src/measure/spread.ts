/** Devices set out evenly along a stretch. */
export interface Spread {
  readonly count: number
  /** Distance from each to the next, in the unit handed in; 0 for a single one. */
  readonly apart: number
  /** Where each stands, from the beginning of the stretch. */
  readonly at: readonly number[]
}

/** Lengths are taken to a millionth, so that 3 times 5.1 is 15.3. */
const trace = 1e-6

/**
 * The fewest devices, one at each end, none further from the next than `atMost`: ceil(length / atMost) + 1, evenly.
 * A stretch no longer than half the distance is within reach of one in its middle. Lengths are in one unit, above zero;
 * null for anything else, or for more than a thousand devices.
 */
export function spreadAlong(length: number, atMost: number): Spread | null {
  if (!isUsable(length, atMost)) return null
  if (length <= atMost / 2 + trace) return { count: 1, apart: 0, at: [rounded(length / 2)] }
  const steps = Math.max(1, Math.ceil(length / atMost - trace))
  return evenly(steps + 1, length / steps)
}

/** The same around a room whose wall comes back to where it began: ceil(length / atMost), at least one. */
export function spreadAround(length: number, atMost: number): Spread | null {
  if (!isUsable(length, atMost)) return null
  const count = Math.max(1, Math.ceil(length / atMost - trace))
  return evenly(count, count === 1 ? 0 : length / count)
}

/** How many more between two neighbours, so that none is further from the next than `atMost`. */
export function moreBetween(apart: number, atMost: number): number {
  return isUsable(apart, atMost) ? Math.max(0, Math.ceil(apart / atMost - trace) - 1) : 0
}

function isUsable(length: number, atMost: number): boolean {
  return (
    length > 0 && atMost > 0 && Number.isFinite(length) && Number.isFinite(atMost) && length / atMost <= 1000
  )
}

function evenly(count: number, apart: number): Spread {
  return { count, apart: rounded(apart), at: Array.from({ length: count }, (_, n) => rounded(n * apart)) }
}

const rounded = (value: number) => Math.round(value * 1e6) / 1e6
