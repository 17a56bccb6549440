import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { rateRatio } from '../../src/measure/rate-ratio.js'
import { expectAgrees, expectPublished, type ReferenceNumber, referenceKind } from './stats-reference.js'

interface Interval {
  lower: ReferenceNumber
  upper: ReferenceNumber
}

const reference = referenceKind<
  { count1: number; exposure1: number; count2: number; exposure2: number },
  { ratio: ReferenceNumber; p_minlik: number; p_central: number; ci95: Interval; ci90: Interval }
>('poisson_rate_ratio')

describe('rateRatio agrees with R poisson.test', () => {
  test.each(reference.cases)('$id', (one) => {
    const { count1, exposure1, count2, exposure2 } = one.input
    const at95 = rateRatio(count1, exposure1, count2, exposure2)
    const at90 = rateRatio(count1, exposure1, count2, exposure2, 0.9)
    if (at95 === null || at90 === null) throw new Error('a ratio was expected')
    expectAgrees(at95.ratio, one.expected.ratio, reference, 'ratio')
    expectAgrees(at95.lower, one.expected.ci95.lower, reference, 'lower 95')
    expectAgrees(at95.upper, one.expected.ci95.upper, reference, 'upper 95')
    expectAgrees(at90.lower, one.expected.ci90.lower, reference, 'lower 90')
    expectAgrees(at90.upper, one.expected.ci90.upper, reference, 'upper 90')
    expectAgrees(at95.pCentral, one.expected.p_central, reference, 'p central')
    expectAgrees(at95.pMinlik, one.expected.p_minlik, reference, 'p minlik')
    expectPublished(one, {
      ratio: at95.ratio,
      p_minlik: at95.pMinlik,
      'ci95.lower': at95.lower,
      'ci95.upper': at95.upper,
    })
  })
})

test.each([
  [1, 0, 1, 1],
  [1, 1, 1, 0],
  [-1, 1, 1, 1],
  [1, 1, 1.5, 1],
  [1, Number.NaN, 1, 1],
])('rateRatio(%s, %s, %s, %s) is null', (count1, exposure1, count2, exposure2) => {
  expect(rateRatio(count1, exposure1, count2, exposure2)).toBeNull()
})

const sides = [
  fc.integer({ min: 0, max: 80 }),
  fc.double({ min: 0.1, max: 1000, noNaN: true }),
  fc.integer({ min: 0, max: 80 }),
  fc.double({ min: 0.1, max: 1000, noNaN: true }),
] as const

test('the central p agrees with the interval: at most 0.05 exactly when 1 lies outside', () => {
  fc.assert(
    fc.property(...sides, (count1, exposure1, count2, exposure2) => {
      const one = rateRatio(count1, exposure1, count2, exposure2)
      if (one === null) throw new Error('a ratio was expected')
      // On the boundary itself rounding may fall either way.
      fc.pre(Math.abs(one.pCentral - 0.05) > 1e-9)
      expect(one.lower > 1 || one.upper < 1).toBe(one.pCentral < 0.05)
    }),
  )
})

test('turned round, the ratio and its limits are the reciprocals and both p stay', () => {
  fc.assert(
    fc.property(...sides, (count1, exposure1, count2, exposure2) => {
      const one = rateRatio(count1, exposure1, count2, exposure2)
      const other = rateRatio(count2, exposure2, count1, exposure1)
      if (one === null || other === null) throw new Error('ratios were expected')
      if (count1 > 0) expect(one.lower * other.upper).toBeCloseTo(1, 10)
      if (count2 > 0) expect(one.upper * other.lower).toBeCloseTo(1, 10)
      expect(one.pCentral).toBeCloseTo(other.pCentral, 12)
      expect(one.pMinlik).toBeCloseTo(other.pMinlik, 12)
    }),
  )
})

test('both p values equal plain sums over all outcomes', () => {
  fc.assert(
    fc.property(...sides, (count1, exposure1, count2, exposure2) => {
      const one = rateRatio(count1, exposure1, count2, exposure2)
      const n = count1 + count2
      fc.pre(n > 0)
      const chance = exposure1 / (exposure1 + exposure2)
      const outcomes = Array.from(
        { length: n + 1 },
        (_, i) => choose(n, i) * chance ** i * (1 - chance) ** (n - i),
      )
      const seen = outcomes[count1] ?? 0
      const sum = (keep: (probability: number, i: number) => boolean) =>
        outcomes.filter(keep).reduce((total, probability) => total + probability, 0)
      expect(one?.pMinlik).toBeCloseTo(
        Math.min(
          1,
          sum((probability) => probability <= seen * (1 + 1e-7)),
        ),
        9,
      )
      const central =
        2 *
        Math.min(
          sum((_, i) => i <= count1),
          sum((_, i) => i >= count1),
        )
      expect(one?.pCentral).toBeCloseTo(Math.min(1, central), 9)
    }),
  )
})

function choose(n: number, k: number): number {
  let result = 1
  for (let i = 1; i <= k; i += 1) result *= (n - k + i) / i
  return result
}
