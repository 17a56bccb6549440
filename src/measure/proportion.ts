import { isConfidence, isCount } from './poisson-rate.js'
import { betaQuantileOdds, normalCriticalValue } from './special-functions.js'

/** A share of trials, 0 to 1, with the limits of its interval. */
export interface ProportionInterval {
  /** Null without trials. */
  proportion: number | null
  lower: number
  upper: number
}

function isShare(successes: number, trials: number, confidence: number): boolean {
  return isCount(successes) && isCount(trials) && successes <= trials && isConfidence(confidence)
}

/**
 * Interval of a share by Wilson EB (1927) JASA 22:209–212, without continuity correction: about right on
 * average, also near 0 and 1 (Newcombe RG 1998, Statist. Med. 17:857–872). The one to report.
 *
 * Null without trials, when successes exceed trials, a count is not a whole number from zero up, or the
 * confidence is not between 0 and 1.
 */
export function wilson(successes: number, trials: number, confidence = 0.95): ProportionInterval | null {
  if (!isShare(successes, trials, confidence) || trials === 0) return null
  return scoreInterval(successes, trials, confidence)
}

/** The same for effective counts, which need not be whole. 0 ≤ successes ≤ trials, and trials above 0. */
export function scoreInterval(successes: number, trials: number, confidence: number): ProportionInterval {
  const z2 = normalCriticalValue(confidence) ** 2
  const failures = trials - successes
  const half = Math.sqrt(z2 * (successes * (failures / trials) + z2 / 4))
  // The nearer limit by way of the product of both, which loses no digits: lower · upper = x²/(n(n + z²)).
  const upperOf = (count: number) => (count + z2 / 2 + half) / (trials + z2)
  const lowerOf = (count: number) => (count * (count / trials)) / (trials + z2) / upperOf(count)
  return {
    proportion: successes / trials,
    lower: lowerOf(successes),
    upper: failures === 0 ? 1 : 1 - lowerOf(failures),
  }
}

/**
 * Interval of a share by Clopper CJ, Pearson ES (1934) Biometrika 26:404–413: never too narrow, mostly too
 * wide. Beta quantiles; R: `binom.test`.
 *
 * Without trials nothing is known: the share is null and the limits 0 and 1. Null when successes exceed
 * trials, a count is not a whole number from zero up, or the confidence is not between 0 and 1.
 */
export function clopperPearson(
  successes: number,
  trials: number,
  confidence = 0.95,
): ProportionInterval | null {
  if (!isShare(successes, trials, confidence)) return null
  if (trials === 0) return { proportion: null, lower: 0, upper: 1 }
  const tail = (1 - confidence) / 2
  const failures = trials - successes
  const lowerOdds = successes === 0 ? 0 : betaQuantileOdds(successes, failures + 1, tail)
  const upperOdds = failures === 0 ? 0 : betaQuantileOdds(failures, successes + 1, tail)
  return {
    proportion: successes / trials,
    lower: lowerOdds / (1 + lowerOdds),
    upper: 1 / (1 + upperOdds),
  }
}
