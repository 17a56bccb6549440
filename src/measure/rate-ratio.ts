import { isConfidence, isCount, isExposure } from './poisson-rate.js'
import { betaQuantileOdds, betaTails, binomialProbability } from './special-functions.js'

/** The first rate divided by the second, with its exact interval and both exact p values. */
export interface RateRatio {
  /** Null when nothing was caught on either side; Infinity when only the second caught nothing. */
  ratio: number | null
  lower: number
  /** Infinity when the second caught nothing. */
  upper: number
  /** Twice the smaller tail: the one that agrees with the interval, and the one to report. */
  pCentral: number
  /** Sum over outcomes no more likely than the one seen: what R's `poisson.test` prints. */
  pMinlik: number
}

/** P(X <= k) and P(X >= k) for X binomial; `otherwise` = 1 − chance. */
function atMost(k: number, trials: number, chance: number, otherwise: number): number {
  return k >= trials ? 1 : betaTails(otherwise, chance, trials - k, k + 1).lower
}

function atLeast(k: number, trials: number, chance: number, otherwise: number): number {
  if (k <= 0) return 1
  return k > trials ? 0 : betaTails(chance, otherwise, k, trials - k + 1).lower
}

/**
 * The smallest whole number in [low, high] for which `holds` is true, given that it stays true; high + 1 if
 * none.
 */
function firstThat(low: number, high: number, holds: (i: number) => boolean): number {
  let from = low
  let to = high + 1
  while (from < to) {
    const middle = Math.floor((from + to) / 2)
    if (holds(middle)) to = middle
    else from = middle + 1
  }
  return from
}

/** Probabilities fall on either side of the mean, so the far tail begins at one place, found by bisection. */
function minimumLikelihoodP(count: number, trials: number, chance: number, otherwise: number): number {
  const mean = trials * chance
  if (count === mean) return 1
  const seen = binomialProbability(count, trials, chance, otherwise) * (1 + 1e-7)
  const noMoreLikely = (i: number) => binomialProbability(i, trials, chance, otherwise) <= seen
  if (count < mean) {
    const far = firstThat(Math.ceil(mean), trials, noMoreLikely)
    return Math.min(1, atMost(count, trials, chance, otherwise) + atLeast(far, trials, chance, otherwise))
  }
  const fromTop = firstThat(trials - Math.floor(mean), trials, (i) => noMoreLikely(trials - i))
  const far = trials - fromTop
  const lowTail = far < 0 ? 0 : atMost(far, trials, chance, otherwise)
  return Math.min(1, lowTail + atLeast(count, trials, chance, otherwise))
}

/**
 * Exact comparison of two Poisson rates, given their total: Przyborowski J, Wilenski H (1940) Homogeneity of
 * results in testing samples from Poisson series, Biometrika 31:313–323; limits by Clopper CJ, Pearson ES
 * (1934) Biometrika 26:404–413.
 *
 * Counts of events and the exposures they were seen in, both exposures in one unit; the ratio has no unit.
 * With no events at all the ratio is null, the interval 0 to Infinity and both p values 1 (a convention:
 * nothing was learnt).
 *
 * Null when an exposure is not above zero, a count is not a whole number from zero up, or the confidence is
 * not between 0 and 1.
 */
export function rateRatio(
  count1: number,
  exposure1: number,
  count2: number,
  exposure2: number,
  confidence = 0.95,
): RateRatio | null {
  if (!isCount(count1) || !isCount(count2) || !isConfidence(confidence)) return null
  if (!isExposure(exposure1) || !isExposure(exposure2)) return null
  const trials = count1 + count2
  if (trials === 0) return { ratio: null, lower: 0, upper: Infinity, pCentral: 1, pMinlik: 1 }
  const chance = exposure1 / (exposure1 + exposure2)
  const otherwise = exposure2 / (exposure1 + exposure2)
  const tail = (1 - confidence) / 2
  const perOdds = exposure2 / exposure1
  const low = atMost(count1, trials, chance, otherwise)
  const high = atLeast(count1, trials, chance, otherwise)
  return {
    ratio: count2 === 0 ? Infinity : count1 / exposure1 / (count2 / exposure2),
    lower: count1 === 0 ? 0 : betaQuantileOdds(count1, count2 + 1, tail) * perOdds,
    upper: count2 === 0 ? Infinity : perOdds / betaQuantileOdds(count2, count1 + 1, tail),
    pCentral: Math.min(1, 2 * Math.min(low, high)),
    pMinlik: minimumLikelihoodP(count1, trials, chance, otherwise),
  }
}
