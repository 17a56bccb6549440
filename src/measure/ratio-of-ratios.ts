import type { ChangeInterval } from './before-after.js'
import {
  allCounts,
  type CatchReading,
  type Clumping,
  canBeDrawn,
  clumpingAbout,
  divisorOf,
  largestDispersion,
  readingsWithEffort,
  totalOf,
} from './effective-counts.js'
import { exactOddsRatio } from './odds-ratio.js'

/** One of the four sets of readings that are compared. */
export type ComparedSet = 'treated before' | 'treated after' | 'untreated before' | 'untreated after'

export type ComparedReadings = Readonly<Record<ComparedSet, readonly CatchReading[]>>

/** Why the two changes cannot be compared. `none-caught`: neither before nor after, in the areas named. */
export type NoComparison =
  | { reason: 'no-readings' | 'no-effort'; where: ComparedSet }
  | { reason: 'none-caught'; where: 'treated' | 'untreated' }
  | { reason: 'not-a-count' | 'too-few-readings' | 'out-of-range' }

export type RatioOfRatios =
  | ({ estimable: false } & NoComparison)
  | ({
      estimable: true
      /** Null when nothing was caught in the treated areas before, or in the untreated ones after. */
      ratio: number | null
      /** Variance over mean, as used: never below 1. */
      dispersion: number
      degreesOfFreedom: number
    } & ChangeInterval)

const comparedSets: readonly ComparedSet[] = [
  'treated before',
  'treated after',
  'untreated before',
  'untreated after',
]

function whyNot(readings: ComparedReadings): NoComparison | null {
  if (!comparedSets.every((set) => allCounts(readings[set]))) return { reason: 'not-a-count' }
  for (const where of comparedSets) {
    if (readings[where].length === 0) return { reason: 'no-readings', where }
    if (readingsWithEffort(readings[where]).length === 0) return { reason: 'no-effort', where }
  }
  for (const where of ['treated', 'untreated'] as const) {
    const caught = (['before', 'after'] as const).some(
      (when) => totalOf(readingsWithEffort(readings[`${where} ${when}`])).count > 0,
    )
    if (!caught) return { reason: 'none-caught', where }
  }
  return null
}

/**
 * The change in treated areas divided by the change in comparable untreated ones over the same windows: below 1
 * when the catch fell further (or rose less) where something was done. What moves both alike (season, weather, a
 * high catch that would have fallen by itself in both) cancels; that the areas are comparable has to be known
 * from elsewhere.
 *
 * The four catch rates form an odds ratio with efforts as offsets; its limits are the exact conditional ones
 * (`exactOddsRatio`: Fisher 1935, Cornfield 1956) on counts divided by the dispersion, as in `beforeAfter`.
 * Effective counts are not rounded to whole ones, which would make the limits jump. Clumping is judged about the
 * four means, or handed in. How often the interval holds the truth is measured in README.md.
 *
 * No unit. Not estimable, with the reason and the place, when a set has no reading or no effort, nothing was
 * caught in the treated or in the untreated areas, a count is not a whole number from zero up, no set has two
 * readings and no clumping was given, or the confidence or a result is out of range.
 */
export function ratioOfRatios(
  readings: ComparedReadings,
  { confidence = 0.95, clumping }: { confidence?: number; clumping?: Clumping } = {},
): RatioOfRatios {
  const why = whyNot(readings)
  if (why !== null) return { estimable: false, ...why }
  const groups = comparedSets.map((set) => readingsWithEffort(readings[set]))
  const known = clumping ?? clumpingAbout(groups)
  if (known === null) return { estimable: false, reason: 'too-few-readings' }
  if (!canBeDrawn(confidence, known)) return { estimable: false, reason: 'out-of-range' }
  const dispersion = largestDispersion(groups, known)
  const divisor = divisorOf(dispersion, known.degreesOfFreedom, confidence)
  const [b, a, d, c] = groups.map((group) => totalOf(group)) as [Total, Total, Total, Total]
  const perOdds = (b.effort / a.effort) * (c.effort / d.effort)
  const counts = { a: a.count / divisor, b: b.count / divisor, c: c.count / divisor, d: d.count / divisor }
  if (!Number.isFinite(perOdds) || perOdds <= 0) return { estimable: false, reason: 'out-of-range' }
  const odds = exactOddsRatio(counts, confidence, 1 / perOdds)
  const result = {
    estimable: true,
    ratio: b.count === 0 || c.count === 0 ? null : (a.count / b.count) * (d.count / c.count) * perOdds,
    lower: odds.lower * perOdds,
    upper: odds.upper === null ? null : odds.upper * perOdds,
    p: odds.p,
    dispersion,
    degreesOfFreedom: known.degreesOfFreedom,
  } as const
  const figures = [result.ratio ?? 0, result.lower, result.upper ?? 0, result.p, dispersion]
  return figures.every(Number.isFinite) ? result : { estimable: false, reason: 'out-of-range' }
}

type Total = ReturnType<typeof totalOf>
