import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { beforeAfter } from '../../src/measure/before-after.js'
import { changeVerdict } from '../../src/measure/change-verdict.js'
import type { CatchReading } from '../../src/measure/effective-counts.js'
import { notFinite } from './not-finite.js'

const each = (...counts: number[]): CatchReading[] => counts.map((count) => ({ count, effort: 1 }))
const unclumped = { perMean: 0, degreesOfFreedom: 1e9 }

describe('beforeAfter', () => {
  test('by hand: none after, with clumping pooled from elsewhere', () => {
    const result = beforeAfter(
      [
        { count: 12, effort: 10 },
        { count: 8, effort: 10 },
      ],
      [{ count: 0, effort: 40 }],
      { clumping: { perMean: 0.1, degreesOfFreedom: 1e9 } },
    )
    if (!result.estimable) throw new Error(result.reason)
    // Means 10 and 10 before: Σμ²/Σμ = 10, dispersion 1 + 0.1 · 10 = 2, so 20 animals count as 10.
    expect(result.dispersion).toBeCloseTo(2, 12)
    expect(result.ratio).toBe(0)
    expect(result.lower).toBe(0)
    // None against 10: share 1 − 0.025^(1/10) = 0.308497, odds 0.446125; efforts 20 and 40 halve it.
    expect(result.upper).toBeCloseTo(0.446125 / 2, 5)
    // All ten before, where a third of the effort was: p = 2 · (1/3)^10; t is not quite z.
    expect(result.p / (2 * 3 ** -10)).toBeCloseTo(1, 4)
    expect(result.before).toEqual({ count: 20, effort: 20, readings: 2 })
    expect(result.after).toEqual({ count: 0, effort: 40, readings: 1 })
  })

  test('by hand: the ratio of rates, clumping judged by the readings themselves', () => {
    const result = beforeAfter(each(0, 8), [
      { count: 1, effort: 1 },
      { count: 1, effort: 1 },
      { count: 9, effort: 0 },
    ])
    if (!result.estimable) throw new Error(result.reason)
    // 2 in 2 after, 8 in 2 before; dispersion 5.8 as worked in effective-counts.test.ts.
    expect(result.ratio).toBe(0.25)
    expect(result.dispersion).toBeCloseTo(5.8, 12)
    expect(result.degreesOfFreedom).toBe(2)
    expect(result.lower).toBeLessThan(0.25)
    expect(result.upper ?? Infinity).toBeGreaterThan(1)
  })

  test('some after none has no factor, and no upper limit', () => {
    const result = beforeAfter(each(0, 0), each(4, 5), { clumping: unclumped })
    if (!result.estimable) throw new Error(result.reason)
    expect(result.ratio).toBeNull()
    expect(result.upper).toBeNull()
    // Nine against none: lower share 0.025^(1/9) = 0.663733, odds 1.973922.
    expect(result.lower).toBeCloseTo(1.9739, 3)
    expect(changeVerdict(result)).toEqual({ word: 'rose', reason: 'interval-above-no-change' })
  })

  test.each([
    ['not-a-count', each(1.5), each(1, 2)],
    ['not-a-count', each(1), each(-1)],
    ['not-a-count', each(Number.NaN), each(1)],
    ['no-readings-before', [], each(1, 2)],
    ['no-readings-after', each(1, 2), []],
    ['no-effort-before', [{ count: 1, effort: 0 }], each(1, 2)],
    ['no-effort-after', each(1, 2), [{ count: 1, effort: Number.NaN }]],
    ['none-caught', each(0, 0), each(0, 0)],
    ['too-few-readings', each(7), each(2)],
    ['out-of-range', [{ count: 3, effort: 1e-300 }], [...each(1, 1), { count: 2, effort: 1e300 }]],
  ] as const)('%s', (reason, before, after) => {
    const result = beforeAfter(before, after)
    expect(result).toEqual({ estimable: false, reason })
    expect(changeVerdict(result)).toEqual({ word: 'cannot tell', reason })
  })

  test.each([0, 1, -0.5, Number.NaN, 0.999999])('confidence %s is out of range', (confidence) => {
    expect(beforeAfter(each(1, 2), each(2, 1), { confidence })).toEqual({
      estimable: false,
      reason: 'out-of-range',
    })
  })

  test('a clumping that is none is out of range', () => {
    for (const clumping of [
      { perMean: Number.NaN, degreesOfFreedom: 3 },
      { perMean: -1, degreesOfFreedom: 3 },
      { perMean: 1, degreesOfFreedom: 0 },
    ]) {
      expect(beforeAfter(each(1, 2), each(2, 1), { clumping }).estimable).toBe(false)
    }
  })

  test('one reading a side is enough with a pooled clumping', () => {
    expect(beforeAfter(each(7), each(2), { clumping: { perMean: 0.2, degreesOfFreedom: 8 } }).estimable).toBe(
      true,
    )
  })

  test('counts of a million are judged like others', () => {
    const result = beforeAfter(each(1_000_000, 1_000_400), each(500_000, 500_300))
    if (!result.estimable) throw new Error(result.reason)
    // By hand: (500,000 + 500,300) / (1,000,000 + 1,000,400).
    expect(result.ratio).toBeCloseTo(1_000_300 / 2_000_400, 12)
    expect(changeVerdict(result).word).toBe('fell')
  })
})

const readings = fc.array(
  fc.record({
    count: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.constantFrom(0, 1_000_000)),
    effort: fc.constantFrom(0, 0.5, 1, 7, 30, 2000),
  }),
  { maxLength: 6 },
)

test('no answer holds a number that is none, and the interval holds the ratio', () => {
  fc.assert(
    fc.property(readings, readings, (before, after) => {
      const result = beforeAfter(before, after)
      expect(notFinite(result)).toEqual([])
      if (!result.estimable) return
      expect(result.lower).toBeLessThanOrEqual(result.ratio ?? Infinity)
      if (result.upper !== null && result.ratio !== null)
        expect(result.upper).toBeGreaterThanOrEqual(result.ratio)
      const apart = result.lower > 1 || (result.upper !== null && result.upper < 1)
      if (Math.abs(result.p - 0.05) > 1e-9) expect(apart).toBe(result.p < 0.05)
    }),
  )
})

test('turned round in time, the limits are the reciprocals', () => {
  fc.assert(
    fc.property(readings, readings, (before, after) => {
      const one = beforeAfter(before, after)
      const other = beforeAfter(after, before)
      fc.pre(one.estimable && other.estimable)
      if (!one.estimable || !other.estimable) return
      if (one.upper !== null) expect(one.upper * other.lower).toBeCloseTo(1, 8)
      expect(one.p).toBeCloseTo(other.p, 12)
    }),
  )
})

describe('changeVerdict', () => {
  const change = (lower: number, upper: number | null, p = 0.01) =>
    ({ estimable: true, lower, upper, p }) as const

  test.each([
    ['fell', 'interval-below-no-change', change(0.1, 0.99)],
    ['rose', 'interval-above-no-change', change(1.01, null)],
    ['about the same', 'interval-tight-around-no-change', change(0.8, 1.25, 0.9)],
    ['cannot tell', 'interval-includes-no-change', change(0.79, 1.25, 0.9)],
    ['cannot tell', 'interval-includes-no-change', change(0.8, 1.26, 0.9)],
    ['cannot tell', 'interval-includes-no-change', change(0.9, null, 0.9)],
    ['cannot tell', 'interval-includes-no-change', change(0, 1, 0.05)],
    ['fell', 'interval-below-no-change', change(0.9, 0.95, 0.05)],
  ] as const)('%s: %s', (word, reason, one) => {
    expect(changeVerdict(one)).toEqual({ word, reason })
  })

  test('an adjusted p above 0.05 takes the change back, and leaves sameness where it is shown', () => {
    expect(changeVerdict(change(0.1, 0.7), 0.051)).toEqual({
      word: 'cannot tell',
      reason: 'not-significant-among-all',
    })
    expect(changeVerdict(change(0.1, 0.7), 0.05).word).toBe('fell')
    expect(changeVerdict(change(0.1, 0.7), null).word).toBe('cannot tell')
    expect(changeVerdict(change(0.9, 0.99), 0.2).word).toBe('about the same')
  })
})
