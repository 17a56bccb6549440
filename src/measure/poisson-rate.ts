import { gammaQuantileLower, gammaQuantileUpper } from './special-functions.js'

/** Events per unit of exposure, with the limits of its confidence interval in the same unit. */
export interface RateInterval {
  rate: number
  lower: number
  upper: number
}

/** True for a confidence that leaves a tail a double can hold. */
export function isConfidence(confidence: number): boolean {
  return confidence > 0 && confidence < 1
}

/** True for a count of events: a whole number, zero or more. */
export function isCount(count: number): boolean {
  return Number.isSafeInteger(count) && count >= 0
}

/** True for an exposure (effort) that something could have been seen in. */
export function isExposure(exposure: number): boolean {
  return Number.isFinite(exposure) && exposure > 0
}

/**
 * Exact interval of a Poisson rate: Garwood F (1936) Fiducial limits for the Poisson distribution, Biometrika
 * 28:437–442.
 *
 * `count` events over `exposure` (trap-nights, visits, …). The limits are for the whole interval: each tail
 * holds (1 − confidence)/2. With a count of zero the lower limit is 0 and the upper is still the two-sided
 * one; for the plain "none caught" statement use `upperBoundWhenNoneCaught`. Clumped catches are wider than
 * this interval says.
 *
 * Null when the exposure is not above zero, the count is not a whole number from zero up, the confidence is
 * not between 0 and 1, or the limit is beyond what a double holds.
 */
export function exactRate(count: number, exposure: number, confidence = 0.95): RateInterval | null {
  if (!isCount(count) || !isExposure(exposure) || !isConfidence(confidence)) return null
  const tail = (1 - confidence) / 2
  const upper = finite(gammaQuantileUpper(count + 1, tail) / exposure)
  if (upper === null) return null
  return {
    rate: count / exposure,
    lower: count === 0 ? 0 : gammaQuantileLower(count, tail) / exposure,
    upper,
  }
}

/** Null for an answer beyond what a double holds, as an exposure of next to nothing gives. */
function finite(answer: number): number | null {
  return Number.isFinite(answer) ? answer : null
}

/**
 * The largest rate that this count leaves believable: the one-sided Garwood (1936) limit, χ² quantile of
 * 2·count + 2 degrees of freedom / (2 · exposure). With a count of zero the same as `upperBoundWhenNoneCaught`.
 * Events per unit of exposure; null as for `exactRate`.
 */
export function oneSidedUpperBound(count: number, exposure: number, confidence = 0.95): number | null {
  if (!isCount(count) || !isExposure(exposure) || !isConfidence(confidence)) return null
  return finite(gammaQuantileUpper(count + 1, 1 - confidence) / exposure)
}

/**
 * The largest rate that having caught nothing leaves believable: one-sided, −ln(1 − confidence) / exposure.
 * At 95 % this is 2.9957/exposure, of which the "rule of three" is the rounding: Hanley JA, Lippman-Hand A
 * (1983) JAMA 249:1743–1745. Events per unit of exposure; null when the exposure is not above zero or the
 * confidence is not between 0 and 1.
 */
export function upperBoundWhenNoneCaught(exposure: number, confidence = 0.95): number | null {
  if (!isExposure(exposure) || !isConfidence(confidence)) return null
  return finite(-Math.log1p(-confidence) / exposure)
}

/**
 * The exposure in which nothing must be caught before a rate of `rate` (events per unit of exposure) or more
 * is ruled out: the same one-sided bound (Hanley & Lippman-Hand 1983) solved for exposure. In the unit of
 * exposure, not rounded. Null when the rate is not above zero or the confidence is not between 0 and 1.
 */
export function exposureNeededToRuleOut(rate: number, confidence = 0.95): number | null {
  if (!isExposure(rate) || !isConfidence(confidence)) return null
  return finite(-Math.log1p(-confidence) / rate)
}
