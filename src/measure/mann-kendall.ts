import { timesEach } from './order-statistics.js'
import { normalTwoSidedP } from './special-functions.js'

/** A figure (a count, a rate, an index) and when it was taken. */
export interface TimedValue {
  /** In any unit that all share: days, years. Need not be in order, need not be evenly spaced. */
  time: number
  value: number
}

/** Why there is nothing to test. */
export type NoRankTestReason = 'not-a-number' | 'too-few-readings' | 'one-time' | 'all-equal'

/** Kendall's S of one series with its variance if there were no trend, ties allowed for. */
export interface KendallScore {
  readings: number
  /** Pairs that rise in time less pairs that fall. */
  s: number
  /** 0 when there is nothing to test. */
  varianceOfS: number
}

export type MannKendall =
  | { estimable: false; reason: NoRankTestReason }
  | (KendallScore & {
      estimable: true
      /** (S ∓ 1)/√variance; 0 when S is 0. */
      z: number
      /** Two-sided, by the normal approximation: fair from about ten readings. */
      p: number
      /** Kendall's τ-b, −1 to 1. */
      tauB: number
      /** Two-sided and exact. Null with ties in values or times, or with more than fifty readings. */
      pExact: number | null
    })

const MOST_READINGS_FOR_EXACT_P = 50

function pairSum(times: readonly number[], term: (tied: number) => number): number {
  return times.reduce((sum, tied) => sum + term(tied), 0)
}

/** Variance of S without trend (Kendall 1975): `values` and `times` say how often each of them occurs. */
function varianceWithTies(n: number, values: readonly number[], times: readonly number[]): number {
  // All alike on one side: no pair can be ordered, and the formula below is zero but for its rounding.
  if (n < 2 || values.length === 1 || times.length === 1) return 0
  const whole = (m: number) => m * (m - 1) * (2 * m + 5)
  const pairs = (m: number) => m * (m - 1)
  const triples = (m: number) => m * (m - 1) * (m - 2)
  const first = (whole(n) - pairSum(values, whole) - pairSum(times, whole)) / 18
  const second = n > 2 ? (pairSum(values, triples) * pairSum(times, triples)) / (9 * triples(n)) : 0
  const third = (pairSum(values, pairs) * pairSum(times, pairs)) / (2 * pairs(n))
  return first + second + third
}

/** As Math.sign, but never minus zero, and quick: a long series has thousands of pairs. */
function signOf(number: number): -1 | 0 | 1 {
  return number > 0 ? 1 : number < 0 ? -1 : 0
}

/** Times and values apart: thousands of pairs are made of them, and `Float64Array.from` is slow. */
export function columnsOf(series: readonly TimedValue[]): { times: Float64Array; values: Float64Array } {
  const times = new Float64Array(series.length)
  const values = new Float64Array(series.length)
  for (const [at, one] of series.entries()) {
    times[at] = one.time
    values[at] = one.value
  }
  return { times, values }
}

/** S and its variance: Mann (1945), Kendall (1975). All times and values must be finite. */
export function kendallScore(series: readonly TimedValue[]): KendallScore {
  const { times, values } = columnsOf(series)
  const isInOrder = times.every((time, at) => at === 0 || time > (times[at - 1] ?? time))
  let s = 0
  for (let i = 0; i < times.length; i += 1) {
    const [time, value] = [times[i] ?? 0, values[i] ?? 0]
    if (isInOrder) {
      for (let j = i + 1; j < times.length; j += 1) s += signOf((values[j] ?? 0) - value)
      continue
    }
    for (let j = i + 1; j < times.length; j += 1) {
      const later = signOf((times[j] ?? 0) - time)
      s += later * signOf((values[j] ?? 0) - value)
    }
  }
  return { readings: series.length, s, varianceOfS: varianceOfKendallS(series) }
}

/** The variance of S alone, which needs no pairs. All times and values must be finite. */
export function varianceOfKendallS(series: readonly TimedValue[]): number {
  const values = timesEach(series.map((one) => one.value))
  const times = timesEach(series.map((one) => one.time))
  return varianceWithTies(series.length, values, times)
}

/** (S ∓ 1)/√variance, drawn one towards zero for continuity, with its two-sided normal p. variance > 0. */
export function scoreTest(s: number, varianceOfS: number): { z: number; p: number } {
  const z = s === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(varianceOfS)
  return { z, p: normalTwoSidedP(z) }
}

/**
 * Chance of an S at least that far from zero when all orders of n readings are equally likely: the numbers of
 * inversions, built up one reading at a time (Kendall 1975).
 */
function exactP(n: number, s: number): number {
  let chances = [1]
  for (let size = 2; size <= n; size += 1) {
    const next: number[] = []
    for (let inversions = 0; inversions < chances.length + size - 1; inversions += 1) {
      let window = 0
      const from = Math.max(0, inversions - size + 1)
      for (let k = from; k <= Math.min(inversions, chances.length - 1); k += 1) window += chances[k] ?? 0
      next.push(window / size)
    }
    chances = next
  }
  // S = pairs − 2 · inversions, and the distribution is symmetrical.
  const inversions = ((n * (n - 1)) / 2 - Math.abs(s)) / 2
  let tail = 0
  for (let k = 0; k <= inversions; k += 1) tail += chances[k] ?? 0
  return Math.min(1, 2 * tail)
}

/** Why no pair of these readings can be ordered, or null when one can. */
export function whyNoPair(series: readonly TimedValue[]): NoRankTestReason | null {
  if (!series.every(({ time, value }) => Number.isFinite(time) && Number.isFinite(value))) {
    return 'not-a-number'
  }
  const [first] = series
  if (first === undefined || series.length < 2) return 'too-few-readings'
  if (series.every(({ time }) => time === first.time)) return 'one-time'
  return series.every(({ value }) => value === first.value) ? 'all-equal' : null
}

/**
 * Does a series rise or fall, by order alone: Mann HB (1945) Econometrica 13:245–259; Kendall MG (1975) Rank
 * Correlation Methods, with ties in values and in times.
 *
 * Values may be counts, rates or indices; a reading without effort has no value and does not belong here.
 * Readings of one time are not compared with each other. p is the normal approximation with continuity
 * correction (R: `cor.test(exact = FALSE, continuity = TRUE)`); with fewer than about ten readings use
 * `pExact`. Readings are taken to be independent of each other: runs of luck from visit to visit make p too
 * small, and a season makes a trend of half a year (`seasonal-mann-kendall.ts`).
 *
 * Not estimable, with the reason, with fewer than two readings, all at one time, all of one value, or a figure
 * that is not a finite number.
 */
export function mannKendall(series: readonly TimedValue[]): MannKendall {
  const reason = whyNoPair(series)
  if (reason !== null) return { estimable: false, reason }
  const score = kendallScore(series)
  const n = score.readings
  const values = timesEach(series.map((one) => one.value))
  const times = timesEach(series.map((one) => one.time))
  const pairs = (tied: readonly number[]) => (n * (n - 1) - pairSum(tied, (m) => m * (m - 1))) / 2
  const noTies = values.length === n && times.length === n
  return {
    estimable: true,
    ...score,
    ...scoreTest(score.s, score.varianceOfS),
    tauB: score.s / Math.sqrt(pairs(values) * pairs(times)),
    pExact: noTies && n <= MOST_READINGS_FOR_EXACT_P ? exactP(n, score.s) : null,
  }
}
