import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { kendallScore, mannKendall } from '../../src/measure/mann-kendall.js'
import { type SeasonalValue, seasonalMannKendall } from '../../src/measure/seasonal-mann-kendall.js'
import { expectAgrees, type ReferenceNumber, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { year: number[]; season: number[]; value: number[] },
  {
    per_season: { season: number; n: number; S: number; varS: number }[]
    S: number
    varS: number
    z: number | null
    p: number | null
    homogeneity: { chi2: number | null; df: number | null; p: number | null }
    sen_slope_per_year: number | null
    n_slopes: number
    sen_ci95?: { lower_outward: ReferenceNumber; upper_outward: ReferenceNumber }
  }
>('seasonal_mann_kendall')

describe('seasonalMannKendall agrees with R', () => {
  test.each(reference.cases)('$id', ({ input, expected }) => {
    const values = input.year.map((year, i) => ({
      year,
      season: input.season[i] ?? Number.NaN,
      value: input.value[i] ?? Number.NaN,
    }))
    const answer = seasonalMannKendall(values)
    for (const one of expected.per_season) {
      const series = values.filter(({ season }) => season === one.season)
      const score = kendallScore(series.map(({ year, value }) => ({ time: year, value })))
      expect(score.readings).toBe(one.n)
      expectAgrees(score.s, one.S, reference, `S of ${one.season}`)
      expectAgrees(score.varianceOfS, one.varS, reference, `variance of ${one.season}`)
    }
    expectAgrees(answer.slope?.slope ?? null, expected.sen_slope_per_year, reference, 'slope')
    expect(answer.slope?.slopes ?? 0).toBe(expected.n_slopes)
    const { lower_outward = null, upper_outward = null } = expected.sen_ci95 ?? {}
    expectAgrees(answer.slope?.lower ?? null, lower_outward, reference, 'lower')
    expectAgrees(answer.slope?.upper ?? null, upper_outward, reference, 'upper')
    if (!answer.estimable) {
      expect(expected).toMatchObject({ z: null, p: null, S: 0, varS: 0, homogeneity: { chi2: null } })
      return
    }
    expect(answer.seasons.map(({ season, readings }) => [season, readings])).toEqual(
      expected.per_season.map(({ season, n }) => [season, n]),
    )
    expectAgrees(answer.s, expected.S, reference, 'S')
    expectAgrees(answer.varianceOfS, expected.varS, reference, 'variance')
    expectAgrees(answer.z, expected.z, reference, 'z')
    expectAgrees(answer.p, expected.p, reference, 'p')
    expectAgrees(answer.homogeneity?.chiSquare ?? null, expected.homogeneity.chi2, reference, 'chi-square')
    expectAgrees(answer.homogeneity?.degreesOfFreedom ?? null, expected.homogeneity.df, reference, 'df')
    expectAgrees(answer.homogeneity?.p ?? null, expected.homogeneity.p, reference, 'homogeneity p')
  })
})

describe('nothing to test', () => {
  const none = { slopes: 1, lower: null, upper: null, slope: 0 }
  test.each<[string, SeasonalValue[], string, unknown]>([
    ['nothing', [], 'too-few-years', null],
    ['one year', [1, 2, 3].map((season) => ({ year: 2020, season, value: season })), 'too-few-years', null],
    ['none caught', [2020, 2021].map((year) => ({ year, season: 1, value: 0 })), 'all-equal', none],
    ['a value that is none', [{ year: 2020, season: 1, value: Number.NaN }], 'not-a-number', null],
    ['a season that is none', [{ year: 2020, season: Infinity, value: 1 }], 'not-a-number', null],
  ])('%s', (_, values, reason, slope) => {
    expect(seasonalMannKendall(values)).toEqual({ estimable: false, reason, slope })
  })
})

// A season three times as high in May as in November, and no trend at all over three years: a half year of it
// would rise, but no month differs from itself.
test('a season is no trend', () => {
  const values = [2020, 2021, 2022].flatMap((year) => [
    { year, season: 5, value: 9 + (year === 2021 ? 1 : 0) },
    { year, season: 11, value: 3 + (year === 2021 ? 1 : 0) },
  ])
  // 9, 10, 9: one pair up, one down, one tie.
  expect(seasonalMannKendall(values)).toMatchObject({ estimable: true, s: 0, z: 0, p: 1 })
})

const seasonal = fc.array(
  fc.record({
    year: fc.integer({ min: 2010, max: 2017 }),
    season: fc.integer({ min: 1, max: 4 }),
    value: fc.integer({ min: 0, max: 8 }),
  }),
  { maxLength: 30 },
)

test('order and the first year change nothing, nor does a level of its own for each season', () => {
  fc.assert(
    fc.property(seasonal, fc.integer({ min: -100, max: 100 }), (values, shift) => {
      const answer = seasonalMannKendall(values)
      expect(seasonalMannKendall(values.toReversed())).toEqual(answer)
      expect(seasonalMannKendall(values.map((one) => ({ ...one, year: one.year + shift })))).toEqual(answer)
      const levelled = values.map((one) => ({ ...one, value: one.value + 100 * one.season }))
      expect(seasonalMannKendall(levelled)).toEqual(answer)
    }),
  )
})

test('with one season it is the plain test by years', () => {
  fc.assert(
    fc.property(seasonal, (values) => {
      const answer = seasonalMannKendall(values.map((one) => ({ ...one, season: 1 })))
      const plain = mannKendall(values.map(({ year, value }) => ({ time: year, value })))
      expect(answer.estimable).toBe(plain.estimable)
      if (!answer.estimable || !plain.estimable) return
      expect(answer).toMatchObject({ s: plain.s, z: plain.z, p: plain.p, homogeneity: null })
    }),
  )
})
