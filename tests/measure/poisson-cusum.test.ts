import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type CusumPlan, cusumReference, poissonCusum } from '../../src/measure/poisson-cusum.js'
import { expectAgrees, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { mu0: number; mu1: number; h: number; count: number[]; exposure?: number[]; headstart?: number },
  {
    direction: 'up' | 'down'
    k: number
    path: number[]
    first_signal_index0: number | null
    path_reset_to_zero_after_signal: number[]
    signals_reset_index0: number[]
  }
>('poisson_cusum')

describe('poissonCusum agrees with R', () => {
  test.each(reference.cases)('$id', ({ input, expected }) => {
    const best = cusumReference(input.mu0, input.mu1)
    if (best === null) throw new Error('a reference value was expected')
    expect(best.direction).toBe(expected.direction)
    expectAgrees(best.k, expected.k, reference, 'k')
    const readings = input.count.map((count, i) => ({ count, exposure: input.exposure?.[i] ?? 1 }))
    const plan = { ...best, h: input.h, headStart: input.headstart ?? 0 }
    const onward = poissonCusum(readings, plan)
    const again = poissonCusum(readings, { ...plan, afterSignal: 'start-again' })
    if (!onward.estimable || !again.estimable) throw new Error('sums were expected')
    expect(onward.path).toHaveLength(expected.path.length)
    expected.path.forEach((sum, i) => {
      expectAgrees(onward.path[i], sum, reference, `sum ${i}`)
    })
    expect(onward.signals[0] ?? null).toBe(expected.first_signal_index0)
    expected.path_reset_to_zero_after_signal.forEach((sum, i) => {
      expectAgrees(again.path[i], sum, reference, `sum started again ${i}`)
    })
    expect(again.signals).toEqual(expected.signals_reset_index0)
  })
})

const plan: CusumPlan = { direction: 'up', k: 1.4, h: 4 }
const each = (...counts: number[]) => counts.map((count) => ({ count, exposure: 1 }))

// 2 − 1.4 = 0.6, + 3 − 1.4 = 2.2, + 0 − 1.4 = 0.8, + 4.6 − … : 6 − 1.4 = 5.4 on top.
test('worked by hand', () => {
  const sum = poissonCusum(each(2, 3, 0, 6), plan)
  if (!sum.estimable) throw new Error('a sum was expected')
  expect(sum.path.map((one) => one.toFixed(9))).toEqual([
    '0.600000000',
    '2.200000000',
    '0.800000000',
    '5.400000000',
  ])
  expect(sum.signals).toEqual([3])
})

test('a sum that is h but for rounding has reached it', () => {
  // Ten times 1 − 0.9 is 1, which a double adds up to a little less.
  const sum = poissonCusum(each(...Array<number>(10).fill(1)), { direction: 'up', k: 0.9, h: 1 })
  if (!sum.estimable) throw new Error('a sum was expected')
  expect(sum.path.at(-1)).not.toBe(1)
  expect(sum.signals).toEqual([9])
})

test('a reading without effort leaves the sum where it is, and does not signal again', () => {
  const sum = poissonCusum([...each(6), { count: 0, exposure: 0 }, ...each(1)], plan)
  if (!sum.estimable) throw new Error('a sum was expected')
  expect(sum.path[1]).toBe(sum.path[0])
  expect(sum.signals).toEqual([0, 2])
  const again = poissonCusum([...each(6), { count: 0, exposure: 0 }, ...each(3)], {
    ...plan,
    afterSignal: 'start-again',
  })
  // After the signal, and over the gap, it starts from 0: 3 − 1.4 = 1.6.
  expect(again.estimable && again.path[2]).toBeCloseTo(1.6, 12)
})

describe('no sum', () => {
  test.each([
    ['no reading', [], plan, 'no-effort'],
    ['no effort', [{ count: 3, exposure: 0 }], plan, 'no-effort'],
    ['half an animal', each(0.5), plan, 'not-a-count'],
    ['a count that is none', each(Number.NaN), plan, 'not-a-count'],
    ['h of zero', each(1), { ...plan, h: 0 }, 'plan-out-of-range'],
    ['k of zero', each(1), { ...plan, k: 0 }, 'plan-out-of-range'],
    ['a head start at h', each(1), { ...plan, headStart: 4 }, 'plan-out-of-range'],
    [
      'a sum without end',
      [{ count: 0, exposure: 1e308 }],
      { ...plan, direction: 'down', k: 1e10 },
      'plan-out-of-range',
    ],
  ] as const)('%s', (_, readings, badPlan, reason) => {
    expect(poissonCusum(readings, badPlan)).toEqual({ estimable: false, reason })
  })

  test.each([
    [0, 1],
    [1, 0],
    [1, 1],
    [Number.NaN, 1],
    [1, Infinity],
  ])('no reference value for %s and %s', (inControl, outOfControl) => {
    expect(cusumReference(inControl, outOfControl)).toBeNull()
  })
})

test('counts of a million', () => {
  const best = cusumReference(1_000_000, 1_000_001)
  // The two rates are so close that k lies in the middle between them.
  expect(best?.k).toBeCloseTo(1_000_000.5, 5)
})

const readings = fc.array(
  fc.record({ count: fc.nat({ max: 20 }), exposure: fc.integer({ min: 1, max: 8 }) }),
  { minLength: 1, maxLength: 30 },
)

test('another unit of exposure changes nothing', () => {
  fc.assert(
    fc.property(readings, fc.constantFrom<'up' | 'down'>('up', 'down'), (series, direction) => {
      const one = poissonCusum(series, { direction, k: 1.5, h: 5 })
      const eighths = series.map(({ count, exposure }) => ({ count, exposure: exposure * 8 }))
      expect(poissonCusum(eighths, { direction, k: 1.5 / 8, h: 5 })).toEqual(one)
    }),
  )
})

test('the sum is the largest excess over any last stretch of readings', () => {
  fc.assert(
    fc.property(readings, (series) => {
      const sum = poissonCusum(series, { direction: 'up', k: 1.5, h: 5 })
      let largest = 0
      let excess = 0
      for (const { count, exposure } of series.toReversed()) {
        excess += count - 1.5 * exposure
        largest = Math.max(largest, excess)
      }
      expect(sum.estimable && sum.path.at(-1)).toBeCloseTo(largest, 9)
    }),
  )
})

test('k lies between the two rates, the same whichever is first', () => {
  const rates = fc.double({ min: 1e-6, max: 1e6, noNaN: true })
  fc.assert(
    fc.property(rates, rates, (one, other) => {
      fc.pre(Math.abs(one / other - 1) > 1e-6)
      const k = cusumReference(one, other)?.k ?? 0
      expect(k).toBeGreaterThan(Math.min(one, other))
      expect(k).toBeLessThan(Math.max(one, other))
      expect((cusumReference(other, one)?.k ?? 0) / k).toBeCloseTo(1, 9)
    }),
  )
})
