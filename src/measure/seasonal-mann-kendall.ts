import { type KendallScore, kendallScore, scoreTest, type TimedValue } from './mann-kendall.js'
import { isConfidence } from './poisson-rate.js'
import { gammaTails } from './special-functions.js'
import { type MedianSlope, medianSlope, slopesOfPairs } from './theil-sen.js'

/** A figure of one season of one year. */
export interface SeasonalValue {
  year: number
  /** Any numbering of the seasons: months 1 to 12, school terms 1 to 3. */
  season: number
  value: number
}

export interface SeasonScore extends KendallScore {
  season: number
}

/** Do the seasons go the same way? Large χ² (small p): they do not, and their sum says little. */
export interface Homogeneity {
  chiSquare: number
  degreesOfFreedom: number
  p: number
}

export type SeasonalMannKendall =
  | { estimable: false; reason: 'not-a-number' | 'too-few-years' | 'all-equal'; slope: MedianSlope | null }
  | {
      estimable: true
      /** By season, in order of its number. */
      seasons: SeasonScore[]
      s: number
      varianceOfS: number
      z: number
      p: number
      /** Null with fewer than two seasons that can be tested. */
      homogeneity: Homogeneity | null
      /** In value per year: median over all pairs within one season. Null beyond what a double holds. */
      slope: MedianSlope | null
    }

function bySeason(values: readonly SeasonalValue[]): [season: number, series: TimedValue[]][] {
  const seasons = new Map<number, TimedValue[]>()
  for (const { year, season, value } of values) {
    const series = seasons.get(season) ?? []
    seasons.set(season, series)
    series.push({ time: year, value })
  }
  return [...seasons].sort(([a], [b]) => a - b)
}

/** van Belle & Hughes (1984): Σz² − m·z̄² with m − 1 degrees of freedom, without continuity correction. */
function homogeneityOf(seasons: readonly SeasonScore[]): Homogeneity | null {
  const scores = seasons
    .filter((season) => season.varianceOfS > 0)
    .map((season) => season.s / Math.sqrt(season.varianceOfS))
  if (scores.length < 2) return null
  const mean = scores.reduce((sum, z) => sum + z, 0) / scores.length
  const chiSquare = scores.reduce((sum, z) => sum + (z - mean) ** 2, 0)
  const degreesOfFreedom = scores.length - 1
  return { chiSquare, degreesOfFreedom, p: gammaTails(degreesOfFreedom / 2, chiSquare / 2).upper }
}

function joined(lists: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(lists.reduce((sum, list) => sum + list.length, 0))
  let at = 0
  for (const list of lists) {
    all.set(list, at)
    at += list.length
  }
  return all
}

/**
 * Does a series rise or fall over the years, each season compared only with itself: Hirsch RM, Slack JR, Smith
 * RA (1982) Water Resour. Res. 18:107–121; slope by their seasonal version of Sen's, limits as in
 * `medianSlope`; homogeneity of the seasons by van Belle G, Hughes JP (1984) Water Resour. Res. 20:127–136.
 *
 * Seasons may miss years and differ in number. Several values of one season and year are not compared with
 * each other. Seasons are taken to be independent: where a bad month is followed by a bad month p is too small
 * (the test of Hirsch & Slack 1984, which allows for that, is not built). At least three years, better five.
 *
 * Not estimable, with the reason, when no season has two years, every season is all of one value (the slope is
 * then 0), or a figure is not a finite number.
 */
export function seasonalMannKendall(
  values: readonly SeasonalValue[],
  confidence = 0.95,
): SeasonalMannKendall {
  const isFigure = ({ year, season, value }: SeasonalValue) =>
    Number.isFinite(year) && Number.isFinite(season) && Number.isFinite(value)
  if (!values.every(isFigure) || !isConfidence(confidence)) {
    return { estimable: false, reason: 'not-a-number', slope: null }
  }
  const groups = bySeason(values)
  const seasons = groups.map(([season, series]) => ({ season, ...kendallScore(series) }))
  const s = seasons.reduce((sum, one) => sum + one.s, 0)
  const varianceOfS = seasons.reduce((sum, one) => sum + one.varianceOfS, 0)
  const slopes = joined(groups.map(([, series]) => slopesOfPairs(series)))
  const slope = medianSlope(slopes, varianceOfS, confidence)
  if (slopes.length === 0) return { estimable: false, reason: 'too-few-years', slope }
  if (varianceOfS === 0) return { estimable: false, reason: 'all-equal', slope }
  return {
    estimable: true,
    seasons,
    s,
    varianceOfS,
    ...scoreTest(s, varianceOfS),
    homogeneity: homogeneityOf(seasons),
    slope,
  }
}
