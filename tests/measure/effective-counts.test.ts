import { expect, test } from 'vitest'
import {
  clumpingAbout,
  divisorOf,
  largestDispersion,
  oddsLimits,
  shareP,
} from '../../src/measure/effective-counts.js'
import { expectAgrees, type ReferenceNumber, referenceKind } from './stats-reference.js'

interface Interval {
  lower: ReferenceNumber
  upper: ReferenceNumber
}

const reference = referenceKind<
  { count1: number; exposure1: number; count2: number; exposure2: number },
  { p_central: number; ci95: Interval; ci90: Interval }
>('poisson_rate_ratio')

test.each(reference.cases)('whole counts give the limits of R poisson.test: $id', ({ input, expected }) => {
  const { count1, exposure1, count2, exposure2 } = input
  const perOdds = exposure2 / exposure1
  for (const [confidence, limits] of [
    [0.95, expected.ci95],
    [0.9, expected.ci90],
  ] as const) {
    const { lower, upper } = oddsLimits(count1, count2, confidence)
    expectAgrees(lower * perOdds, limits.lower, reference, 'lower')
    if (limits.upper === 'Infinity') expect(upper).toBeNull()
    else expectAgrees((upper ?? Number.NaN) * perOdds, limits.upper, reference, 'upper')
  }
  const share = exposure1 / (exposure1 + exposure2)
  expectAgrees(shareP(count1, count2, share), expected.p_central, reference, 'p')
})

test('limits of counts that are not whole have the closed form of the beta with a parameter of 1', () => {
  // I_p(1, n) = 1 − (1 − p)^n: none against 2.5 has (1 − p)^2.5 = 0.025 at the upper limit of its share.
  const upperShare = 1 - 0.025 ** (1 / 2.5)
  expect(oddsLimits(0, 2.5, 0.95).upper).toBeCloseTo(upperShare / (1 - upperShare), 10)
  // One against 0.7: 1 − (1 − p)^1.7 = 0.025 at the lower limit.
  const lowerShare = 1 - 0.975 ** (1 / 1.7)
  expect(oddsLimits(1, 0.7, 0.95).lower).toBeCloseTo(lowerShare / (1 - lowerShare), 12)
  expect(oddsLimits(0, 2.5, 0.95).lower).toBe(0)
  expect(oddsLimits(2.5, 0, 0.95).upper).toBeNull()
  expect(oddsLimits(0.01, 0.01, 0.95)).toEqual({ lower: 0, upper: null })
})

test('clumping about two means, by hand', () => {
  const sides = [
    [
      { count: 0, effort: 1 },
      { count: 8, effort: 1 },
    ],
    [
      { count: 1, effort: 1 },
      { count: 1, effort: 1 },
    ],
  ]
  // Means 4 and 1. χ² = 16/4 + 16/4 = 8, against 2 degrees of freedom; Σ(1 − h)μ = 4·½·2 + 1·½·2 = 5.
  expect(clumpingAbout(sides)).toEqual({ perMean: (8 - 2) / 5, degreesOfFreedom: 2 })
  // Σμ²/Σμ is 4 before and 1 after.
  expect(largestDispersion(sides, { perMean: 1.2, degreesOfFreedom: 2 })).toBeCloseTo(1 + 1.2 * 4, 12)
})

test('clumping with uneven effort, by hand; readings without effort do not count', () => {
  const side = [
    { count: 2, effort: 1 },
    { count: 10, effort: 3 },
    { count: 7, effort: 0 },
  ]
  // Means 3 and 9: χ² = 1/3 + 1/9 = 4/9, below its 1 degree of freedom.
  expect(clumpingAbout([side])).toEqual({ perMean: 0, degreesOfFreedom: 1 })
  const other = [
    { count: 12, effort: 1 },
    { count: 0, effort: 3 },
  ]
  // Means 3 and 9: χ² = 81/3 + 81/9 = 36; Σ(1 − h)μ = ¾·3 + ¼·9 = 4.5; both sides: (36 + 4/9 − 2)/9.
  expect(clumpingAbout([side, other])?.perMean).toBeCloseTo((36 + 4 / 9 - 2) / 9, 12)
})

test('nothing is known of clumping without two readings on a side with an animal', () => {
  expect(clumpingAbout([[{ count: 3, effort: 1 }], [{ count: 2, effort: 1 }]])).toBeNull()
  expect(clumpingAbout([])).toBeNull()
  const silent = [
    { count: 0, effort: 1 },
    { count: 0, effort: 1 },
  ]
  expect(clumpingAbout([silent])).toBeNull()
})

test('the divisor holds the square of t over z, from printed tables', () => {
  // t with 2 degrees of freedom 4.303, z 1.960: (4.303/1.960)² = 4.820.
  expect(divisorOf(3, 2, 0.95)).toBeCloseTo(3 * 4.82, 1)
  expect(divisorOf(3, 1e12, 0.95)).toBeCloseTo(3, 4)
})
