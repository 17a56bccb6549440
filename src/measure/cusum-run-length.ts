import { countLaw } from './count-law.js'
import type { CusumDirection } from './poisson-cusum.js'
import { isExposure } from './poisson-rate.js'
import { type ChartMoves, MOST_STATES, runLengthChain } from './run-length-chain.js'

/** A cumulative sum that is read at equal effort, with k and h in events a reading. */
export interface EvenCusum {
  direction: CusumDirection
  /** Mean count of a reading, above 0. */
  mean: number
  /** Whole tenths, above 0. */
  k: number
  /** Whole tenths, above 0. */
  h: number
  /** Whole tenths, below h; 0 unless given. */
  headStart?: number
  /** 0 for catches that do not clump; else variance = mean + clumping · mean². */
  clumping?: number
}

/** A number of whole tenths, or null. Tenths such as 2.9 are not exact in a double. */
function tenths(value: number): number | null {
  const scaled = Math.round(value * 10)
  return Math.abs(value * 10 - scaled) <= 1e-6 && Number.isSafeInteger(scaled) ? scaled : null
}

export function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b)
}

/**
 * Moves of a sum whose states are whole parts of an event: one event is `perEvent` states and k is `k` states.
 */
export function cusumMoves(
  direction: CusumDirection,
  mean: number,
  clumping: number,
  k: number,
  perEvent: number,
): ChartMoves {
  const law = countLaw(mean, clumping)
  const whole = (parts: number) => (parts % perEvent === 0 ? law.probability(parts / perEvent) : 0)
  if (direction === 'up') {
    return {
      chance: (from, to) => (to === 0 ? law.atMost(Math.floor((k - from) / perEvent)) : whole(to - from + k)),
      beyond: (from, bound) => law.atLeast(Math.ceil((bound - from + k) / perEvent)),
    }
  }
  return {
    chance: (from, to) => (to === 0 ? law.atLeast(Math.ceil((from + k) / perEvent)) : whole(from + k - to)),
    beyond: (from, bound) => law.atMost(Math.floor((from + k - bound) / perEvent)),
  }
}

/**
 * Average number of readings until the sum signals (the signalling one included), counts being independent and
 * of one law: exact Markov chain of Brook D, Evans DA (1972) Biometrika 59:539–549, for a sum that signals at
 * S >= h (Lucas 1985). Effort is taken to be the same each time; for effort that varies see
 * `cusum-varied-effort.ts`.
 *
 * The states are the multiples, below h, of the largest step that 1, k and the head start are multiples of.
 * Null when k, h or the head start is not in whole tenths or out of range, the mean not above zero, the
 * clumping negative, the states are more than `MOST_STATES`, or the run is longer than a double can hold.
 */
export function averageRunLength(cusum: EvenCusum): number | null {
  const { direction, mean, headStart = 0, clumping = 0 } = cusum
  const [k, h, start] = [cusum.k, cusum.h, headStart].map(tenths)
  if (k == null || h == null || start == null || !isExposure(mean)) return null
  if (k <= 0 || start < 0 || start >= h || !(clumping >= 0 && clumping < Infinity)) return null
  const step = greatestCommonDivisor(greatestCommonDivisor(10, k), start)
  const states = Math.ceil(h / step)
  if (states > MOST_STATES) return null
  const chain = runLengthChain(cusumMoves(direction, mean, clumping, k / step, 10 / step))
  while (chain.states() < states) chain.grow()
  const length = start === 0 ? chain.fromZero() : chain.from(start / step)
  return Number.isFinite(length) ? length : null
}
