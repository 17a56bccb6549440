import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  exactRate,
  exposureNeededToRuleOut,
  oneSidedUpperBound,
  upperBoundWhenNoneCaught,
} from '../../src/measure/poisson-rate.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

interface Interval {
  lower: number
  upper: number
}

const reference = referenceKind<
  { count: number; exposure: number },
  {
    rate: number
    ci95: Interval
    ci90: Interval
    upper_one_sided_95: number
    zero_upper95_exact?: number
    rule_of_three?: number
  }
>('poisson_rate_ci')

describe('exactRate agrees with R poisson.test', () => {
  test.each(reference.cases)('$id', (one) => {
    const { count, exposure } = one.input
    const at95 = exactRate(count, exposure)
    const at90 = exactRate(count, exposure, 0.9)
    expectAgrees(at95?.rate, one.expected.rate, reference, 'rate')
    expectAgrees(at95?.lower, one.expected.ci95.lower, reference, 'lower 95')
    expectAgrees(at95?.upper, one.expected.ci95.upper, reference, 'upper 95')
    expectAgrees(at90?.lower, one.expected.ci90.lower, reference, 'lower 90')
    expectAgrees(at90?.upper, one.expected.ci90.upper, reference, 'upper 90')
    // A one-sided 95 % limit is the upper end of the two-sided 90 % interval.
    expectAgrees(at90?.upper, one.expected.upper_one_sided_95, reference, 'one-sided')
    expectAgrees(oneSidedUpperBound(count, exposure), one.expected.upper_one_sided_95, reference, 'upper')
    if (count === 0) {
      const bound = upperBoundWhenNoneCaught(exposure)
      expectAgrees(bound, one.expected.zero_upper95_exact, reference, 'none caught')
      // Hanley & Lippman-Hand (1983): 3/T is the rounding of 2.9957/T.
      expect(Math.abs((bound ?? 0) * exposure - 3)).toBeLessThan(0.005)
    }
    expectPublished(one, {
      rate: at95?.rate ?? null,
      'ci95.lower': at95?.lower ?? null,
      'ci95.upper': at95?.upper ?? null,
      upper_one_sided_95: at90?.upper ?? null,
    })
  })
})

describe('what is not a rate', () => {
  test.each([
    [1, 0],
    [1, -1],
    [1, Number.NaN],
    [1, Infinity],
    [-1, 1],
    [0.5, 1],
    [Number.NaN, 1],
  ])('count %s over exposure %s is null', (count, exposure) => {
    expect(exactRate(count, exposure)).toBeNull()
    expect(oneSidedUpperBound(count, exposure)).toBeNull()
  })

  test.each([0, 1, -0.1, 1.1, Number.NaN])('a confidence of %s is null', (confidence) => {
    expect(exactRate(1, 1, confidence)).toBeNull()
    expect(upperBoundWhenNoneCaught(1, confidence)).toBeNull()
    expect(exposureNeededToRuleOut(1, confidence)).toBeNull()
  })

  test('no exposure bounds nothing, and no exposure rules out a rate of zero', () => {
    expect(upperBoundWhenNoneCaught(0)).toBeNull()
    expect(exposureNeededToRuleOut(0)).toBeNull()
  })
})

test('what no double holds is null, a count of a million is not', () => {
  expect(exactRate(1, 1e-320)).toBeNull()
  expect(oneSidedUpperBound(1, 1e-320)).toBeNull()
  expect(upperBoundWhenNoneCaught(1e-320)).toBeNull()
  expect(exposureNeededToRuleOut(1e-320)).toBeNull()
  // Normal limits of a million: 1e6 ± 1.96 · 1000, and about (1.96² + 2)/3 = 1.9 more for the skewness.
  const million = exactRate(1_000_000, 1)
  expect(Math.abs((million?.lower ?? 0) - (1e6 - 1959.96))).toBeLessThan(3)
  expect(Math.abs((million?.upper ?? 0) - (1e6 + 1959.96))).toBeLessThan(3)
})

// 30 sticky traps for 10 nights with nothing caught: −ln 0.05 = 2.9957 in 300 trap-nights is 0.00999 a
// trap-night; to be as sure of less than 0.005 takes 2.9957/0.005 = 599.1 trap-nights.
test('none caught in 300 trap-nights, worked by hand', () => {
  expect(upperBoundWhenNoneCaught(300)).toBeCloseTo(0.0099858, 7)
  expect(exposureNeededToRuleOut(0.005)).toBeCloseTo(599.146, 3)
})

test('the exposure needed is the one whose bound is the rate asked for', () => {
  const rates = fc.double({ min: 1e-6, max: 1e6, noNaN: true })
  fc.assert(
    fc.property(rates, fc.double({ min: 0.5, max: 0.999, noNaN: true }), (rate, confidence) => {
      const needed = exposureNeededToRuleOut(rate, confidence) ?? 0
      const bound = upperBoundWhenNoneCaught(needed, confidence) ?? 0
      expect(bound / rate).toBeCloseTo(1, 12)
      // e^(−rate · exposure) is the chance of catching nothing.
      expect(Math.exp(-rate * needed)).toBeCloseTo(1 - confidence, 12)
    }),
  )
})

test('the limits of a count are the means at which that count is just improbable', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 60 }),
      fc.double({ min: 0.5, max: 0.999, noNaN: true }),
      (count, confidence) => {
        const interval = exactRate(count, 1, confidence)
        if (interval === null) throw new Error('an interval was expected')
        const tail = (1 - confidence) / 2
        expect(poissonAtMost(count, interval.upper)).toBeCloseTo(tail, 12)
        if (count > 0) expect(1 - poissonAtMost(count - 1, interval.lower)).toBeCloseTo(tail, 12)
      },
    ),
  )
})

/** Plain sum of Poisson probabilities, independent of the code under test. */
function poissonAtMost(count: number, mean: number): number {
  let term = Math.exp(-mean)
  let sum = term
  for (let i = 1; i <= count; i += 1) {
    term *= mean / i
    sum += term
  }
  return sum
}
