import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { theilSen } from '../../src/measure/theil-sen.js'
import { expectAgrees, type ReferenceCase, type ReferenceNumber, referenceKind } from './stats-reference.js'

interface Input {
  time: number[]
  value: number[]
}

interface Limits {
  lower_outward: ReferenceNumber
  upper_outward: ReferenceNumber
}

interface Expected {
  sen: { n_slopes: number; slope: number | null; intercept: number | null; ci95?: Limits; ci90?: Limits }
}

const reference = referenceKind<Input, Expected>('mann_kendall_sen')
const openData = referenceKind<Input & { analysis: string }, Expected>('open_data')

function expectLikeR(
  { input, expected: { sen } }: ReferenceCase<Input, Expected>,
  tolerance: typeof reference,
) {
  const series = input.time.map((time, i) => ({ time, value: input.value[i] ?? Number.NaN }))
  for (const [confidence, limits] of [
    [0.95, sen.ci95],
    [0.9, sen.ci90],
  ] as const) {
    const answer = theilSen(series, confidence)
    const line = answer.estimable
      ? answer
      : { slope: null, intercept: null, slopes: 0, lower: null, upper: null }
    expect(line.slopes).toBe(sen.n_slopes)
    expectAgrees(line.slope, sen.slope, tolerance, 'slope')
    expectAgrees(line.intercept, sen.intercept, tolerance, 'intercept')
    expectAgrees(line.lower, limits?.lower_outward ?? null, tolerance, 'lower')
    expectAgrees(line.upper, limits?.upper_outward ?? null, tolerance, 'upper')
  }
}

describe('theilSen agrees with R, ranks rounded outwards', () => {
  test.each(reference.cases)('$id', (one) => expectLikeR(one, reference))
})

// Annual Canadian lynx trappings: Campbell MJ, Walker AM (1977) J. R. Statist. Soc. A 140:411–431.
test('lynx trapped from 1821 to 1850', () => {
  const lynx = openData.cases.filter(({ input }) => input.analysis === 'mann_kendall_sen')
  expect(lynx).toHaveLength(1)
  for (const one of lynx) expectLikeR(one, openData)
})

describe('no line', () => {
  const at = (...pairs: [number, number][]) => pairs.map(([time, value]) => ({ time, value }))
  test.each([
    ['no reading', [], 'too-few-readings'],
    ['one reading', at([5, 2]), 'too-few-readings'],
    ['all on one day', at([5, 2], [5, 9], [5, 4]), 'one-time'],
    ['a value that is none', at([1, 0], [2, Number.NaN]), 'not-a-number'],
    ['a slope beyond a double', at([0, -1e308], [1, 1e308]), 'out-of-range'],
  ])('%s', (_, series, reason) => {
    expect(theilSen(series)).toEqual({ estimable: false, reason })
  })

  test.each([0, 1, Number.NaN])('a confidence of %s', (confidence) => {
    expect(theilSen(at([0, 1], [1, 2]), confidence)).toEqual({ estimable: false, reason: 'out-of-range' })
  })
})

// Slopes of (0, 0), (1, 2), (3, 3): 2/1, 3/3, 1/2; their median is 1. Medians 2 and 1: 2 − 1 · 1 = 1.
test('three readings at uneven times, worked by hand', () => {
  const series = [
    { time: 3, value: 3 },
    { time: 0, value: 0 },
    { time: 1, value: 2 },
  ]
  expect(theilSen(series)).toEqual({
    estimable: true,
    slope: 1,
    slopes: 3,
    lower: null,
    upper: null,
    intercept: 1,
  })
})

test('none caught is a slope of plain zero, without limits', () => {
  const none = [3, 2, 1].map((time) => ({ time, value: 0 }))
  const answer = theilSen(none)
  expect(answer).toEqual({ estimable: true, slope: 0, slopes: 3, lower: null, upper: null, intercept: 0 })
})

const reading = fc.record({ time: fc.integer({ min: 0, max: 40 }), value: fc.integer({ min: 0, max: 50 }) })

test('the slope stays when time or value is shifted, and scales with both', () => {
  fc.assert(
    fc.property(
      fc.array(reading, { minLength: 2, maxLength: 20 }),
      fc.nat({ max: 20_000 }),
      (series, shift) => {
        const answer = theilSen(series)
        fc.pre(answer.estimable)
        if (!answer.estimable) return
        const later = theilSen(
          series.map(({ time, value }) => ({ time: time + shift, value: value + shift })),
        )
        // Powers of two keep every slope exact.
        const scaled = theilSen(series.map(({ time, value }) => ({ time: time * 4, value: value * 16 })))
        const reversed = theilSen(series.toReversed())
        if (!later.estimable || !scaled.estimable) throw new Error('lines were expected')
        expect(later).toMatchObject({ slope: answer.slope, lower: answer.lower, upper: answer.upper })
        expect(scaled.slope).toBe(answer.slope * 4)
        expect(scaled.lower).toBe(answer.lower === null ? null : answer.lower * 4)
        expect(scaled.intercept).toBeCloseTo(answer.intercept * 16, 8)
        expect(reversed).toEqual(answer)
        if (answer.lower !== null) expect(answer.lower).toBeLessThanOrEqual(answer.slope)
        if (answer.upper !== null) expect(answer.upper).toBeGreaterThanOrEqual(answer.slope)
      },
    ),
  )
})
