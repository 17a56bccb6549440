import { isCount, isExposure } from './poisson-rate.js'
import { gammaTails } from './special-functions.js'

/** How clumped counts are. */
export interface Dispersion {
  /** Counts that had effort. */
  readings: number
  mean: number
  /** With n − 1; null with one count. */
  variance: number | null
  /** Variance / mean, regardless of effort: 1 for random, above 1 for clumped counts. Null if none caught. */
  varianceMeanRatio: number | null
  degreesOfFreedom: number
  /** Fisher's Σ(count − expected)²/expected. Null with one count or none caught. */
  chiSquare: number | null
  /** Chance of a χ² that large from counts that do not clump, and of one that small. */
  pOver: number | null
  pUnder: number | null
  /** χ² / degrees of freedom: allows for effort. Equal to the variance/mean ratio when effort is even. */
  dispersionIndex: number | null
  /** n·Σx(x−1)/(X(X−1)): how many times likelier two animals share a trap. Null below two or uneven effort. */
  morisita: number | null
  /**
   * 1/k of the negative binomial, variance = mean + clumping · mean²; 0 when variance is not above the mean.
   * Null with one count, none caught or uneven effort. By likelihood, and by moments (variance − mean)/mean².
   */
  clumpingByLikelihood: number | null
  clumpingByMoments: number | null
}

export type DispersionAnswer =
  | { estimable: false; reason: 'not-a-count' | 'no-effort' | 'unequal-lists' }
  | ({ estimable: true } & Dispersion)

/** Up to this count Σ 1/(k + j) is added up; from there on the digamma series is as exact and quicker. */
const ADDED_UP = 60

/** ψ(x) for x of at least 15: Abramowitz & Stegun (1964), 6.3.18. */
function digamma(x: number): number {
  const s = 1 / (x * x)
  const series = 1 / 12 - (1 / 120 - (1 / 252 - (1 / 240 - s / 132) * s) * s) * s
  return Math.log(x) - 1 / (2 * x) - series * s
}

/** Σ 1/(k + j) for j from 0 up to but not `count`. */
function harmonic(count: number, k: number): number {
  let sum = 0
  const added = Math.min(count, ADDED_UP)
  for (let j = added - 1; j >= 0; j -= 1) sum += 1 / (k + j)
  return count > added ? sum + digamma(k + count) - digamma(k + added) : sum
}

/**
 * The k at which the negative binomial likelihood is greatest (Bliss CI, Fisher RA 1953, Biometrics
 * 9:176–200): where Σ[ψ(x + k) − ψ(k)] = n·ln(1 + mean/k). With variance (divisor n) above the mean there is
 * exactly one such k (Levin B, Reeds J 1977, Ann. Statist. 5:79–87, from memory); it is bracketed and halved.
 */
function bestK(counts: readonly number[], mean: number): number {
  const times = new Map<number, number>()
  for (const count of counts) times.set(count, (times.get(count) ?? 0) + 1)
  /** Falls through zero at the best k; above zero below it. */
  const score = (k: number) => {
    let sum = 0
    for (const [count, often] of times) sum += often * harmonic(count, k)
    return sum - counts.length * Math.log1p(mean / k)
  }
  let [low, high] = [mean, mean]
  while (score(low) < 0 && low > 1e-300) low /= 4
  while (score(high) > 0 && high < 1e300) high *= 4
  for (let i = 0; i < 200 && high / low - 1 > 1e-14; i += 1) {
    const middle = Math.sqrt(low) * Math.sqrt(high)
    if (score(middle) > 0) low = middle
    else high = middle
  }
  return Math.sqrt(low) * Math.sqrt(high)
}

/** Both estimates of 1/k. Whether the variance is above the mean is asked in whole numbers, free of rounding. */
function clumpings(counts: readonly number[], total: number, variance: number) {
  const n = counts.length
  const mean = total / n
  const squares = n * counts.reduce((sum, count) => sum + count * count, 0) - total * total
  return {
    clumpingByLikelihood: squares > total * n ? 1 / bestK(counts, mean) : 0,
    clumpingByMoments: squares > total * (n - 1) ? Math.max(0, (variance - mean) / mean ** 2) : 0,
  }
}

/**
 * Whether counts of one kind (traps of a site, readings of a trap) clump more than chance would have them:
 * index of dispersion and its χ² test (Fisher RA, Thornton HG, Mackenzie WA 1922, Ann. Appl. Biol. 9:325–359),
 * Morisita's index (Morisita M 1959, Mem. Fac. Sci. Kyushu Univ. E 2:215–235, from memory), and the negative
 * binomial's k (Bliss & Fisher 1953), given as clumping = 1/k so that "does not clump" is a finite 0.
 *
 * `exposures`, in any unit that all share, one for each count; the expected counts follow them. Counts without
 * effort are left out. Morisita's index and k presuppose equal effort and are null without it. Figures below 1
 * are given as they come. A χ² from expected counts of much less than 1 is a rough guide only.
 *
 * Not estimable, with the reason, when a count is not a whole number from zero up, no count has effort, or the
 * two lists differ in length.
 */
export function dispersion(counts: readonly number[], exposures?: readonly number[]): DispersionAnswer {
  if (exposures !== undefined && exposures.length !== counts.length) {
    return { estimable: false, reason: 'unequal-lists' }
  }
  const efforts = (exposures ?? counts.map(() => 1)).filter(isExposure)
  const seen = counts.filter((_, i) => exposures === undefined || isExposure(exposures[i] ?? 0))
  if (!seen.every(isCount)) return { estimable: false, reason: 'not-a-count' }
  const n = seen.length
  if (n === 0) return { estimable: false, reason: 'no-effort' }
  const total = seen.reduce((sum, count) => sum + count, 0)
  const mean = total / n
  const degreesOfFreedom = n - 1
  const even = efforts.every((effort) => effort === efforts[0])
  const pairs = seen.reduce((sum, count) => sum + count * (count - 1), 0)
  const untested = { varianceMeanRatio: null, chiSquare: null, pOver: null, pUnder: null }
  const unclumped = { dispersionIndex: null, clumpingByLikelihood: null, clumpingByMoments: null }
  const basis = {
    estimable: true as const,
    readings: n,
    mean,
    degreesOfFreedom,
    morisita: even && n > 1 && total > 1 ? (n * (pairs / total)) / (total - 1) : null,
  }
  if (n === 1) return { ...basis, variance: null, ...untested, ...unclumped }
  const variance = seen.reduce((sum, count) => sum + (count - mean) ** 2, 0) / degreesOfFreedom
  if (total === 0) return { ...basis, variance, ...untested, ...unclumped }
  const effort = efforts.reduce((sum, one) => sum + one, 0)
  const chiSquare = seen.reduce((sum, count, i) => {
    const expected = total * ((efforts[i] ?? 0) / effort)
    return sum + (count - expected) ** 2 / expected
  }, 0)
  if (!Number.isFinite(chiSquare)) return { ...basis, variance, ...untested, ...unclumped }
  const tails = gammaTails(degreesOfFreedom / 2, chiSquare / 2)
  return {
    ...basis,
    variance,
    varianceMeanRatio: variance / mean,
    chiSquare,
    pOver: tails.upper,
    pUnder: tails.lower,
    dispersionIndex: chiSquare / degreesOfFreedom,
    ...(even ? clumpings(seen, total, variance) : { clumpingByLikelihood: null, clumpingByMoments: null }),
  }
}
