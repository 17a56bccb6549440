import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fitWithClumping, fitWithOwnClumping } from '../../src/measure/clumped-fit.js'
import { type CountObservation, fitLogLinear } from '../../src/measure/log-linear.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

interface Interval {
  lower: number
  upper: number
}

interface Fitted {
  estimable: boolean
  poisson?: {
    intercept: number
    slope_per_30d: number
    se: number
    ci95: Interval
    z: number
    p: number
    pearson_chi2: number
    df: number
    dispersion: number | null
  }
  quasi?: { se: number; t: number; ci95: Interval; p: number } | null
  negbin?: { overdispersed: boolean; theta: number | 'Infinity'; slope_per_30d: number; se: number }
}

const reference = referenceKind<{ time_days: number[]; exposure: number[]; count: number[] }, Fitted>(
  'loglinear_trend',
)

function observationsOf(input: {
  time_days: number[]
  exposure: number[]
  count: number[]
}): CountObservation[] {
  return input.time_days.map((day, i) => ({
    day,
    count: input.count[i] ?? Number.NaN,
    exposure: input.exposure[i] ?? Number.NaN,
  }))
}

describe('fitLogLinear agrees with R glm, poisson and quasipoisson', () => {
  test.each(reference.cases)('$id', (one) => {
    const fit = fitLogLinear(observationsOf(one.input))
    expect(fit.estimable).toBe(one.expected.estimable)
    const { poisson, quasi } = one.expected
    if (!fit.estimable || poisson === undefined) return
    expectAgrees(fit.intercept, poisson.intercept, reference, 'intercept')
    expectAgrees(fit.slope, poisson.slope_per_30d, reference, 'slope')
    expectAgrees(fit.poisson.standardError, poisson.se, reference, 'se')
    expectAgrees(fit.poisson.lower, poisson.ci95.lower, reference, 'lower')
    expectAgrees(fit.poisson.upper, poisson.ci95.upper, reference, 'upper')
    expectAgrees(fit.poisson.statistic, poisson.z, reference, 'z')
    expectAgrees(fit.poisson.p, poisson.p, reference, 'p')
    expectAgrees(fit.pearsonChiSquare, poisson.pearson_chi2, reference, 'chi-square')
    expectAgrees(fit.degreesOfFreedom, poisson.df, reference, 'df')
    expectAgrees(fit.dispersion, poisson.dispersion, reference, 'dispersion')
    if (quasi === null || quasi === undefined) {
      expect(fit.quasi).toBeNull()
    } else {
      expectAgrees(fit.quasi?.standardError, quasi.se, reference, 'quasi se')
      expectAgrees(fit.quasi?.statistic, quasi.t, reference, 't')
      expectAgrees(fit.quasi?.lower, quasi.ci95.lower, reference, 'quasi lower')
      expectAgrees(fit.quasi?.upper, quasi.ci95.upper, reference, 'quasi upper')
      expectAgrees(fit.quasi?.p, quasi.p, reference, 'quasi p')
    }
    expectPublished(one, {
      'poisson.intercept': fit.intercept,
      'poisson.slope_per_30d': fit.slope,
      'poisson.deviance': null,
    })
  })
})

const clumped = reference.cases.filter((one) => one.expected.negbin?.overdispersed)

describe('fitWithClumping agrees with R MASS::glm.nb at the clumping R found', () => {
  test.each(clumped)('$id', (one) => {
    const negbin = one.expected.negbin
    if (negbin === undefined || negbin.theta === 'Infinity') throw new Error('a clumped case was expected')
    const fit = fitWithClumping(observationsOf(one.input), 1 / negbin.theta)
    expectAgrees(fit?.slope, negbin.slope_per_30d, reference, 'slope')
    expectAgrees(fit?.standardError, negbin.se, reference, 'se')
  })

  test('there are such cases', () => expect(clumped.length).toBeGreaterThanOrEqual(5))
})

describe('fitWithOwnClumping', () => {
  test.each(clumped)("$id: Pearson's χ² equals its degrees of freedom (Breslow 1984)", (one) => {
    const observations = observationsOf(one.input)
    const fit = fitWithOwnClumping(observations)
    expect(fit?.clumping).toBeGreaterThan(0)
    expect(fit?.pearsonChiSquare).toBeCloseTo(observations.length - 2, 7)
    // The line itself is the maximum for that clumping.
    const again = fitWithClumping(observations, fit?.clumping ?? Number.NaN)
    expect(again?.slope).toBeCloseTo(fit?.slope ?? Number.NaN, 9)
  })

  test.each(['poisson_24', 'tiny_exposure', 'all_equal'])('%s does not clump: the Poisson fit', (id) => {
    const one = reference.cases.find((candidate) => candidate.id === id)
    const fit = fitWithOwnClumping(observationsOf(one?.input ?? { time_days: [], exposure: [], count: [] }))
    expect(fit?.clumping).toBe(0)
    expectAgrees(fit?.standardError, one?.expected.poisson?.se, reference, 'se')
  })
})

describe('why no line can be fitted', () => {
  const at = (day: number, count: number, exposure = 10): CountObservation => ({ day, count, exposure })
  test.each([
    ['too-few-readings', []],
    ['too-few-readings', [at(0, 4), at(30, 5, 0), at(60, 6, Number.NaN)]],
    ['not-a-count', [at(0, 4), at(30, -1), at(60, 6)]],
    ['not-a-count', [at(0, 4), at(30, Number.NaN), at(60, 6)]],
    ['none-caught', [at(0, 0), at(30, 0), at(60, 0)]],
    ['one-day', [at(7, 1), at(7, 3), at(7, 2)]],
    ['caught-at-one-end', [at(0, 0), at(30, 0), at(60, 9)]],
    ['caught-at-one-end', [at(60, 0), at(0, 2), at(0, 7), at(30, 0)]],
  ] as const)('%s', (reason, observations) => {
    expect(fitLogLinear(observations)).toEqual({ estimable: false, reason })
    expect(fitWithOwnClumping(observations)).toBeNull()
  })
})

const someObservations = fc.array(
  fc.record({
    day: fc.integer({ min: 20_000, max: 21_000 }),
    count: fc.integer({ min: 0, max: 300 }),
    exposure: fc.integer({ min: 1, max: 500 }),
  }),
  { minLength: 3, maxLength: 30 },
)

test('at the maximum, fitted and seen totals and time sums agree (the score equations)', () => {
  fc.assert(
    fc.property(someObservations, (observations) => {
      const fit = fitLogLinear(observations)
      fc.pre(fit.estimable)
      if (!fit.estimable) return
      let total = 0
      let excess = 0
      let excessTime = 0
      for (const { day, count, exposure } of observations) {
        const fitted = exposure * Math.exp(fit.intercept + (fit.slope * day) / 30)
        total += count
        excess += count - fitted
        excessTime += ((count - fitted) * (day - 20_500)) / 30
      }
      expect(Math.abs(excess) / total).toBeLessThan(1e-8)
      expect(Math.abs(excessTime) / total).toBeLessThan(1e-6)
    }),
  )
})

test('the slope asks neither for the order, nor for the first day, nor for the unit of effort', () => {
  fc.assert(
    fc.property(someObservations, fc.integer({ min: -30_000, max: 30_000 }), (observations, days) => {
      const fit = fitLogLinear(observations)
      const moved = fitLogLinear(
        observations.map((o) => ({ day: o.day + days, count: o.count, exposure: o.exposure * 7 })).reverse(),
      )
      expect(moved.estimable).toBe(fit.estimable)
      if (!fit.estimable || !moved.estimable) return
      expect(moved.slope).toBeCloseTo(fit.slope, 7)
      expect(moved.poisson.standardError / fit.poisson.standardError).toBeCloseTo(1, 7)
    }),
  )
})
