import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  betaQuantileOdds,
  betaTails,
  binomialProbability,
  gammaQuantileLower,
  gammaQuantileUpper,
  gammaTails,
  normalCriticalValue,
  normalTwoSidedP,
  studentCriticalValue,
  studentTwoSidedP,
} from '../../src/measure/special-functions.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

function expectRatio(actual: number, expected: number, within: number) {
  expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThan(within)
}

describe('closed forms', () => {
  const positive = fc.double({ min: 1e-3, max: 50, noNaN: true })

  test('gamma of shape 1 is the exponential, of shape 2 and 3 its short sums', () => {
    fc.assert(
      fc.property(positive, (x) => {
        expectRatio(gammaTails(1, x).upper, Math.exp(-x), 1e-13)
        expectRatio(gammaTails(1, x).lower, -Math.expm1(-x), 1e-13)
        expectRatio(gammaTails(2, x).upper, Math.exp(-x) * (1 + x), 1e-13)
        expectRatio(gammaTails(3, x).upper, Math.exp(-x) * (1 + x + (x * x) / 2), 1e-13)
      }),
    )
  })

  test('beta with one parameter 1 is a power', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), positive, (x, a) => {
        expectRatio(betaTails(x, 1 - x, a, 1).lower, x ** a, 1e-12)
        expectRatio(betaTails(1 - x, x, 1, a).upper, x ** a, 1e-12)
      }),
    )
  })

  test("Student's t with 1 and 2 degrees of freedom", () => {
    fc.assert(
      fc.property(positive, (t) => {
        expectRatio(studentTwoSidedP(t, 1), (2 / Math.PI) * Math.atan(1 / t), 1e-13)
        const root = Math.sqrt(2 + t * t)
        expectRatio(studentTwoSidedP(t, 2), 2 / (root * (root + t)), 1e-13)
      }),
    )
  })

  test('nothing beyond zero is everything', () => {
    expect(studentTwoSidedP(0, 5)).toBe(1)
    expect(normalTwoSidedP(0)).toBe(1)
    expect(gammaTails(3, 0)).toEqual({ lower: 0, upper: 1 })
  })
})

describe('published tables', () => {
  // Student's t, two-sided 5 % and 1 %: Fisher & Yates, Statistical Tables, table III (from memory, to the
  // three printed decimals; the same figures are in NIST/SEMATECH e-Handbook 1.3.6.7.2).
  test.each([
    [1, 12.706, 63.657],
    [2, 4.303, 9.925],
    [3, 3.182, 5.841],
    [5, 2.571, 4.032],
    [10, 2.228, 3.169],
    [30, 2.042, 2.75],
    [120, 1.98, 2.617],
  ])('t with %i degrees of freedom', (df, at95, at99) => {
    expect(Math.abs(studentCriticalValue(0.95, df) - at95)).toBeLessThanOrEqual(0.00051)
    expect(Math.abs(studentCriticalValue(0.99, df) - at99)).toBeLessThanOrEqual(0.00051)
  })

  // Abramowitz & Stegun (1964) table 26.2 and 26.5 (from memory; recomputed with mpmath 1.3.0 to 60 digits).
  test('normal', () => {
    expectRatio(normalCriticalValue(0.95), 1.95996398454005, 1e-14)
    expectRatio(normalCriticalValue(0.9), 1.64485362695147, 1e-14)
    expectRatio(normalCriticalValue(0.99), 2.5758293035489, 1e-14)
    expectRatio(normalTwoSidedP(5), 5.73303143758389e-7, 1e-13)
    expectRatio(normalTwoSidedP(10), 1.52397060483211e-23, 1e-12)
  })
})

describe('far and large arguments, against mpmath 1.3.0 at 60 digits', () => {
  test.each([
    [0.5, 1e-8, 0.000112837916333425],
    [0.5, 30, 9.48573757107385e-15],
    [2, 1e-6, 4.99999666666792e-13],
    [7, 40, 2.82957240487239e-11],
    [137, 80, 4.47276231158164e-9],
    [137, 250, 2.08702681805278e-15],
    [1000.5, 900, 0.000519483345934766],
    [1000.5, 1200, 1.41463503317494e-9],
    [30, 2.5, 2.9188886929922e-22],
    [100000, 98000, 9.69083515816049e-11],
  ])('gamma shape %d at %d: the smaller tail', (shape, x, expected) => {
    const { lower, upper } = gammaTails(shape, x)
    expectRatio(Math.min(lower, upper), expected, 1e-12)
  })

  test.each([
    [0.5, 0.5, 0.001, 0.0201350416333775],
    [0.5, 5, 0.7, 0.999308696614237],
    [5, 0.5, 0.2, 8.63021615315425e-5],
    [2, 3, 0.5, 0.6875],
    [10, 1, 0.03125, 8.88178419700125e-16],
    [100, 0.5, 0.75, 3.56295104350736e-14],
    [3, 61, 0.015625, 0.0759927952625896],
    [40, 60, 0.25, 0.000541541491304747],
    [500, 500, 0.4375, 3.63260302779844e-5],
    [5000, 0.5, 0.9970703125, 6.07790136826393e-8],
  ])('beta %d, %d at %d: the lower tail', (a, b, x, expected) => {
    expectRatio(betaTails(x, 1 - x, a, b).lower, expected, 1e-11)
  })
})

describe('quantiles undo the tails', () => {
  const probability = fc.double({ min: 1e-12, max: 0.99, noNaN: true })

  test('gamma', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 1e5, noNaN: true }), probability, (shape, p) => {
        expectRatio(gammaTails(shape, gammaQuantileLower(shape, p)).lower, p, 1e-9)
        expectRatio(gammaTails(shape, gammaQuantileUpper(shape, p)).upper, p, 1e-9)
      }),
    )
  })

  test('beta', () => {
    const parameter = fc.double({ min: 0.5, max: 5000, noNaN: true })
    fc.assert(
      fc.property(parameter, parameter, probability, (a, b, p) => {
        const odds = betaQuantileOdds(a, b, p)
        expectRatio(betaTails(odds / (1 + odds), 1 / (1 + odds), a, b).lower, p, 1e-9)
      }),
    )
  })

  test('Student and normal', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 0.01, max: 0.999999, noNaN: true }),
        (df, confidence) => {
          expectRatio(studentTwoSidedP(studentCriticalValue(confidence, df), df), 1 - confidence, 1e-9)
          expectRatio(normalTwoSidedP(normalCriticalValue(confidence)), 1 - confidence, 1e-9)
        },
      ),
    )
  })
})

test('binomial probabilities of all outcomes add up to one', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 400 }),
      fc.double({ min: 0.001, max: 0.999, noNaN: true }),
      (trials, chance) => {
        let sum = 0
        for (let k = 0; k <= trials; k += 1) sum += binomialProbability(k, trials, chance, 1 - chance)
        expect(sum).toBeCloseTo(1, 12)
      },
    ),
  )
})

interface Interval {
  lower: number
  upper: number
}

const binomial = referenceKind<
  { success: number; n: number },
  { clopper_pearson95: Interval; clopper_pearson90?: Interval }
>('binomial_ci')

/** Clopper CJ, Pearson ES (1934) Biometrika 26:404–413, from beta quantiles. */
function clopperPearson(successes: number, n: number, confidence: number): Interval {
  const tail = (1 - confidence) / 2
  const share = (odds: number) => odds / (1 + odds)
  return {
    lower: successes === 0 ? 0 : share(betaQuantileOdds(successes, n - successes + 1, tail)),
    upper: successes === n ? 1 : share(1 / betaQuantileOdds(n - successes, successes + 1, tail)),
  }
}

describe('beta quantiles give the Clopper–Pearson limits of R binom.test', () => {
  test.each(binomial.cases)('$id', (one) => {
    const { success, n } = one.input
    const at95 = clopperPearson(success, n, 0.95)
    expectAgrees(at95.lower, one.expected.clopper_pearson95.lower, binomial, 'lower 95')
    expectAgrees(at95.upper, one.expected.clopper_pearson95.upper, binomial, 'upper 95')
    if (one.expected.clopper_pearson90 !== undefined) {
      const at90 = clopperPearson(success, n, 0.9)
      expectAgrees(at90.lower, one.expected.clopper_pearson90.lower, binomial, 'lower 90')
      expectAgrees(at90.upper, one.expected.clopper_pearson90.upper, binomial, 'upper 90')
    }
    expectPublished(one, {
      'clopper_pearson95.lower': at95.lower,
      'clopper_pearson95.upper': at95.upper,
      'wilson95.lower': null,
      'wilson95.upper': null,
    })
  })
})
