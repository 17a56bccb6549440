import { fitWithOwnClumping } from './clumped-fit.js'
import {
  type CountObservation,
  DAYS_PER_MONTH,
  fitLogLinear,
  type NoFitReason,
  studentSlopeTest,
  withEffort,
} from './log-linear.js'

/** The trend as reports give it. The factor is per 30 days: 1.25 is a quarter more each month. */
export type CountTrend =
  | { estimable: false; reason: NoFitReason }
  | {
      estimable: true
      perMonth: number
      lower: number
      upper: number
      /** Two-sided, not adjusted for other series. */
      p: number
      /** Variance over mean, as used: never below 1. */
      dispersion: number
      /** How catches clump: variance = μ + clumping · μ². */
      clumping: number
      /** How far one reading's surplus carries over to the next, from 0 to 0.9. */
      persistence: number
      /** Days read, less two. */
      degreesOfFreedom: number
    }

/** Below this a sum of squared residuals is rounding. */
const EXACT_FIT = 1e-18

/**
 * One observation a day: catches and effort of the same day added up, in order of day. Traps read on one day
 * share that day's weather, cleaning and deliveries, so they are one piece of evidence about time, not many
 * (Hurlbert SH 1984, Pseudoreplication, Ecol. Monogr. 54:187–211). Observations without effort are left out.
 */
export function addedUpByDay(observations: readonly CountObservation[]): CountObservation[] {
  const days = new Map<number, CountObservation>()
  for (const { day, count, exposure } of withEffort(observations)) {
    const sum = days.get(day)
    if (sum === undefined) days.set(day, { day, count, exposure })
    else days.set(day, { day, count: sum.count + count, exposure: sum.exposure + exposure })
  }
  return [...days.values()].sort((a, b) => a.day - b.day)
}

/**
 * Autocorrelation of neighbouring Pearson residuals, in order of day, with 1/n added for the bias it has when
 * there is none (Marriott FHC, Pope JA 1954, Biometrika 41:390–402), kept between 0 and 0.9. Gaps between
 * days are not weighed.
 */
function persistenceOf(days: readonly CountObservation[], intercept: number, slope: number): number {
  let products = 0
  let squares = 0
  let before = 0
  for (const { day, count, exposure } of days) {
    const fitted = exposure * Math.exp(intercept + (slope * day) / DAYS_PER_MONTH)
    const residual = fitted > 0 ? (count - fitted) / Math.sqrt(fitted) : 0
    products += residual * before
    squares += residual * residual
    before = residual
  }
  if (squares <= EXACT_FIT) return 0
  return Math.min(0.9, Math.max(0, products / squares + 1 / days.length))
}

/**
 * The trend of a series of catches as reports give it, from the sums of each day (`addedUpByDay`), with 95 %
 * limits and two-sided p by t with n − 2 degrees of freedom, n the number of days read.
 *
 * The factor is that of the log-linear Poisson fit (`fitLogLinear`). How far it can be trusted is asked
 * twice, because catches clump and nobody knows by which law: with a variance in proportion to the mean
 * (quasi-likelihood, Wedderburn 1974; dispersion raised to 1 where it comes out below, because catches do not
 * spread more evenly than chance), and with a variance that grows with its square (Breslow 1984,
 * `fitWithOwnClumping`). The limits cover both answers and p is the larger. Either alone calls too many flat
 * series rising or falling, the first when effort is uneven, the second when a few days hold nearly all of
 * the catch. Both standard errors are then widened by √((1 + r)/(1 − r)), r being `persistence`: good and bad
 * spells last, so neighbouring readings are less than two pieces of evidence (Bayley GV, Hammersley JM 1946,
 * J. R. Statist. Soc. Suppl. 8:184–197). What each of these is worth is measured in README.md.
 *
 * `perMonth`, `lower` and `upper` are factors per 30 days. Observations without effort are left out. Not
 * estimable where `fitLogLinear` is not, with fewer than three days ('too-few-readings'), or when a limit is
 * beyond what a number can hold ('out-of-range').
 */
export function trendOf(observations: readonly CountObservation[]): CountTrend {
  const days = addedUpByDay(observations)
  const fit = fitLogLinear(days)
  if (!fit.estimable) return fit
  const clumped = fitWithOwnClumping(days)
  if (fit.dispersion === null || clumped === null) return { estimable: false, reason: 'too-few-readings' }
  const { degreesOfFreedom } = fit
  const dispersion = Math.max(1, fit.dispersion)
  const persistence = persistenceOf(days, fit.intercept, fit.slope)
  const widened = Math.sqrt((1 + persistence) / (1 - persistence))
  const quasiError = widened * fit.poisson.standardError * Math.sqrt(dispersion)
  const quasi = studentSlopeTest(fit.slope, quasiError, degreesOfFreedom)
  const other = studentSlopeTest(clumped.slope, widened * clumped.standardError, degreesOfFreedom)
  const lower = Math.exp(Math.min(quasi.lower, other.lower))
  const upper = Math.exp(Math.max(quasi.upper, other.upper))
  const p = Math.max(quasi.p, other.p)
  if (!Number.isFinite(upper) || !Number.isFinite(lower) || !Number.isFinite(p)) {
    return { estimable: false, reason: 'out-of-range' }
  }
  return {
    estimable: true,
    perMonth: Math.exp(fit.slope),
    lower,
    upper,
    p,
    dispersion,
    clumping: clumped.clumping,
    persistence,
    degreesOfFreedom,
  }
}
