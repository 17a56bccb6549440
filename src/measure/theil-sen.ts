import {
  columnsOf,
  type NoRankTestReason,
  type TimedValue,
  varianceOfKendallS,
  whyNoPair,
} from './mann-kendall.js'
import { medianOf, valueAt } from './order-statistics.js'
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

/** The slopes of all pairs of different times, in no particular order. */
export function slopesOfPairs(series: readonly TimedValue[]): Float64Array {
  const { times, values } = columnsOf(series)
  const slopes = new Float64Array((series.length * (series.length - 1)) / 2)
  let found = 0
  for (let i = 0; i < times.length; i += 1) {
    const [time, value] = [times[i] ?? 0, values[i] ?? 0]
    for (let j = i + 1; j < times.length; j += 1) {
      const apart = (times[j] ?? 0) - time
      if (apart === 0) continue
      // Plus zero: equal values in falling order of time would else give minus zero.
      slopes[found] = ((values[j] ?? 0) - value) / apart + 0
      found += 1
    }
  }
  return slopes.subarray(0, found)
}

function allFinite(numbers: Float64Array): boolean {
  for (let at = 0; at < numbers.length; at += 1) if (!Number.isFinite(numbers[at])) return false
  return true
}

/**
 * Median of slopes, which are reordered, with Sen's interval from the variance of Kendall's S; null without slopes or when
 * one is beyond what a double holds.
 *
 * With N slopes and C = z·√variance the limits are the slopes ranked M1 = (N − C)/2 from below and M2 + 1 =
 * (N + C)/2 + 1. **The fractional ranks are rounded outwards** (M1 down, M2 + 1 up), so that both limits are
 * slopes that were seen and the interval is never too narrow; Gilbert (1987, ch. 16) interpolates between
 * the ranks instead. A limit whose rank is outside 1 to N is null.
 */
export function medianSlope(
  slopes: Float64Array,
  varianceOfS: number,
  confidence: number,
): MedianSlope | null {
  if (!allFinite(slopes)) return null
  const slope = medianOf(slopes)
  if (slope === null) return null
  const known = { slope, slopes: slopes.length }
  if (varianceOfS === 0) return { ...known, lower: null, upper: null }
  const reach = normalCriticalValue(confidence) * Math.sqrt(varianceOfS)
  const below = Math.floor((slopes.length - reach) / 2)
  const above = Math.ceil((slopes.length + reach) / 2 + 1)
  // The median has parted them: whatever stands before its place is no larger, whatever stands after no smaller.
  const middle = Math.floor(slopes.length / 2)
  return {
    ...known,
    lower: valueAt(slopes.subarray(0, middle + 1), below - 1),
    upper: valueAt(slopes.subarray(middle), above - 1 - middle),
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
  const line = medianSlope(slopesOfPairs(series), varianceOfKendallS(series), confidence)
  const { times, values } = columnsOf(series)
  const [middleValue, middleTime] = [medianOf(values), medianOf(times)]
  if (line === null || middleValue === null || middleTime === null) {
    return { estimable: false, reason: 'out-of-range' }
  }
  const intercept = middleValue - line.slope * middleTime
  if (!Number.isFinite(intercept)) return { estimable: false, reason: 'out-of-range' }
  return { estimable: true, ...line, intercept }
}
