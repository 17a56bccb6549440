import {
  allCounts,
  type CatchReading,
  type CatchTotal,
  type Clumping,
  canBeDrawn,
  clumpingAbout,
  divisorOf,
  largestDispersion,
  oddsLimits,
  readingsWithEffort,
  shareP,
  totalOf,
} from './effective-counts.js'

/** Why no change can be worked out from the readings before and after an event. */
export type NoChangeReason =
  | 'not-a-count'
  | 'no-readings-before'
  | 'no-readings-after'
  | 'no-effort-before'
  | 'no-effort-after'
  | 'none-caught'
  | 'too-few-readings'
  | 'out-of-range'

/** A ratio with its interval and the p of "no change" that agrees with it. */
export interface ChangeInterval {
  lower: number
  /** Null where nothing bounds it from above. */
  upper: number | null
  /** Two-sided. */
  p: number
}

/** Rate after an event divided by the rate before it. */
export type BeforeAfter =
  | { estimable: false; reason: NoChangeReason }
  | ({
      estimable: true
      /** Null when nothing was caught before: from none to some has no factor. */
      ratio: number | null
      before: CatchTotal
      after: CatchTotal
      /** Variance over mean, as used: never below 1. */
      dispersion: number
      degreesOfFreedom: number
    } & ChangeInterval)

function whyNot(before: readonly CatchReading[], after: readonly CatchReading[]): NoChangeReason | null {
  if (!allCounts(before) || !allCounts(after)) return 'not-a-count'
  if (before.length === 0) return 'no-readings-before'
  if (after.length === 0) return 'no-readings-after'
  if (readingsWithEffort(before).length === 0) return 'no-effort-before'
  if (readingsWithEffort(after).length === 0) return 'no-effort-after'
  const counts = totalOf(readingsWithEffort(before)).count + totalOf(readingsWithEffort(after)).count
  return counts === 0 ? 'none-caught' : null
}

/**
 * The change of a catch rate at one event (a repair, a treatment): rate after over rate before, with the exact
 * conditional interval of Przyborowski J, Wilenski H (1940) Biometrika 31:313–323 and Clopper CJ, Pearson ES
 * (1934) Biometrika 26:404–413, on counts divided by the dispersion, because catches clump; (t/z)² for an
 * estimated dispersion after Korn EL, Graubard BI (1998) Survey Methodology 24:193–201. How often such an
 * interval holds the truth is measured in README.md.
 *
 * Each reading is one count with its effort (trap-nights; one unit for all). Readings of several devices on one
 * day share that day's luck: add them up first. Readings without effort are left out. Clumping is judged by the
 * readings themselves; with few of them, hand in one pooled over comparable events (`clumpingAbout`). A change
 * after an event is not yet an effect of it: treatments follow high catches, which would fall by themselves.
 *
 * The ratio has no unit. Not estimable, with the reason, when a count is not a whole number from zero up, a side
 * has no reading or no effort, nothing was caught at all, no side has two readings and no clumping was given,
 * or the confidence or a result is out of range.
 */
export function beforeAfter(
  before: readonly CatchReading[],
  after: readonly CatchReading[],
  { confidence = 0.95, clumping }: { confidence?: number; clumping?: Clumping } = {},
): BeforeAfter {
  const reason = whyNot(before, after)
  if (reason !== null) return { estimable: false, reason }
  const sides = [readingsWithEffort(before), readingsWithEffort(after)] as const
  const known = clumping ?? clumpingAbout(sides)
  if (known === null) return { estimable: false, reason: 'too-few-readings' }
  if (!canBeDrawn(confidence, known)) return { estimable: false, reason: 'out-of-range' }
  const [totalBefore, totalAfter] = [totalOf(sides[0]), totalOf(sides[1])]
  const dispersion = largestDispersion(sides, known)
  const divisor = divisorOf(dispersion, known.degreesOfFreedom, confidence)
  const perOdds = totalBefore.effort / totalAfter.effort
  const [seenAfter, seenBefore] = [totalAfter.count / divisor, totalBefore.count / divisor]
  const odds = oddsLimits(seenAfter, seenBefore, confidence)
  const result = {
    estimable: true,
    ratio: totalBefore.count === 0 ? null : (totalAfter.count / totalBefore.count) * perOdds,
    lower: odds.lower * perOdds,
    upper: odds.upper === null ? null : odds.upper * perOdds,
    p: shareP(seenAfter, seenBefore, totalAfter.effort / (totalAfter.effort + totalBefore.effort)),
    before: totalBefore,
    after: totalAfter,
    dispersion,
    degreesOfFreedom: known.degreesOfFreedom,
  } as const
  const figures = [result.ratio ?? 0, result.lower, result.upper ?? 0, result.p, dispersion, perOdds]
  return perOdds > 0 && figures.every(Number.isFinite) ? result : { estimable: false, reason: 'out-of-range' }
}
