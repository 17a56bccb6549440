import { describe, expect, test } from 'vitest'
import { type Estimate, randomEffects } from '../../src/measure/random-effects.js'

function pooled(estimates: readonly Estimate[], options = {}) {
  const result = randomEffects(estimates, options)
  if (result === null) throw new Error('a mean was expected')
  return result
}

describe('published worked examples', () => {
  /**
   * Thirteen trials of BCG vaccine (Colditz et al. 1994, JAMA 271:698–702), as printed in the documentation of the
   * R package metafor: tuberculosis and none among the vaccinated, the same among the others.
   */
  const vaccine = [
    [4, 119, 11, 128],
    [6, 300, 29, 274],
    [3, 228, 11, 209],
    [62, 13536, 248, 12619],
    [33, 5036, 47, 5761],
    [180, 1361, 372, 1079],
    [8, 2537, 10, 619],
    [505, 87886, 499, 87892],
    [29, 7470, 45, 7232],
    [17, 1699, 65, 1600],
    [186, 50448, 141, 27197],
    [5, 2493, 3, 2338],
    [27, 16886, 29, 17825],
  ] as const
  const logRiskRatios = vaccine.map(([a, b, c, d]) => ({
    value: Math.log(a / (a + b)) - Math.log(c / (c + d)),
    variance: 1 / a - 1 / (a + b) + 1 / c - 1 / (c + d),
  }))

  test('DerSimonian & Laird on the BCG trials, as Stata metan and metafor print it', () => {
    const { mean, plainError, tauSquared, iSquared, q } = pooled(logRiskRatios)
    // metafor, tests/testthat/test_misc_rma_vs_metan: −0.7141 (−1.0644 to −0.3638), τ² 0.3088, I² 92.1173 %; Q 152.2330.
    expect(mean).toBeCloseTo(-0.7141, 4)
    expect(mean - 1.959964 * plainError).toBeCloseTo(-1.0644, 4)
    expect(mean + 1.959964 * plainError).toBeCloseTo(-0.3638, 4)
    expect(tauSquared).toBeCloseTo(0.3088, 4)
    expect(100 * iSquared).toBeCloseTo(92.1173, 4)
    expect(q).toBeCloseTo(152.233, 3)
  })

  /** Teacher expectancy, 19 studies (Raudenbush 1984), as printed in the documentation of metafor. */
  const expectancy = [
    [0.03, 0.0156],
    [0.12, 0.0216],
    [-0.14, 0.0279],
    [1.18, 0.1391],
    [0.26, 0.1362],
    [-0.06, 0.0106],
    [-0.02, 0.0106],
    [-0.32, 0.0484],
    [0.27, 0.0269],
    [0.8, 0.063],
    [0.54, 0.0912],
    [0.18, 0.0497],
    [-0.02, 0.0835],
    [0.23, 0.0841],
    [-0.18, 0.0253],
    [-0.06, 0.0279],
    [0.3, 0.0193],
    [0.07, 0.0088],
    [-0.07, 0.0303],
  ].map(([value = 0, variance = 0]) => ({ value, variance }))

  test('Hartung & Knapp on the expectancy studies: Raudenbush (2009), table 16.3, as metafor reproduces it', () => {
    const { mean, plainError, standardError, lower, upper, tauSquared } = pooled(expectancy)
    expect(tauSquared).toBeCloseTo(0.0259, 4)
    expect(mean).toBeCloseTo(0.0893, 4)
    expect(plainError).toBeCloseTo(0.0558, 4)
    expect(standardError).toBeCloseTo(0.0636, 4)
    expect(mean / standardError).toBeCloseTo(1.405, 4)
    expect(lower).toBeCloseTo(-0.0442, 4)
    expect(upper).toBeCloseTo(0.2229, 4)
  })
})

test('estimates that agree better than chance: no between-variance, and the scale held at 1 when asked', () => {
  const alike = [0.1, 0.2, 0.3].map((value) => ({ value, variance: 1 }))
  const plain = pooled(alike)
  // Q = 0.02, below 2. Scale 0.01, standard error √(0.01/3) = 0.057735; with the scale held at 1, √(1/3).
  expect(plain.tauSquared).toBe(0)
  expect(plain.iSquared).toBe(0)
  expect(plain.mean).toBeCloseTo(0.2, 12)
  expect(plain.standardError).toBeCloseTo(0.057735, 6)
  expect(pooled(alike, { neverNarrower: true }).standardError).toBeCloseTo(Math.sqrt(1 / 3), 12)
})

test.each([
  [[]],
  [[{ value: 1, variance: 1 }]],
  [
    [
      { value: 1, variance: 0 },
      { value: 2, variance: 1 },
    ],
  ],
  [
    [
      { value: Number.NaN, variance: 1 },
      { value: 2, variance: 1 },
    ],
  ],
  [
    [
      { value: 1, variance: Infinity },
      { value: 2, variance: Infinity },
    ],
  ],
])('no mean from %j', (estimates) => {
  expect(randomEffects(estimates)).toBeNull()
})
