import {
  normalCriticalValue,
  normalTwoSidedP,
  studentCriticalValue,
  studentTwoSidedP,
} from './special-functions.js'

/** What one reading (or all readings of a day together) caught, and the effort it was caught with. */
export interface CountObservation {
  /** Days since 1970-01-01, or since any other day that all observations share. */
  day: number
  count: number
  /**
   * Effort, in trap-nights or any other unit that all observations share. An observation without any is left
   * out.
   */
  exposure: number
}

/**
 * Why no line can be fitted. "One end" is the first or the last day: the slope then runs off without limit.
 */
export type NoFitReason =
  | 'too-few-readings'
  | 'not-a-count'
  | 'none-caught'
  | 'one-day'
  | 'caught-at-one-end'
  | 'out-of-range'

/**
 * A slope of the log rate per 30 days with its standard error, limits, test statistic (z or t) and two-sided
 * p.
 */
export interface SlopeTest {
  standardError: number
  lower: number
  upper: number
  statistic: number
  p: number
}

/** Log-linear Poisson fit: ln μ = intercept + slope · (day / 30) + ln(exposure). */
export type LogLinearFit =
  | { estimable: false; reason: NoFitReason }
  | {
      estimable: true
      intercept: number
      slope: number
      /** Wald, as if catches did not clump. */
      poisson: SlopeTest
      pearsonChiSquare: number
      degreesOfFreedom: number
      /** Pearson's χ² / degrees of freedom, as it comes, also below 1. Null without degrees of freedom. */
      dispersion: number | null
      /** Quasi-likelihood with that dispersion. Null without degrees of freedom or when the fit is exact. */
      quasi: SlopeTest | null
    }

/** A month of 30 days: the unit of every slope here. */
export const DAYS_PER_MONTH = 30

/** The observations that say anything: those with effort. */
export function withEffort(observations: readonly CountObservation[]): CountObservation[] {
  return observations.filter((o) => Number.isFinite(o.exposure) && o.exposure > 0)
}

/** Why these observations (all with effort) have no finite best slope, or null when they have one. */
function whyNotEstimable(observations: readonly CountObservation[]): NoFitReason | null {
  if (observations.length < 2) return 'too-few-readings'
  let first = Infinity
  let last = -Infinity
  let total = 0
  for (const { day, count } of observations) {
    if (!Number.isFinite(count) || count < 0 || !Number.isFinite(day)) return 'not-a-count'
    first = Math.min(first, day)
    last = Math.max(last, day)
    total += count
  }
  if (total === 0) return 'none-caught'
  if (first === last) return 'one-day'
  const caughtBefore = observations.some((o) => o.count > 0 && o.day < last)
  const caughtAfter = observations.some((o) => o.count > 0 && o.day > first)
  return caughtBefore && caughtAfter ? null : 'caught-at-one-end'
}

/**
 * Effort times e^(slope · months), scaled so that the largest power is 1; its sum, mean time and variance of
 * time.
 */
function tilted(months: readonly number[], exposures: readonly number[], slope: number) {
  let highest = -Infinity
  for (const t of months) highest = Math.max(highest, slope * t)
  let sum = 0
  let first = 0
  months.forEach((t, i) => {
    const weight = (exposures[i] ?? 0) * Math.exp(slope * t - highest)
    sum += weight
    first += weight * t
  })
  const mean = first / sum
  let second = 0
  months.forEach((t, i) => {
    const away = t - mean
    second += (exposures[i] ?? 0) * Math.exp(slope * t - highest) * away * away
  })
  return { mean, variance: second / sum, logSum: Math.log(sum) + highest }
}

/**
 * At the maximum the intercept follows from the slope (fitted and seen totals agree), which leaves one
 * equation: the mean time of effort weighted by e^(slope · t) must equal the mean time of the catches. The
 * left side rises with the slope, so Newton's method with a bracket always finds it.
 */
function bestSlope(months: readonly number[], exposures: readonly number[], meanOfCatches: number): number {
  const span = months.reduce((most, t) => Math.max(most, Math.abs(t)), 0)
  let low = -Infinity
  let high = Infinity
  let slope = 0
  let reach = 1
  for (let i = 0; i < 200; i += 1) {
    const { mean, variance } = tilted(months, exposures, slope)
    const excess = mean - meanOfCatches
    if (excess === 0) return slope
    if (excess > 0) high = slope
    else low = slope
    let next = slope - excess / variance
    if (Number.isFinite(low) && Number.isFinite(high)) {
      if (!(next > low && next < high)) next = (low + high) / 2
    } else if (!(Math.abs(next - slope) < reach)) {
      next = slope - Math.sign(excess) * reach
      reach *= 2
    }
    // Newton's error is about the square of its last step.
    if (Math.abs(next - slope) * span <= 1e-9) return next
    slope = next
  }
  return slope
}

function slopeTest(slope: number, standardError: number, critical: number, p: number): SlopeTest {
  return {
    standardError,
    lower: slope - critical * standardError,
    upper: slope + critical * standardError,
    statistic: slope / standardError,
    p,
  }
}

/** Student's t test and 95 % limits of a slope with the given standard error. */
export function studentSlopeTest(slope: number, standardError: number, degreesOfFreedom: number): SlopeTest {
  const critical = studentCriticalValue(0.95, degreesOfFreedom)
  return slopeTest(slope, standardError, critical, studentTwoSidedP(slope / standardError, degreesOfFreedom))
}

/**
 * Log-linear Poisson regression of counts on time with effort as offset, by maximum likelihood (McCullagh P,
 * Nelder JA 1989, Generalized Linear Models, ch. 6), and quasi-likelihood limits that allow for clumping
 * (Wedderburn RWM 1974, Biometrika 61:439–447; t with n − 2 degrees of freedom). Limits are 95 %.
 *
 * Days may be in any order and repeat. Not estimable, with the reason, when there are fewer than two
 * observations with effort, a count is negative or not a number, nothing was caught, all lie on one day, or
 * everything was caught on the first day or on the last.
 */
export function fitLogLinear(observations: readonly CountObservation[]): LogLinearFit {
  const usable = withEffort(observations)
  const reason = whyNotEstimable(usable)
  if (reason !== null) return { estimable: false, reason }
  const middle = usable.reduce((sum, o) => sum + o.day, 0) / usable.length
  const months = usable.map((o) => (o.day - middle) / DAYS_PER_MONTH)
  const exposures = usable.map((o) => o.exposure)
  const total = usable.reduce((sum, o) => sum + o.count, 0)
  const meanOfCatches = usable.reduce((sum, o, i) => sum + o.count * (months[i] ?? 0), 0) / total
  const slope = bestSlope(months, exposures, meanOfCatches)
  const { variance, logSum } = tilted(months, exposures, slope)
  const level = Math.log(total) - logSum
  const standardError = 1 / Math.sqrt(total * variance)
  let pearsonChiSquare = 0
  usable.forEach((o, i) => {
    const expected = o.exposure * Math.exp(level + slope * (months[i] ?? 0))
    if (expected > 0) pearsonChiSquare += (o.count - expected) ** 2 / expected
  })
  const degreesOfFreedom = usable.length - 2
  const dispersion = degreesOfFreedom === 0 ? null : pearsonChiSquare / degreesOfFreedom
  if (![slope, standardError, pearsonChiSquare].every(Number.isFinite)) {
    return { estimable: false, reason: 'out-of-range' }
  }
  // Rounding leaves about 1e-30 per event where an exact fit has zero.
  const exact = pearsonChiSquare <= 1e-20 * total
  let quasi: SlopeTest | null = null
  if (dispersion !== null && !exact) {
    quasi = studentSlopeTest(slope, standardError * Math.sqrt(dispersion), degreesOfFreedom)
  }
  return {
    estimable: true,
    intercept: level - (slope * middle) / DAYS_PER_MONTH,
    slope,
    poisson: slopeTest(
      slope,
      standardError,
      normalCriticalValue(0.95),
      normalTwoSidedP(slope / standardError),
    ),
    pearsonChiSquare,
    degreesOfFreedom,
    dispersion,
    quasi,
  }
}
