import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fitWithOwnClumping } from '../../src/measure/clumped-fit.js'
import { addedUpByDay, trendOf } from '../../src/measure/count-trend.js'
import { type CountObservation, fitLogLinear } from '../../src/measure/log-linear.js'
import { referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { time_days: number[]; exposure: number[]; count: number[] },
  { estimable: boolean; quasi?: { ci95: { lower: number; upper: number }; p: number } | null }
>('loglinear_trend')

function observationsOf(input: {
  time_days: number[]
  exposure: number[]
  count: number[]
}): CountObservation[] {
  return input.time_days.map((day, i) => ({
    day,
    count: input.count[i] ?? 0,
    exposure: input.exposure[i] ?? 0,
  }))
}

describe('trendOf', () => {
  const withQuasi = reference.cases.filter((one) => one.expected.quasi)

  test.each(withQuasi)('$id: never surer than R quasi-Poisson', (one) => {
    const trend = trendOf(observationsOf(one.input))
    const quasi = one.expected.quasi
    if (!trend.estimable || !quasi) throw new Error('a trend was expected')
    expect(trend.dispersion).toBeGreaterThanOrEqual(1)
    expect(Math.log(trend.lower)).toBeLessThanOrEqual(quasi.ci95.lower + 1e-6)
    expect(Math.log(trend.upper)).toBeGreaterThanOrEqual(quasi.ci95.upper - 1e-6)
    expect(trend.p).toBeGreaterThanOrEqual(quasi.p - 1e-6)
  })

  // R: quasi-Poisson slope 0.256524, lower limit 0.182072; dispersion 2.40394 (Dobson 1990, AIDS deaths in
  // Australia).
  test('a plain rise: the limits cover both variance laws, each widened for persistence', () => {
    const one = reference.cases.find((candidate) => candidate.id === 'dobson_aids')
    const observations = observationsOf(one?.input ?? { time_days: [], exposure: [], count: [] })
    const trend = trendOf(observations)
    const clumped = fitWithOwnClumping(observations)
    if (!trend.estimable || clumped === null) throw new Error('a trend was expected')
    const widened = Math.sqrt((1 + trend.persistence) / (1 - trend.persistence))
    expect(trend.persistence).toBeGreaterThan(0)
    expect(Math.log(trend.perMonth)).toBeCloseTo(0.256523593717915, 6)
    const quasiLower = 0.256523593717915 - widened * (0.256523593717915 - 0.182071649937832)
    // t with 12 degrees of freedom, two-sided 5 %: 2.1788 (printed tables).
    const otherUpper = clumped.slope + widened * 2.1788 * clumped.standardError
    expect(Math.log(trend.lower)).toBeCloseTo(quasiLower, 6)
    expect(Math.log(trend.upper)).toBeCloseTo(otherUpper, 4)
    expect(trend.dispersion).toBeCloseTo(2.40394208289675, 6)
    expect(trend.degreesOfFreedom).toBe(12)
  })

  // Worked by hand: the series is its own mirror image, so the slope is 0, every fitted count 5, every
  // residual ±3/√5.
  test('persistence is the autocorrelation of neighbours plus 1/n', () => {
    const counts = [8, 8, 8, 2, 2, 2]
    const symmetric = [...counts, ...[...counts].reverse()]
    const trend = trendOf(symmetric.map((count, i) => ({ day: i * 30, count, exposure: 1 })))
    // Twelve readings: neighbours 8·8 8·8 8·2 2·2 2·2 | 2·2 | 2·2 2·2 2·8 8·8 8·8 give 9 · (9 − 2) = 63 of 12
    // · 9 = 108.
    expect(trend).toMatchObject({ estimable: true })
    if (trend.estimable) expect(trend.persistence).toBeCloseTo(63 / 108 + 1 / 12, 9)
  })

  test('alternating counts have none', () => {
    const trend = trendOf([9, 1, 9, 1, 9, 1, 9].map((count, i) => ({ day: i * 30, count, exposure: 1 })))
    expect(trend).toMatchObject({ estimable: true, persistence: 0 })
  })

  test('equal counts keep the Poisson interval: dispersion is not taken below 1', () => {
    const observations = [0, 30, 60, 90, 120, 150].map((day) => ({ day, count: 4, exposure: 84 }))
    const trend = trendOf(observations)
    const fit = fitLogLinear(observations)
    if (!trend.estimable || !fit.estimable) throw new Error('a trend was expected')
    expect(trend).toMatchObject({ dispersion: 1, clumping: 0, degreesOfFreedom: 4 })
    expect(trend.perMonth).toBeCloseTo(1, 12)
    expect(trend.p).toBeCloseTo(1, 9)
    // t with 4 degrees of freedom, two-sided 5 %: 2.776 (printed tables).
    expect(Math.log(trend.upper) / fit.poisson.standardError).toBeCloseTo(2.776, 3)
  })

  test('two days are no trend, however many traps were read', () => {
    const observations = [0, 0, 0, 30, 30, 30].map((day, i) => ({ day, count: i + 1, exposure: 7 }))
    expect(trendOf(observations)).toEqual({ estimable: false, reason: 'too-few-readings' })
  })

  test('an observation without effort counts for nothing', () => {
    const observations = [3, 5, 2, 8, 6, 9].map((count, i) => ({ day: i * 30, count, exposure: 10 }))
    const blind = { day: 300, count: 0, exposure: 0 }
    expect(trendOf([...observations, blind])).toEqual(trendOf(observations))
  })

  test('traps read on the same day are one observation', () => {
    const days = [3, 5, 2, 8, 6, 9].map((count, i) => ({ day: i * 30, count, exposure: 10 }))
    const traps = days.flatMap(({ day, count, exposure }) => [
      { day, count: count - 1, exposure: exposure / 2 },
      { day, count: 1, exposure: exposure / 2 },
    ])
    expect(addedUpByDay(traps.reverse())).toEqual(days)
    expect(trendOf(traps)).toEqual(trendOf(days))
  })

  test('a limit beyond any number is no limit: out of range, not Infinity', () => {
    const observations = [
      { day: 0, count: 1, exposure: 1e-9 },
      { day: 1, count: 1, exposure: 1e9 },
      { day: 2, count: 1, exposure: 1e-9 },
      { day: 3, count: 0, exposure: 1 },
    ]
    expect(trendOf(observations)).toEqual({ estimable: false, reason: 'out-of-range' })
  })
})

test('whatever is counted, figures are finite and in order, and p agrees with the interval', () => {
  const observations = fc.array(
    fc.record({
      day: fc.integer({ min: 20_000, max: 20_400 }),
      count: fc.oneof(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 100_000 })),
      exposure: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.double({ min: 0.001, max: 1e5, noNaN: true })),
    }),
    { maxLength: 30 },
  )
  fc.assert(
    fc.property(observations, (series) => {
      const trend = trendOf(series)
      if (!trend.estimable) return
      for (const figure of [
        trend.perMonth,
        trend.lower,
        trend.upper,
        trend.p,
        trend.dispersion,
        trend.clumping,
      ]) {
        expect(Number.isFinite(figure)).toBe(true)
      }
      expect(trend.lower).toBeLessThanOrEqual(trend.perMonth)
      expect(trend.upper).toBeGreaterThanOrEqual(trend.perMonth)
      expect(trend.p).toBeGreaterThanOrEqual(0)
      expect(trend.p).toBeLessThanOrEqual(1)
      if (trend.lower > 1 || trend.upper < 1) expect(trend.p).toBeLessThan(0.05 + 1e-9)
    }),
    { numRuns: 2000 },
  )
})
