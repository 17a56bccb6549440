import type { CountTrend } from './count-trend.js'
import type { NoFitReason } from './log-linear.js'

export type Verdict = 'rising' | 'falling' | 'steady' | 'unclear'

/** Why the verdict is what it is; what kept a trend from being drawn is passed on as its own reason. */
export type VerdictReason =
  | 'interval-above-no-change'
  | 'interval-below-no-change'
  | 'interval-tight-around-no-change'
  | 'interval-too-wide'
  | 'not-significant-among-all-series'
  | NoFitReason

export interface VerdictSettings {
  /** Fewest days read before any verdict but unclear. */
  fewestReadings: number
  /** Largest adjusted p that counts as a change. */
  significance: number
  /** Steady means a monthly factor surely between 1/steadyWithin and steadyWithin. Above 1. */
  steadyWithin: number
}

export const verdictSettings: Readonly<VerdictSettings> = {
  fewestReadings: 5,
  significance: 0.05,
  steadyWithin: 1.1,
}

/**
 * What may be said of a series, and why.
 *
 * 1. With fewer than five days read, or no trend that can be drawn: unclear.
 * 2. Rising or falling when the p adjusted over all series (Benjamini & Hochberg 1995) is at most 0.05 and
 *    the 95 % interval of the monthly factor lies wholly above or below 1. A sure change is named even if it
 *    is small: 5 % a month is four fifths more in a year.
 * 3. Steady when the interval lies wholly within 1/1.1 to 1.1: the absence of change is shown, not presumed
 *    (Schuirmann DJ 1987, J. Pharmacokin. Biopharm. 15:657–680, with a 95 % instead of a 90 % interval, which
 *    is stricter).
 * 4. Otherwise unclear. A large p alone is never "steady": it may mean only that little was looked at.
 *
 * `adjustedP` is null when the series was not among those tested. `readings` is the number of days read with
 * effort; readings of several traps on one day count once, so the trend's own number of days holds if it is
 * smaller.
 */
export function verdictOf(
  trend: CountTrend,
  adjustedP: number | null,
  readings: number,
  settings: Readonly<VerdictSettings> = verdictSettings,
): { verdict: Verdict; reason: VerdictReason } {
  if (!trend.estimable) return { verdict: 'unclear', reason: trend.reason }
  if (Math.min(readings, trend.degreesOfFreedom + 2) < settings.fewestReadings) {
    return { verdict: 'unclear', reason: 'too-few-readings' }
  }
  const significant = adjustedP !== null && adjustedP <= settings.significance
  if (significant && trend.lower > 1) return { verdict: 'rising', reason: 'interval-above-no-change' }
  if (significant && trend.upper < 1) return { verdict: 'falling', reason: 'interval-below-no-change' }
  if (trend.lower >= 1 / settings.steadyWithin && trend.upper <= settings.steadyWithin) {
    return { verdict: 'steady', reason: 'interval-tight-around-no-change' }
  }
  const aloneSignificant = trend.lower > 1 || trend.upper < 1
  return {
    verdict: 'unclear',
    reason: aloneSignificant ? 'not-significant-among-all-series' : 'interval-too-wide',
  }
}
