import type { Clumping } from './effective-counts.js'
import { clumpingAbout } from './effective-counts.js'
import { isCount, isExposure } from './poisson-rate.js'
import { gammaQuantileLower, gammaQuantileUpper } from './special-functions.js'

/** What one part (traps of one kind in one place) caught at one reading; `effort` in trap-nights or any shared unit. */
export interface PartCatch {
  readonly part: string
  readonly count: number
  readonly effort: number
}

/** What is usual, learnt from readings before the ones to be judged. */
export interface UsualCatch {
  readonly count: number
  readonly effort: number
  readonly readings: number
  /** Expected count of parts read together; parts that were never read before are not counted. */
  readonly of: (parts: readonly PartCatch[]) => number
}

/** Factors by which the usual catch may truly be larger or smaller than `UsualCatch.of` says. */
export interface UsualLimits {
  /** Two-sided 95 %. */
  readonly low: number
  readonly high: number
  /** One-sided 80 %, not below 1: the usual catch to reckon with where a false alarm is to be avoided. */
  readonly guarded: number
}

/** Animals added to what was caught, spread over all effort: the posterior mean of a rate under Jeffreys' prior. */
const added = 0.5
const guardTail = 0.2

/**
 * The usual catch of a reading whose parts are not always read together: each part's own count over its own effort,
 * and half an animal spread over the effort of all (the mean of a Poisson rate under the prior of Jeffreys H 1946,
 * Proc. R. Soc. A 186:453–461, from memory), so that a part without a catch is not taken for impossible. Comparing
 * part by part is indirect standardisation: traps read again because something was caught there are held against
 * that place, not against the whole building.
 *
 * Null when no part has effort, or a count is not a whole number from zero up.
 */
export function usualCatch(readings: readonly (readonly PartCatch[])[]): UsualCatch | null {
  const byPart = new Map<string, { count: number; effort: number }>()
  let count = 0
  let effort = 0
  let withEffort = 0
  for (const reading of readings) {
    const usable = reading.filter((part) => isExposure(part.effort))
    if (usable.length > 0) withEffort += 1
    for (const part of usable) {
      if (!isCount(part.count)) return null
      const sums = byPart.get(part.part) ?? { count: 0, effort: 0 }
      sums.count += part.count
      sums.effort += part.effort
      byPart.set(part.part, sums)
      count += part.count
      effort += part.effort
    }
  }
  if (effort === 0) return null
  return {
    count,
    effort,
    readings: withEffort,
    of: (parts) =>
      parts.reduce((sum, part) => {
        const known = byPart.get(part.part)
        if (!known || !isExposure(part.effort)) return sum
        return sum + (known.count / known.effort + added / effort) * part.effort
      }, 0),
  }
}

/**
 * Clumping of readings about what is usual for each (`clumpingAbout`, the usual catch taking the place of effort), over
 * several series together. Null when no series has two readings.
 */
export function clumpingAboutUsual(
  series: readonly { readonly usual: UsualCatch; readonly readings: readonly (readonly PartCatch[])[] }[],
): Clumping | null {
  return clumpingAbout(
    series.map(({ usual, readings }) =>
      readings.map((parts) => ({
        count: parts.reduce((sum, part) => sum + part.count, 0),
        effort: usual.of(parts),
      })),
    ),
  )
}

/**
 * How far the usual catch can be trusted: Garwood's (1936) limits of the total count, divided by its dispersion
 * 1 + clumping · Σμ²/Σμ (as in `effective-counts.ts`), as factors of the expected count.
 *
 * A chart set for an in-control mean that was itself estimated signals falsely far more often than stated; setting it
 * for an upper limit of the mean is the cure of Albers W, Kallenberg WCM (2004) Are estimated control charts in
 * control?, Statistics 38:67–79 (from memory). 80 % is what made the stated average run length hold on average over
 * baselines of twelve clumped readings (measured in README.md); 95 % found much less and gained little.
 *
 * `expected` are the usual catches of the readings it was learnt from. Null without one above zero.
 */
export function limitsOfUsual(
  usual: UsualCatch,
  expected: readonly number[],
  clumping: number,
): UsualLimits | null {
  const total = expected.reduce((sum, mean) => sum + mean, 0)
  if (!isExposure(total) || !(clumping >= 0 && clumping < Infinity)) return null
  const dispersion = 1 + (clumping * expected.reduce((sum, mean) => sum + mean * mean, 0)) / total
  const effective = usual.count / dispersion
  const factor = (count: number) => (count * dispersion) / (usual.count + added)
  const limits = {
    low: effective > 0 ? factor(gammaQuantileLower(effective, 0.025)) : 0,
    high: factor(gammaQuantileUpper(effective + 1, 0.025)),
    guarded: Math.max(1, factor(gammaQuantileUpper(effective + 1, guardTail))),
  }
  return Object.values(limits).every(Number.isFinite) ? limits : null
}
