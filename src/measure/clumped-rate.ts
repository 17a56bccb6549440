import type { CatchReading, Clumping } from './effective-counts.js'
import { allCounts, divisorOf, largestDispersion, readingsWithEffort, totalOf } from './effective-counts.js'
import type { RateInterval } from './poisson-rate.js'
import { exactRate } from './poisson-rate.js'
import { gammaQuantileLower, gammaQuantileUpper } from './special-functions.js'

/**
 * A rate whose interval allows for clumped catches: the limits of Garwood F (1936) Biometrika 28:437–442, of the count
 * divided by what clumping makes it worth (`divisorOf`; Korn EL, Graubard BI 1998, Survey Methodology 24:193–201, for
 * proportions, from memory), over the effort divided by the same. Such a count need not be whole: the limits are
 * gamma quantiles.
 *
 * Rate and limits per unit of effort. Without clumping to go by (null), or without a catch, the exact interval of a
 * Poisson rate. Null when a count is not a whole number from zero up, nothing has effort, or a limit is out of range.
 */
export function rateWithClumping(
  readings: readonly CatchReading[],
  clumping: Clumping | null,
  confidence = 0.95,
): RateInterval | null {
  if (!allCounts(readings)) return null
  const usable = readingsWithEffort(readings)
  const { count, effort } = totalOf(usable)
  const exact = exactRate(count, effort, confidence)
  if (!exact || !clumping || count === 0) return exact
  const divisor = divisorOf(largestDispersion([usable], clumping), clumping.degreesOfFreedom, confidence)
  const tail = (1 - confidence) / 2
  const lower = (gammaQuantileLower(count / divisor, tail) / effort) * divisor
  const upper = (gammaQuantileUpper(count / divisor + 1, tail) / effort) * divisor
  return Number.isFinite(lower) && Number.isFinite(upper) ? { rate: exact.rate, lower, upper } : null
}
