import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { uChart } from '../../src/measure/u-chart.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

interface Limits {
  ucl: number[]
  lcl: number[]
  out_index0: number[]
}

const reference = referenceKind<
  { exposure: number[]; count: number[] },
  {
    centre: number
    u: number[]
    plain: Limits
    laney: null | (Limits & { mean_moving_range: number; sigma_z: number; sigma_z_exact_d2: number })
  }
>('u_chart')

describe('uChart agrees with R', () => {
  test.each(reference.cases)('$id', (one) => {
    const { input, expected } = one
    const chart = uChart(input.count.map((count, i) => ({ count, exposure: input.exposure[i] ?? 0 })))
    if (!chart.estimable) throw new Error('a chart was expected')
    expectAgrees(chart.centre, expected.centre, reference, 'centre')
    expect(chart.points.map((point) => point.reading)).toEqual(expected.u.map((_, i) => i))
    expected.u.forEach((rate, i) => {
      expectAgrees(chart.points[i]?.rate, rate, reference, `rate ${i}`)
    })
    const { laney } = chart
    expect(laney === null).toBe(expected.laney === null)
    for (const [points, limits] of [
      [chart.points, expected.plain],
      [laney?.points, expected.laney],
    ] as const) {
      if (points === undefined || limits === null) continue
      limits.ucl.forEach((limit, i) => {
        expectAgrees(points[i]?.upper, limit, reference, `upper ${i}`)
      })
      limits.lcl.forEach((limit, i) => {
        expectAgrees(points[i]?.lower, limit, reference, `lower ${i}`)
      })
      expect(points.flatMap((point) => (point.out ? [point.reading] : []))).toEqual(limits.out_index0)
    }
    if (laney !== null && expected.laney !== null) {
      expectAgrees(laney.sigma, expected.laney.sigma_z, reference, 'sigma')
      expectAgrees(laney.sigma * 1.128, expected.laney.mean_moving_range, reference, 'moving range')
    }
    expectPublished(one, {
      centre: chart.centre,
      'plain.ucl.0': chart.points[0]?.upper ?? null,
      'plain.lcl.0': chart.points[0]?.lower ?? null,
    })
  })
})

// 12 caught in 3 readings of 1: centre 4, limits 4 ± 3 · 2. z: 0, 2, −2; ranges 2 and 4, mean 3; 3/1.128.
test('worked by hand', () => {
  const chart = uChart([4, 8, 0].map((count) => ({ count, exposure: 1 })))
  if (!chart.estimable) throw new Error('a chart was expected')
  expect(chart.points[1]).toEqual({ reading: 1, rate: 8, lower: 0, upper: 10, out: false })
  expect(chart.laney?.sigma).toBeCloseTo(3 / 1.128, 12)
})

test('a reading without effort is no point and no neighbour, and the others keep their places', () => {
  const chart = uChart([
    { count: 4, exposure: 1 },
    { count: 0, exposure: 0 },
    { count: 8, exposure: 1 },
    { count: 0, exposure: 1 },
  ])
  if (!chart.estimable) throw new Error('a chart was expected')
  expect(chart.points.map((point) => point.reading)).toEqual([0, 2, 3])
  expect(chart.laney?.sigma).toBeCloseTo(3 / 1.128, 12)
})

describe('no chart', () => {
  test.each([
    ['nothing', [], 'no-effort'],
    ['no effort', [{ count: 1, exposure: 0 }], 'no-effort'],
    ['effort without end', [{ count: 1, exposure: Infinity }], 'no-effort'],
    [
      'a rate beyond a double',
      [
        { count: 1, exposure: 1e-320 },
        { count: 1, exposure: 1 },
      ],
      'out-of-range',
    ],
    ['half an animal', [{ count: 0.5, exposure: 1 }], 'not-a-count'],
    ['a count that is none', [{ count: Number.NaN, exposure: 1 }], 'not-a-count'],
  ])('%s', (_, readings, reason) => {
    expect(uChart(readings)).toEqual({ estimable: false, reason })
  })
})

test('another unit of effort changes the scale and nothing else', () => {
  const readings = fc.array(
    fc.record({ count: fc.nat({ max: 1_000_000 }), exposure: fc.integer({ min: 1, max: 500 }) }),
    { minLength: 1, maxLength: 30 },
  )
  fc.assert(
    fc.property(readings, (series) => {
      const one = uChart(series)
      const other = uChart(series.map(({ count, exposure }) => ({ count, exposure: exposure * 4 })))
      if (!one.estimable || !other.estimable) throw new Error('charts were expected')
      expect(other.centre * 4).toBe(one.centre)
      expect(other.laney?.sigma).toBe(one.laney?.sigma)
      expect(other.points.map((point) => point.out)).toEqual(one.points.map((point) => point.out))
      for (const { rate, lower, upper } of one.points) {
        expect([rate, lower, upper].every((figure) => Number.isFinite(figure) && figure >= 0)).toBe(true)
      }
    }),
  )
})
