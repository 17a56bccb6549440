import { isCount, isExposure } from './poisson-rate.js'

/** What one reading caught, and with how much effort. */
export interface ChartReading {
  count: number
  /** In any unit that all share. */
  exposure: number
}

export interface ChartPoint {
  /** Place in the readings that were given. */
  reading: number
  /** Events per unit of exposure, as are the limits. */
  rate: number
  lower: number
  upper: number
  /** Strictly beyond a limit. */
  out: boolean
}

export interface LaneyChart {
  /** How many times as wide as Poisson's the limits are; below 1 as it comes. */
  sigma: number
  points: ChartPoint[]
}

export type UChart =
  | { estimable: false; reason: 'not-a-count' | 'no-effort' | 'out-of-range' }
  | {
      estimable: true
      /** Σ counts / Σ exposures. */
      centre: number
      points: ChartPoint[]
      /** Limits that allow for more (or less) variation than Poisson's. Null with one reading or none caught. */
      laney: LaneyChart | null
    }

/** Mean range of two normal values over their standard deviation, 2/√π, as the tables print it. */
const D2 = 1.128
/** On the limit is not beyond it; rounding may not decide. */
const ROUNDING = 1e-12

/**
 * Control chart of a rate with uneven effort (u chart): limits centre ± 3·√(centre/exposure), the lower not
 * below 0 (Montgomery DC, Introduction to Statistical Quality Control; NIST/SEMATECH e-Handbook 6.3.3.1); and
 * Laney DB (2002) Quality Engineering 14:531–537 (u′ chart), whose limits are wider by the readings' own
 * variation from one to the next: mean moving range of z / 1.128.
 *
 * Readings in order of time; those without effort are left out (and are no neighbours). Catches clump, so the
 * plain limits call out too often: judge by Laney's. Three standard deviations fit a low mean badly: below
 * about three events a reading the lower limit is 0 and the upper is passed more often than three times in a
 * thousand.
 *
 * Not estimable, with the reason, when a count is not a whole number from zero up, no reading has effort, or a
 * rate is beyond what a double holds.
 */
export function uChart(readings: readonly ChartReading[]): UChart {
  const seen = readings
    .map(({ count, exposure }, reading) => ({ count, exposure, reading }))
    .filter(({ exposure }) => isExposure(exposure))
  if (!seen.every(({ count }) => isCount(count))) return { estimable: false, reason: 'not-a-count' }
  const effort = seen.reduce((sum, one) => sum + one.exposure, 0)
  const centre = seen.reduce((sum, one) => sum + one.count, 0) / effort
  if (seen.length === 0 || !Number.isFinite(centre) || !isExposure(effort)) {
    return { estimable: false, reason: 'no-effort' }
  }
  const spreadOf = (exposure: number) => Math.sqrt(centre / exposure)
  const pointsWithin = (sigmas: number) =>
    seen.map(({ count, exposure, reading }): ChartPoint => {
      const rate = count / exposure
      const reach = sigmas * spreadOf(exposure)
      const [lower, upper] = [Math.max(0, centre - reach), centre + reach]
      const out = rate > upper * (1 + ROUNDING) || rate < lower * (1 - ROUNDING)
      return { reading, rate, lower, upper, out }
    })
  const points = pointsWithin(3)
  if (!points.every(({ rate, upper }) => Number.isFinite(rate) && Number.isFinite(upper))) {
    return { estimable: false, reason: 'out-of-range' }
  }
  if (seen.length === 1 || centre === 0) return { estimable: true, centre, points, laney: null }
  const z = seen.map(({ count, exposure }) => (count / exposure - centre) / spreadOf(exposure))
  const ranges = z.slice(1).map((one, i) => Math.abs(one - (z[i] ?? one)))
  const sigma = ranges.reduce((sum, range) => sum + range, 0) / ranges.length / D2
  return { estimable: true, centre, points, laney: { sigma, points: pointsWithin(3 * sigma) } }
}
