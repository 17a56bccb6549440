import { kendallScore, type NoRankTestReason, type TimedValue, whyNoPair } from './mann-kendall.js'
import { ascending, medianOfOrdered } from './order-statistics.js'
import { isConfidence } from './poisson-rate.js'
import { normalCriticalValue } from './special-functions.js'

/** The median of the slopes of all pairs, in value per unit of time, with its interval. */
export interface MedianSlope {
  slope: number
  /** Pairs of different times, whose slopes these are. */
  slopes: number
  /** Null when there are too few slopes for limits at this confidence, or nothing but equal values. */
  lower: number | null
  upper: number | null
}

export type TheilSen =
  | { estimable: false; reason: Exclude<NoRankTestReason, 'all-equal'> | 'out-of-range' }
  | (MedianSlope & {
      estimable: true
      /** Conover's: median of values − slope · median of times; the line's value at time 0. */
      intercept: number
    })

/** The slopes of all pairs of different times, from the steepest fall to the steepest rise. */
export function slopesOfPairs(series: readonly TimedValue[]): Float64Array {
  const slopes: number[] = []
  series.forEach((a, i) => {
    for (let j = i + 1; j < series.length; j += 1) {
      const b = series[j]
      // Plus zero: equal values in falling order of time would else give minus zero.
      if (b !== undefined && b.time !== a.time) slopes.push((b.value - a.value) / (b.time - a.time) + 0)
    }
  })
  return ascending(slopes)
}

/**
 * Median of ordered slopes with Sen's interval from the variance of Kendall's S; null without slopes or when
 * one is beyond what a double holds.
 *
 * With N slopes and C = z·√variance the limits are the slopes ranked M1 = (N − C)/2 from below and M2 + 1 =
 * (N + C)/2 + 1. **The fractional ranks are rounded outwards** (M1 down, M2 + 1 up), so that both limits are
 * slopes that were seen and the interval is never too narrow; Gilbert (1987, ch. 16) interpolates between
 * the ranks instead. A limit whose rank is outside 1 to N is null.
 */
export function medianSlope(
  ordered: Float64Array,
  varianceOfS: number,
  confidence: number,
): MedianSlope | null {
  const slope = medianOfOrdered(ordered)
  const ends = [ordered[0], ordered[ordered.length - 1]]
  if (slope === null || !ends.every(Number.isFinite)) return null
  if (varianceOfS === 0) return { slope, slopes: ordered.length, lower: null, upper: null }
  const reach = normalCriticalValue(confidence) * Math.sqrt(varianceOfS)
  const below = Math.floor((ordered.length - reach) / 2)
  const above = Math.ceil((ordered.length + reach) / 2 + 1)
  return {
    slope,
    slopes: ordered.length,
    lower: ordered[below - 1] ?? null,
    upper: ordered[above - 1] ?? null,
  }
}

/**
 * How steeply a series rises or falls, little moved by single large catches: Sen PK (1968) JASA 63:1379–1389,
 * after Theil H (1950); slopes at the real times, so uneven gaps count. The line's height is Conover's
 * (Conover WJ, Practical Nonparametric Statistics).
 *
 * `confidence` is for the whole interval, 0 to 1 (outwards rounding: see `medianSlope`). The number of slopes
 * grows with the square of the readings. With low counts most pairs are equal and the slope is exactly 0 even
 * where `mannKendall` sees a trend: report both.
 *
 * Not estimable, with the reason, with fewer than two readings, all at one time, a figure or confidence that
 * is not a number in range. Equal values are no hindrance: the slope is 0, without limits.
 */
export function theilSen(series: readonly TimedValue[], confidence = 0.95): TheilSen {
  const reason = whyNoPair(series)
  if (reason !== null && reason !== 'all-equal') return { estimable: false, reason }
  if (!isConfidence(confidence)) return { estimable: false, reason: 'out-of-range' }
  const line = medianSlope(slopesOfPairs(series), kendallScore(series).varianceOfS, confidence)
  const middleValue = medianOfOrdered(ascending(series.map((one) => one.value)))
  const middleTime = medianOfOrdered(ascending(series.map((one) => one.time)))
  if (line === null || middleValue === null || middleTime === null) {
    return { estimable: false, reason: 'out-of-range' }
  }
  const intercept = middleValue - line.slope * middleTime
  if (!Number.isFinite(intercept)) return { estimable: false, reason: 'out-of-range' }
  return { estimable: true, ...line, intercept }
}
