import { cusumMoves } from './cusum-run-length.js'
import type { CusumDirection } from './poisson-cusum.js'
import { isExposure } from './poisson-rate.js'
import { type ChartMoves, runLengthChain } from './run-length-chain.js'

export interface VariedCusum {
  direction: CusumDirection
  /** Events per unit of exposure, above 0. */
  rate: number
  /** Reference value per unit of exposure, above 0. */
  k: number
  /** Decision value in events, above 0. */
  h: number
  /** Efforts in the unit of `rate`; each reading has one of them at random, all alike likely. */
  exposures: readonly number[]
  /** 0 for catches that do not clump; else variance = mean + clumping · mean². */
  clumping?: number
}

/** Between which the average run length lies. */
export interface RunLengthBounds {
  atLeast: number
  atMost: number
}

const MOST_STATES_HERE = 400
const MOST_PARTS = 100
const MOST_EXPOSURES = 100

function mixed(all: readonly { share: number; moves: ChartMoves }[]): ChartMoves {
  const sum = (of: (moves: ChartMoves) => number) =>
    all.reduce((total, one) => total + one.share * of(one.moves), 0)
  return {
    chance: (from, to) => sum((moves) => moves.chance(from, to)),
    beyond: (from, bound) => sum((moves) => moves.beyond(from, bound)),
  }
}

/**
 * The average run length when effort varies by chance from reading to reading, between two bounds: k times
 * effort is rounded to whole parts of an event, once so that the sum signals no later on any path, once so
 * that it signals no earlier, and each time the exact chain is solved with the moves of all efforts mixed
 * (Brook & Evans 1972; mixing is exact for efforts that are independent of each other and of the catches). The
 * parts are as fine as 400 states allow, from a hundredth to a tenth of an event; the coarser, the wider apart
 * the bounds.
 *
 * Takes about a tenth of a second with a few different efforts, over half a second with a hundred, and does not
 * remember: for one series, not for thousands.
 * Null when a figure is out of range, there are no exposures or more than a hundred different ones, h is above
 * 40 events, or the run is longer than a double can hold.
 */
export function runLengthWithVariedEffort(cusum: VariedCusum): RunLengthBounds | null {
  const { direction, rate, k, h, exposures, clumping = 0 } = cusum
  if (![rate, k, h].every(isExposure) || !exposures.every(isExposure)) return null
  if (exposures.length === 0 || !(clumping >= 0 && clumping < Infinity)) return null
  const perEvent = Math.min(MOST_PARTS, 10 * Math.floor(MOST_STATES_HERE / h / 10))
  const times = new Map<number, number>()
  for (const exposure of exposures) times.set(exposure, (times.get(exposure) ?? 0) + 1)
  if (perEvent < 10 || times.size > MOST_EXPOSURES) return null

  const solved = (soon: boolean) => {
    // Up: less taken off signals sooner. Down: more credited does. A hair against the rounding of k · exposure.
    const roundDown = soon === (direction === 'up')
    const parts = (value: number, down: boolean) =>
      down ? Math.floor(value * perEvent + 1e-7) : Math.ceil(value * perEvent - 1e-7)
    const all = [...times].map(([exposure, count]) => ({
      share: count / exposures.length,
      moves: cusumMoves(direction, rate * exposure, clumping, parts(k * exposure, roundDown), perEvent),
    }))
    const chain = runLengthChain(mixed(all))
    const states = Math.max(1, parts(h, soon))
    while (chain.states() < states) chain.grow()
    return chain.fromZero()
  }

  const bounds = { atLeast: solved(true), atMost: solved(false) }
  return Number.isFinite(bounds.atLeast) && Number.isFinite(bounds.atMost) ? bounds : null
}

/**
 * The decision value, in events, that makes the average in-control run at least as long as wished **whatever
 * the efforts are and however they change**: h = ln(run length)/|ln factor|, for a sum of independent Poisson
 * counts with the unrounded k of `cusumReference` for that factor, no head start (Lorden G 1971, Ann. Math.
 * Statist. 42:1897–1908, from memory: the likelihood ratio of a reading has in-control mean 1 at any effort).
 * Never too small, mostly several times longer a run than wished. It does not hold for catches that clump.
 *
 * Null when the factor is not above zero or is 1, or the run length is not above 1.
 */
export function decisionForAnyEffort(runLength: number, factor: number): number | null {
  if (!isExposure(factor) || !(runLength > 1 && runLength < Infinity)) return null
  const h = Math.log(runLength) / Math.abs(Math.log(factor))
  return Number.isFinite(h) ? h : null
}
