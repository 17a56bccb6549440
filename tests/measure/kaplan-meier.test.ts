import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type FollowedTime, kaplanMeier } from '../../src/measure/kaplan-meier.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { time: number[]; event: number[] },
  {
    n: number
    events: number
    table: {
      time: number
      at_risk: number
      events: number
      surv: number
      se: number | null
      lower: number | null
      upper: number | null
    }[]
    median: number | null
    median_lower: number | null
    median_upper: number | null
  }
>('kaplan_meier')

describe('kaplanMeier agrees with R survfit', () => {
  test.each(reference.cases)('$id', (one) => {
    const { time, event } = one.input
    const curve = kaplanMeier(time.map((at, i) => ({ time: at, mended: event[i] === 1 })))
    if (curve === null) throw new Error('a curve was expected')
    expect([curve.followed, curve.mended]).toEqual([one.expected.n, one.expected.events])
    expect(curve.steps.map((step) => [step.time, step.atRisk, step.mended])).toEqual(
      one.expected.table.map((row) => [row.time, row.at_risk, row.events]),
    )
    one.expected.table.forEach((row, i) => {
      const step = curve.steps[i]
      expectAgrees(step?.stillOpen, row.surv, reference, `curve ${row.time}`)
      expectAgrees(step?.standardError, row.se, reference, `standard error ${row.time}`)
      expectAgrees(step?.lower, row.lower, reference, `lower ${row.time}`)
      expectAgrees(step?.upper, row.upper, reference, `upper ${row.time}`)
    })
    expectAgrees(curve.median, one.expected.median, reference, 'median')
    expectAgrees(curve.medianLower, one.expected.median_lower, reference, 'median lower')
    expectAgrees(curve.medianUpper, one.expected.median_upper, reference, 'median upper')
    expectPublished(one, { median: curve.median, 'table.0.surv': curve.steps[0]?.stillOpen ?? null })
  })
})

const after = (time: number) => ({ time, mended: true })
const openAt = (time: number) => ({ time, mended: false })

test('nothing followed is an empty curve', () => {
  expect(kaplanMeier([])).toEqual({
    followed: 0,
    mended: 0,
    steps: [],
    median: null,
    medianLower: null,
    medianUpper: null,
  })
})

test.each([
  ['a negative time', [after(-1)]],
  ['a time that is none', [after(Number.NaN)]],
  ['a time without end', [openAt(Infinity)]],
])('%s is null', (_, followed) => {
  expect(kaplanMeier(followed)).toBeNull()
})

test('a confidence of 1 is null', () => expect(kaplanMeier([after(1)], 1)).toBeNull())

// Five conditions: mended after 2, 4 and 9 days, open when last seen after 4 and 6 days. At 2: 4/5; at 4 four
// were at risk (the one last seen on day 4 among them): 4/5 · 3/4 = 3/5; at 9 one was at risk: 0.
test('worked by hand', () => {
  const curve = kaplanMeier([after(9), openAt(4), after(2), openAt(6), after(4)])
  expect(curve?.steps.map((step) => [step.time, step.atRisk, step.mended])).toEqual([
    [2, 5, 1],
    [4, 4, 1],
    [9, 1, 1],
  ])
  expect(curve?.steps[0]?.stillOpen).toBeCloseTo(0.8, 12)
  expect(curve?.steps[1]?.stillOpen).toBeCloseTo(0.6, 12)
  expect(curve?.steps[2]).toMatchObject({ stillOpen: 0, standardError: null, lower: null, upper: null })
  // Greenwood at 2 days: 0.8 · √(1/(5 · 4)) = 0.8 · √0.05 = 0.178885.
  expect(curve?.steps[0]?.standardError).toBeCloseTo(0.178885, 6)
  expect(curve?.median).toBe(9)
})

// Two mended on days 3 and 7, two open for longer: from day 7 the curve stays at one half to the end.
test('one half to the end: the median is where the half begins', () => {
  expect(kaplanMeier([after(3), after(7), openAt(10), openAt(12)])?.median).toBe(7)
})

const anyone: fc.Arbitrary<FollowedTime> = fc.record({
  time: fc.integer({ min: 0, max: 60 }),
  mended: fc.boolean(),
})

test('order changes nothing, a longer day stretches the median, and nothing is ever not a number', () => {
  fc.assert(
    fc.property(fc.array(anyone, { maxLength: 40 }), (followed) => {
      const curve = kaplanMeier(followed)
      expect(kaplanMeier(followed.toReversed())).toEqual(curve)
      const hours = kaplanMeier(followed.map((one) => ({ ...one, time: one.time * 24 })))
      expect(hours?.median).toBe(curve?.median == null ? null : curve.median * 24)
      const figures = [curve?.median, curve?.medianLower, curve?.medianUpper].concat(
        curve?.steps.flatMap((step) => [step.stillOpen, step.standardError, step.lower, step.upper]) ?? [],
      )
      expect(figures.every((figure) => figure === null || Number.isFinite(figure))).toBe(true)
      let before = 1
      for (const step of curve?.steps ?? []) {
        expect(step.stillOpen).toBeLessThan(before)
        if (step.lower !== null) expect(step.lower).toBeLessThan(step.stillOpen)
        if (step.upper !== null) expect(step.upper).toBeGreaterThan(step.stillOpen)
        before = step.stillOpen
      }
    }),
  )
})

test('when all were mended the curve is the plain share still open', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 40 }), (times) => {
      for (const step of kaplanMeier(times.map(after))?.steps ?? []) {
        const open = times.filter((time) => time > step.time).length / times.length
        expect(step.stillOpen).toBeCloseTo(open, 12)
      }
    }),
  )
})
