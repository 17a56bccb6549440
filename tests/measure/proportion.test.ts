import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { clopperPearson, wilson } from '../../src/measure/proportion.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

interface Interval {
  lower: number
  upper: number
}

const reference = referenceKind<
  { success: number; n: number },
  {
    proportion: number | null
    clopper_pearson95: Interval
    clopper_pearson90?: Interval
    wilson95: Interval | null
    wilson90?: Interval
  }
>('binomial_ci')

describe('both intervals agree with R binom.test and prop.test', () => {
  test.each(reference.cases)('$id', (one) => {
    const { success, n } = one.input
    const { expected } = one
    for (const [method, confidence, limits] of [
      [clopperPearson, 0.95, expected.clopper_pearson95],
      [clopperPearson, 0.9, expected.clopper_pearson90],
      [wilson, 0.95, expected.wilson95],
      [wilson, 0.9, expected.wilson90],
    ] as const) {
      if (limits === undefined) continue
      const answer = method(success, n, confidence)
      expectAgrees(answer?.proportion ?? null, expected.proportion, reference, 'proportion')
      expectAgrees(answer?.lower ?? null, limits?.lower ?? null, reference, `${method.name} lower`)
      expectAgrees(answer?.upper ?? null, limits?.upper ?? null, reference, `${method.name} upper`)
    }
    expectPublished(one, {
      'clopper_pearson95.lower': clopperPearson(success, n)?.lower ?? null,
      'clopper_pearson95.upper': clopperPearson(success, n)?.upper ?? null,
      'wilson95.lower': wilson(success, n)?.lower ?? null,
      'wilson95.upper': wilson(success, n)?.upper ?? null,
    })
  })
})

test('without trials: Wilson says nothing, Clopper and Pearson say 0 to 1', () => {
  expect(wilson(0, 0)).toBeNull()
  expect(clopperPearson(0, 0)).toEqual({ proportion: null, lower: 0, upper: 1 })
})

describe('what is not a share', () => {
  test.each([
    [2, 1, 0.95],
    [-1, 5, 0.95],
    [0.5, 5, 0.95],
    [1, Number.NaN, 0.95],
    [1, Infinity, 0.95],
    [1, 5, 1],
    [1, 5, Number.NaN],
  ])('%s of %s at %s', (successes, trials, confidence) => {
    expect(wilson(successes, trials, confidence)).toBeNull()
    expect(clopperPearson(successes, trials, confidence)).toBeNull()
  })
})

// All late of n: the Clopper–Pearson lower limit solves pⁿ = 0.025.
test('all of three, worked by hand', () => {
  expect(clopperPearson(3, 3)?.lower).toBeCloseTo(0.025 ** (1 / 3), 12)
  expect(clopperPearson(3, 3)?.upper).toBe(1)
  // Wilson at x = n: n/(n + z²) = 3/(3 + 3.841459).
  expect(wilson(3, 3)?.lower).toBeCloseTo(3 / 6.841459, 6)
  expect(wilson(3, 3)?.upper).toBe(1)
})

test('limits hold the share, turn round with it, and lie within 0 and 1', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 1_000_000 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0.5, max: 0.999, noNaN: true }),
      (trials, share, confidence) => {
        const successes = Math.round(share * trials)
        for (const method of [wilson, clopperPearson]) {
          const one = method(successes, trials, confidence)
          const other = method(trials - successes, trials, confidence)
          if (one === null || other === null) throw new Error('intervals were expected')
          const within = [0, one.lower, successes / trials, one.upper, 1]
          expect([...within].sort((a, b) => a - b)).toEqual(within)
          expect(one.lower + other.upper).toBeCloseTo(1, 12)
        }
      },
    ),
  )
})

test("Wilson's limits are the shares from which the one seen is just z standard deviations away", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 500 }), fc.nat({ max: 500 }), (trials, seen) => {
      const successes = Math.min(seen, trials)
      const one = wilson(successes, trials)
      for (const limit of [one?.lower ?? 0, one?.upper ?? 0]) {
        // At a limit of exactly 0 or 1 the share seen is that limit itself.
        if (limit === 0 || limit === 1) continue
        const z = Math.abs(successes / trials - limit) / Math.sqrt((limit * (1 - limit)) / trials)
        expect(z).toBeCloseTo(1.959964, 5)
      }
    }),
  )
})
