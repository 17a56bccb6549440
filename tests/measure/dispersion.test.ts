import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dispersion } from '../../src/measure/dispersion.js'
import { exactRate } from '../../src/measure/poisson-rate.js'
import { expectAgrees, expectPublished, type ReferenceNumber, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { count: number[]; exposure?: number[] },
  {
    n: number
    mean: number
    variance: number | null
    vmr: number | null
    chi2: number | null
    df: number
    p_over: number | null
    p_under: number | null
    dispersion_index?: number
    morisita?: number | null
    negbin_k_ml?: ReferenceNumber
    negbin_k_moment?: ReferenceNumber
  }
>('dispersion')

/** k as R gives it: infinite for counts that do not clump. */
function k(clumping: number | null): number | null {
  if (clumping === null) return null
  return clumping === 0 ? Infinity : 1 / clumping
}

describe('dispersion agrees with R', () => {
  test.each(reference.cases)('$id', (one) => {
    const { expected } = one
    const answer = dispersion(one.input.count, one.input.exposure)
    if (!answer.estimable) throw new Error('an answer was expected')
    expect([answer.readings, answer.degreesOfFreedom]).toEqual([expected.n, expected.df])
    expectAgrees(answer.mean, expected.mean, reference, 'mean')
    expectAgrees(answer.variance, expected.variance, reference, 'variance')
    expectAgrees(answer.varianceMeanRatio, expected.vmr, reference, 'variance / mean')
    expectAgrees(answer.chiSquare, expected.chi2, reference, 'chi-square')
    expectAgrees(answer.pOver, expected.p_over, reference, 'p over')
    expectAgrees(answer.pUnder, expected.p_under, reference, 'p under')
    expectAgrees(answer.dispersionIndex, expected.dispersion_index ?? null, reference, 'index')
    expectAgrees(answer.morisita, expected.morisita ?? null, reference, 'Morisita')
    // The reference says of a k above 1e4 that it is good to 1e-6.
    const large = typeof expected.negbin_k_ml === 'number' && expected.negbin_k_ml > 1e4
    const within = large ? { ...reference, relative_tolerance: 1e-6 } : reference
    expectAgrees(k(answer.clumpingByLikelihood), expected.negbin_k_ml ?? null, within, 'k by likelihood')
    expectAgrees(k(answer.clumpingByMoments), expected.negbin_k_moment ?? null, reference, 'k by moments')
    expectPublished(one, {
      mean: answer.mean,
      variance: answer.variance,
      negbin_k_ml: k(answer.clumpingByLikelihood),
    })
  })
})

interface Group {
  group: string
  n: number
  mean: number
  variance: number
  vmr: number
  rate_ci95: { lower: number; upper: number }
}

const sprays = referenceKind<{ analysis: string; group: string[]; count: number[] }, { groups: Group[] }>(
  'open_data',
)

// Beall G (1942) The transformation of data from entomological field experiments, Biometrika 32:243–262.
test('insects left after six sprays', () => {
  const summary = sprays.cases.find(({ input }) => input.analysis === 'group_summary')
  if (summary === undefined) throw new Error('the case is missing')
  expect(summary.expected.groups).toHaveLength(6)
  for (const one of summary.expected.groups) {
    const counts = summary.input.count.filter((_, i) => summary.input.group[i] === one.group)
    const answer = dispersion(counts)
    if (!answer.estimable) throw new Error('an answer was expected')
    expectAgrees(answer.mean, one.mean, sprays, `mean ${one.group}`)
    expectAgrees(answer.variance, one.variance, sprays, `variance ${one.group}`)
    expectAgrees(answer.varianceMeanRatio, one.vmr, sprays, `ratio ${one.group}`)
    const total = counts.reduce((sum, count) => sum + count, 0)
    const rate = exactRate(total, counts.length)
    expectAgrees(rate?.lower, one.rate_ci95.lower, sprays, `lower ${one.group}`)
    expectAgrees(rate?.upper, one.rate_ci95.upper, sprays, `upper ${one.group}`)
  }
})

// Counts 0, 0, 6: mean 2, variance (4 + 4 + 16)/2 = 12, ratio 6, χ² = 24/2 = 12. Morisita 3 · 30/(6 · 5) = 3.
// By moments (12 − 2)/4 = 2.5. With 2 degrees of freedom p = e^(−12/2).
test('worked by hand', () => {
  const answer = dispersion([0, 0, 6])
  expect(answer).toMatchObject({ mean: 2, variance: 12, varianceMeanRatio: 6, chiSquare: 12, morisita: 3 })
  expect(answer).toMatchObject({ clumpingByMoments: 2.5, degreesOfFreedom: 2, dispersionIndex: 6 })
  expect(answer.estimable && answer.pOver).toBeCloseTo(Math.exp(-6), 12)
})

test('counts without effort are left out', () => {
  expect(dispersion([0, 99, 0, 6], [1, 0, 1, 1])).toEqual(dispersion([0, 0, 6]))
})

describe('no answer', () => {
  test.each([
    ['no counts', [], undefined, 'no-effort'],
    ['no effort', [3, 4], [0, Number.NaN], 'no-effort'],
    ['half an animal', [0.5, 1], undefined, 'not-a-count'],
    ['a count that is none', [Number.NaN], undefined, 'not-a-count'],
    ['lists of different length', [1, 2], [1], 'unequal-lists'],
  ])('%s', (_, counts, exposures, reason) => {
    expect(dispersion(counts, exposures)).toEqual({ estimable: false, reason })
  })
})

test('counts of a million', () => {
  const answer = dispersion([1_000_000, 1_100_000, 900_000, 1_000_000])
  if (!answer.estimable) throw new Error('an answer was expected')
  // Variance 2 · 1e10/3; by moments (6.667e9 − 1e6)/1e12 = 0.006665667.
  expect(answer.clumpingByMoments).toBeCloseTo(0.006665667, 9)
  // By likelihood the divisor of the variance is nearly n instead of n − 1: three quarters of it.
  expect((answer.clumpingByLikelihood ?? 0) / (answer.clumpingByMoments ?? 1)).toBeCloseTo(0.75, 2)
})

const counts = fc.array(fc.nat({ max: 200 }), { minLength: 2, maxLength: 30 })

test('order changes nothing but rounding, nor does another unit of effort', () => {
  fc.assert(
    fc.property(counts, (series) => {
      const answer = dispersion(series)
      const mixed = dispersion(series.toReversed())
      const scaled = dispersion(
        series,
        series.map(() => 8),
      )
      expect(scaled).toEqual(answer)
      if (!answer.estimable || !mixed.estimable) throw new Error('answers were expected')
      expect(mixed.chiSquare ?? 0).toBeCloseTo(answer.chiSquare ?? 0, 6)
      for (const figure of Object.values(answer)) {
        if (typeof figure === 'number') expect(Number.isFinite(figure)).toBe(true)
      }
      if (answer.pOver !== null && answer.pUnder !== null) {
        expect(answer.pOver + answer.pUnder).toBeCloseTo(1, 12)
      }
    }),
  )
})

/** Log-likelihood of the negative binomial at the mean, from products. */
function logLikelihood(series: readonly number[], mean: number, clumping: number): number {
  return series.reduce((sum, count) => {
    let term = -Math.log1p(clumping * mean) / clumping
    for (let j = 0; j < count; j += 1) {
      term += Math.log((1 + j * clumping) * mean) - Math.log((1 + clumping * mean) * (j + 1))
    }
    return sum + term
  }, 0)
}

test('no clumping nearby is likelier than the one found', () => {
  fc.assert(
    fc.property(counts, (series) => {
      const answer = dispersion(series)
      const found = answer.estimable ? answer.clumpingByLikelihood : null
      fc.pre(answer.estimable && found !== null && found > 1e-4)
      if (!answer.estimable || found === null) return
      const best = logLikelihood(series, answer.mean, found)
      for (const factor of [0.5, 0.99, 1.01, 2]) {
        expect(logLikelihood(series, answer.mean, found * factor)).toBeLessThanOrEqual(best + 1e-9)
      }
    }),
  )
})
