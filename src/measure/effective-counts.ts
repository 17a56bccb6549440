import { isConfidence, isCount, isExposure } from './poisson-rate.js'
import {
  betaQuantileOdds,
  betaTails,
  normalCriticalValue,
  studentCriticalValue,
} from './special-functions.js'

/** What one reading caught, and the effort it was caught with (trap-nights, or another unit shared by all). */
export interface CatchReading {
  count: number
  effort: number
}

/** How catches clump about the means of their groups. */
export interface Clumping {
  /** The c of: variance = μ + c · μ². Zero for catches that do not clump. */
  perMean: number
  /** Readings, less one for each group: how much is known of it. */
  degreesOfFreedom: number
}

/** Count and effort of several readings together. */
export interface CatchTotal {
  count: number
  effort: number
  readings: number
}

/** True when every reading's count is a whole number from zero up. */
export function allCounts(readings: readonly CatchReading[]): boolean {
  return readings.every(({ count }) => isCount(count))
}

/** The readings in which something could have been caught. */
export function readingsWithEffort(readings: readonly CatchReading[]): CatchReading[] {
  return readings.filter(({ effort }) => isExposure(effort))
}

export function totalOf(readings: readonly CatchReading[]): CatchTotal {
  let count = 0
  let effort = 0
  for (const reading of readings) {
    count += reading.count
    effort += reading.effort
  }
  return { count, effort, readings: readings.length }
}

/**
 * Clumping of the readings about the means of their groups, by moments: Pearson's χ² over all groups exceeds its
 * degrees of freedom by c · Σ(1 − h)μ, h being a reading's share of its group's effort (Breslow NE 1984, Appl.
 * Statist. 33:38–44, first step). Never below 0: catches do not spread more evenly than chance.
 *
 * Several events may be given together; theirs is then the pooled clumping. Readings without effort are left
 * out, and so are groups without an animal. Null when no group with an animal has two readings with effort: nothing is
 * known of clumping then. With a few animals a group it leans low, for one animal tells nothing of clumping.
 */
export function clumpingAbout(groups: readonly (readonly CatchReading[])[]): Clumping | null {
  let chiSquare = 0
  let weight = 0
  let degreesOfFreedom = 0
  for (const group of groups) {
    const readings = readingsWithEffort(group)
    const { count, effort } = totalOf(readings)
    // Without an animal χ² is 0 whatever the clumping: counted, it would make sparse catches look calm.
    if (count === 0) continue
    degreesOfFreedom += readings.length - 1
    for (const reading of readings) {
      const share = reading.effort / effort
      const mean = count * share
      chiSquare += (reading.count - mean) ** 2 / mean
      weight += (1 - share) * mean
    }
  }
  if (degreesOfFreedom === 0) return null
  const excess = chiSquare - degreesOfFreedom
  return { perMean: excess > 0 && weight > 0 ? excess / weight : 0, degreesOfFreedom }
}

/**
 * Variance over mean where these groups clump most: 1 + c · Σμ²/Σμ of the group for which that is largest. The
 * largest, because one divisor has to serve all groups and clumping grows with the mean; see README.md for what
 * the plain pooled figure gets wrong.
 */
export function largestDispersion(groups: readonly (readonly CatchReading[])[], clumping: Clumping): number {
  let largest = 0
  for (const group of groups) {
    const { count, effort } = totalOf(group)
    let squares = 0
    for (const reading of group) squares += (reading.effort / effort) ** 2
    largest = Math.max(largest, count * squares)
  }
  return 1 + clumping.perMean * largest
}

/** From here on Student's t is the normal to six digits. */
const PLENTY = 1e6

/**
 * What counts are divided by to be counted as if they did not clump: the dispersion, times (t/z)² because the
 * dispersion itself is only estimated (Korn EL, Graubard BI 1998, Survey Methodology 24:193–201, for
 * proportions).
 */
export function divisorOf(dispersion: number, degreesOfFreedom: number, confidence: number): number {
  const t = studentCriticalValue(confidence, Math.min(degreesOfFreedom, PLENTY))
  const z = normalCriticalValue(confidence)
  return dispersion * (t / z) ** 2
}

/** Limits of odds; `upper` is null where there is no upper limit. */
export interface OddsLimits {
  lower: number
  upper: number | null
}

/** So few effective animals bound nothing: the limit is left open, which is the wider interval. */
export const FEWEST_EFFECTIVE = 0.05

/**
 * Clopper & Pearson's (1934) limits for the odds of a share, for counts that need not be whole (the beta
 * quantiles serve for any): `count` on one side, `others` on the other.
 */
export function oddsLimits(count: number, others: number, confidence: number): OddsLimits {
  const tail = (1 - confidence) / 2
  return {
    lower: count < FEWEST_EFFECTIVE ? 0 : betaQuantileOdds(count, others + 1, tail),
    upper: others < FEWEST_EFFECTIVE ? null : 1 / betaQuantileOdds(others, count + 1, tail),
  }
}

/** Twice the smaller tail at the given share, which agrees with `oddsLimits`. 0 < share < 1. */
export function shareP(count: number, others: number, share: number): number {
  const otherwise = 1 - share
  const high = count < FEWEST_EFFECTIVE ? 1 : betaTails(share, otherwise, count, others + 1).lower
  const low = others < FEWEST_EFFECTIVE ? 1 : betaTails(otherwise, share, others, count + 1).lower
  return Math.min(1, 2 * Math.min(high, low))
}

/** True when intervals can be drawn with this confidence and this clumping. */
export function canBeDrawn(confidence: number, clumping: Clumping): boolean {
  const { perMean, degreesOfFreedom } = clumping
  const known = Number.isFinite(perMean) && perMean >= 0 && degreesOfFreedom > 0
  return known && isConfidence(confidence) && confidence <= 0.9999
}
