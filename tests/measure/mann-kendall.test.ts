import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { kendallScore, mannKendall, type TimedValue } from '../../src/measure/mann-kendall.js'
import { expectAgrees, expectPublished, type ReferenceCase, referenceKind } from './stats-reference.js'

interface Input {
  time: number[]
  value: number[]
}

interface Expected {
  S: number
  varS: number
  z: number | null
  p: number | null
  tau_b: number | null
  p_exact?: number
}

const reference = referenceKind<Input, Expected>('mann_kendall_sen')
const openData = referenceKind<Input & { analysis: string }, Expected>('open_data')

function seriesOf({ time, value }: Input): TimedValue[] {
  return time.map((one, i) => ({ time: one, value: value[i] ?? Number.NaN }))
}

function expectLikeR(one: ReferenceCase<Input, Expected>, tolerance: typeof reference) {
  const series = seriesOf(one.input)
  const score = kendallScore(series)
  const answer = mannKendall(series)
  const tested = answer.estimable ? answer : { z: null, p: null, tauB: null, pExact: null }
  expectAgrees(score.s, one.expected.S, tolerance, 'S')
  expectAgrees(score.varianceOfS, one.expected.varS, tolerance, 'variance')
  expectAgrees(tested.z, one.expected.z, tolerance, 'z')
  expectAgrees(tested.p, one.expected.p, tolerance, 'p')
  expectAgrees(tested.tauB, one.expected.tau_b, tolerance, 'tau-b')
  if (one.expected.p_exact !== undefined) {
    expectAgrees(tested.pExact, one.expected.p_exact, tolerance, 'exact p')
  } else if (series.length > 2) {
    expect(tested.pExact).toBeNull()
  }
  expectPublished(one, { S: score.s, p_exact: tested.pExact, tau_b: tested.tauB })
}

describe('mannKendall agrees with R cor.test', () => {
  test.each(reference.cases)('$id', (one) => expectLikeR(one, reference))
})

// Annual Canadian lynx trappings: Campbell MJ, Walker AM (1977) J. R. Statist. Soc. A 140:411–431.
test('lynx trapped from 1821 to 1850', () => {
  const lynx = openData.cases.filter(({ input }) => input.analysis === 'mann_kendall_sen')
  expect(lynx).toHaveLength(1)
  for (const one of lynx) expectLikeR(one, openData)
})

describe('nothing to test', () => {
  const at = (...pairs: [number, number][]) => pairs.map(([time, value]) => ({ time, value }))
  test.each([
    ['no reading', [], 'too-few-readings'],
    ['one reading', at([5, 2]), 'too-few-readings'],
    ['all on one day', at([5, 2], [5, 9], [5, 4]), 'one-time'],
    ['none caught', at([1, 0], [2, 0], [3, 0]), 'all-equal'],
    ['a value that is none', at([1, 0], [2, Number.NaN]), 'not-a-number'],
    ['a time that is none', at([1, 0], [Infinity, 1]), 'not-a-number'],
  ])('%s', (_, series, reason) => {
    expect(mannKendall(series)).toEqual({ estimable: false, reason })
  })
})

// Five readings without ties: 5! = 120 orders, of which S = 10 and S = −10 have one each: p = 2/120. The
// variance is 5 · 4 · 15/18 = 50/3, so z = 9/√(50/3) = 2.2045.
test('five readings that only rise, worked by hand', () => {
  const answer = mannKendall([3, 1, 0, 2, 4].map((time) => ({ time, value: time ** 2 })))
  if (!answer.estimable) throw new Error('a test was expected')
  expect(answer.s).toBe(10)
  expect(answer.tauB).toBe(1)
  expect(answer.pExact).toBeCloseTo(1 / 60, 12)
  expect(answer.z).toBeCloseTo(2.20454, 5)
})

test('fifty readings have an exact p, fifty-one have not', () => {
  const rising = (n: number) => Array.from({ length: n }, (_, i) => ({ time: i, value: (i * 37) % 101 }))
  const [fifty, more] = [mannKendall(rising(50)), mannKendall(rising(51))]
  if (!fifty.estimable || !more.estimable) throw new Error('tests were expected')
  // With fifty readings the normal approximation is close to it.
  expect(fifty.pExact).not.toBeNull()
  expect(Math.abs((fifty.pExact ?? 0) - fifty.p)).toBeLessThan(0.005)
  expect(more.pExact).toBeNull()
})

const reading = fc.record({ time: fc.integer({ min: 0, max: 30 }), value: fc.integer({ min: 0, max: 9 }) })
const anySeries = fc.array(reading, { maxLength: 25 })

test('order, a later calendar and a larger unit of value change nothing; turned round, the sign turns', () => {
  fc.assert(
    fc.property(anySeries, fc.integer({ min: -20_000, max: 20_000 }), fc.nat(), (series, shift, seed) => {
      const answer = mannKendall(series)
      const mixed = series
        .map((one, i) => ({ one, key: (i * 7919 + seed) % 104_729 }))
        .sort((a, b) => a.key - b.key)
        .map(({ one }) => one)
      expect(mannKendall(mixed)).toEqual(answer)
      expect(mannKendall(series.map((one) => ({ ...one, time: one.time + shift })))).toEqual(answer)
      expect(mannKendall(series.map((one) => ({ ...one, value: one.value * 1024 })))).toEqual(answer)
      const turned = mannKendall(series.map((one) => ({ ...one, time: -one.time })))
      if (answer.estimable && turned.estimable) {
        expect(turned.s + answer.s).toBe(0)
        expect(turned.p).toBe(answer.p)
        expect(answer.varianceOfS).toBeGreaterThan(0)
        expect(Math.abs(answer.tauB)).toBeLessThanOrEqual(1 + 1e-12)
        expect(answer.p > 0 && answer.p <= 1).toBe(true)
      }
    }),
  )
})

test('the exact p is the share of all orders with an S at least as far from zero', () => {
  const orders = (items: number[]): number[][] =>
    items.length < 2
      ? [items]
      : items.flatMap((item, i) => orders(items.toSpliced(i, 1)).map((rest) => [item, ...rest]))
  const all = orders([0, 1, 2, 3, 4, 5]).map((values) => values.map((value, time) => ({ time, value })))
  const scores = all.map((series) => kendallScore(series).s)
  for (const series of all.slice(0, 60)) {
    const answer = mannKendall(series)
    if (!answer.estimable) throw new Error('a test was expected')
    const asFar = scores.filter((s) => Math.abs(s) >= Math.abs(answer.s)).length
    expect(answer.pExact).toBeCloseTo(asFar / scores.length, 12)
  }
})
