import { isConfidence, isExposure } from './poisson-rate.js'

/**
 * The exposure in which at least one animal is caught with the given chance while they come at a steady `rate`
 * (events per unit of exposure): where 1 − P(0) reaches `chance`. Without clumping P(0) = e^(−rate·T), so that
 * T = −ln(1 − chance)/rate, as in `exposureNeededToRuleOut`; with clumping c (variance = μ + c·μ²) it is the zero term of
 * the negative binomial, P(0) = (1 + c·μ)^(−1/c) (Anscombe FJ 1949, Biometrics 5:165–173, from memory), so that
 * T = ((1 − chance)^(−c) − 1)/(c·rate).
 *
 * In the unit of exposure, not rounded. The clumping is taken not to change with the exposure, as when all traps of a room
 * share its luck: that asks for more than traps of independent luck would. Null when the rate is not above zero, the chance
 * is not between 0 and 1, the clumping is below zero, or the answer is beyond what a double holds.
 */
export function exposureNeededToNotice(rate: number, clumping = 0, chance = 0.95): number | null {
  if (!isExposure(rate) || !isConfidence(chance) || !(clumping >= 0)) return null
  const logMissed = Math.log1p(-chance)
  const mean = clumping > 0 ? Math.expm1(-clumping * logMissed) / clumping : -logMissed
  const exposure = mean / rate
  return Number.isFinite(exposure) ? exposure : null
}
