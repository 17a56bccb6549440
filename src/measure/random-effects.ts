import { isConfidence } from './poisson-rate.js'
import { studentCriticalValue } from './special-functions.js'

/** One estimate (a log ratio) and the square of its standard error. */
export interface Estimate {
  value: number
  variance: number
}

/** Estimates pooled when the truth itself differs from one to the next. */
export interface RandomEffects {
  mean: number
  /** DerSimonian and Laird's: with the between-variance, without Hartung and Knapp's scale. */
  plainError: number
  /** Hartung, Knapp, Sidik and Jonkman's. */
  standardError: number
  lower: number
  upper: number
  /** Variance of the truth between estimates, never below 0. */
  tauSquared: number
  /** Cochran's Q. */
  q: number
  /** Share of the spread that is not chance, 0 to 1: (Q − (n − 1))/Q, never below 0. */
  iSquared: number
  estimates: number
}

/**
 * Random-effects mean: between-variance by DerSimonian R, Laird N (1986) Control. Clin. Trials 7:177–188; interval
 * by t with n − 1 degrees of freedom and the standard error of Hartung J, Knapp G (2001) Statist. Med. 20:3875–3889
 * and Sidik K, Jonkman JN (2002) Statist. Med. 21:3153–3159. With `neverNarrower` its scale is not let below 1
 * (Röver C, Knapp G, Friede T 2015, BMC Med. Res. Methodol. 15:99).
 *
 * In the unit of the values. Null with fewer than two estimates, a variance that is not above zero, or a value,
 * confidence or result out of range.
 */
export function randomEffects(
  estimates: readonly Estimate[],
  { confidence = 0.95, neverNarrower = false }: { confidence?: number; neverNarrower?: boolean } = {},
): RandomEffects | null {
  const n = estimates.length
  if (n < 2 || !isConfidence(confidence)) return null
  if (!estimates.every(({ value, variance }) => Number.isFinite(value) && variance > 0)) return null
  const fixed = weighted(estimates, 0)
  const squares = estimates.reduce((sum, { variance }) => sum + variance ** -2, 0)
  const excess = fixed.spread - (n - 1)
  const tauSquared = Math.max(0, excess / (fixed.weight - squares / fixed.weight))
  const { mean, weight, spread } = weighted(estimates, tauSquared)
  const scale = spread / (n - 1)
  const standardError = Math.sqrt((neverNarrower ? Math.max(1, scale) : scale) / weight)
  const reach = studentCriticalValue(confidence, n - 1) * standardError
  const result = {
    mean,
    plainError: Math.sqrt(1 / weight),
    standardError,
    lower: mean - reach,
    upper: mean + reach,
    tauSquared,
    q: fixed.spread,
    iSquared: fixed.spread > 0 ? Math.max(0, excess / fixed.spread) : 0,
    estimates: n,
  }
  return Object.values(result).every(Number.isFinite) ? result : null
}

/** Mean weighted by 1 / (variance + between), the weights' sum, and the weighted squares about it. */
function weighted(estimates: readonly Estimate[], between: number) {
  let weight = 0
  let sum = 0
  for (const { value, variance } of estimates) {
    weight += 1 / (variance + between)
    sum += value / (variance + between)
  }
  const mean = sum / weight
  let spread = 0
  for (const { value, variance } of estimates) spread += (value - mean) ** 2 / (variance + between)
  return { mean, weight, spread }
}
