import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { changeVerdict } from '../../src/measure/change-verdict.js'
import { type ChangeEvent, pooledEffect } from '../../src/measure/pooled-effect.js'
import { notFinite } from './not-finite.js'

/** One event with one reading a side, of equal effort. */
const event = (before: number, after: number): ChangeEvent => ({
  before: [{ count: before, effort: 1 }],
  after: [{ count: after, effort: 1 }],
})
const unclumped = { perMean: 0, degreesOfFreedom: 1e9 }

function pooled(events: readonly ChangeEvent[]) {
  const result = pooledEffect(events, { clumping: unclumped })
  if (!result.estimable) throw new Error(result.reason)
  return result
}

describe('pooledEffect by hand', () => {
  test('events that differ: the wider interval is that of their differences', () => {
    const result = pooled([event(200, 40), event(190, 50), event(180, 60)])
    // All of 240 animals, so weighed alike. Terms after 20, 25, 30, before 100, 95, 90: means 25 and 95, variances
    // of the means 25/3, covariance −25/3. |25 − 95R| = t·√(25/3)·(1 + R), t with 2 df 4.302653: 12.42069(1 + R).
    expect(result.ratio).toBeCloseTo(25 / 95, 12)
    expect(result.lower).toBeCloseTo((25 - 12.42069) / (95 + 12.42069), 6)
    expect(result.upper).toBeCloseTo((25 + 12.42069) / (95 - 12.42069), 6)
    // Differences −80, −70, −60: t² = 70²/(100/3) = 147; with 2 df p = 1 − √(t²/(t² + 2)).
    expect(result.p).toBeCloseTo(1 - Math.sqrt(147 / 149), 10)
    expect(changeVerdict(result).word).toBe('fell')
    // Wilson, 3 of 3: lower limit n/(n + z²) = 3/6.841459.
    expect(result.fell?.events).toBe(3)
    expect(result.fell?.lower).toBeCloseTo(0.438503, 6)
    expect(result.fell?.upper).toBe(1)
  })

  test('events that all halve: what is left is the chance in small counts', () => {
    const result = pooled([event(4, 2), event(8, 4), event(2, 1)])
    expect(result.ratio).toBeCloseTo(0.5, 12)
    // 7 after, 14 before: Clopper & Pearson for 7 of 21, printed 0.1459 and 0.5697 (R binom.test).
    expect(result.lower).toBeCloseTo(0.1459 / (1 - 0.1459), 3)
    expect(result.upper ?? 0).toBeCloseTo(0.5697 / (1 - 0.5697), 3)
    expect(result.between?.mean).toBeCloseTo(Math.log(0.5), 12)
    expect(result.between?.tauSquared).toBe(0)
  })

  test('efforts are weighed as Mantel and Haenszel do, events by the root of their animals', () => {
    const result = pooled([
      { before: [{ count: 6, effort: 2 }], after: [{ count: 3, effort: 1 }] },
      { before: [{ count: 5, effort: 1 }], after: [{ count: 4, effort: 3 }] },
      event(2, 2),
    ])
    // After 3·2/3, 4·1/4, 2/2, before 6·1/3, 5·3/4, 2/2, of 9, 9 and 4 animals: over 3, 3 and 2.
    expect(result.ratio).toBeCloseTo((2 / 3 + 1 / 3 + 1 / 2) / (2 / 3 + 3.75 / 3 + 1 / 2), 12)
    // The first and the last stayed as they were.
    expect(result.fell?.events).toBe(1)
  })

  test('none after any event: a ratio of 0 with an upper limit above it', () => {
    const result = pooled([event(3, 0), event(4, 0), event(3, 0)])
    expect(result.ratio).toBe(0)
    expect(result.lower).toBe(0)
    // None against ten: odds of 1 − 0.025^(1/10), as in before-after.test.ts.
    expect(result.upper).toBeCloseTo(0.446125, 5)
    expect(result.between).toBeNull()
  })

  test('none before any event: no ratio and no upper limit', () => {
    const result = pooled([event(0, 3), event(0, 4), event(0, 3)])
    expect(result.ratio).toBeNull()
    expect(result.upper).toBeNull()
    expect(result.lower).toBeCloseTo(1 / 0.446125, 4)
  })
})

describe('pooledEffect makes no claim', () => {
  test('from fewer than three events with animals, and tells the others apart', () => {
    const silent = event(0, 0)
    const idle = { before: [{ count: 1, effort: 0 }], after: [{ count: 1, effort: 1 }] }
    const result = pooledEffect([event(5, 1), event(4, 0), silent, silent, idle])
    expect(result).toMatchObject({
      estimable: false,
      reason: 'too-few-events',
      events: 2,
      noneCaught: 2,
      withoutEffort: 1,
      fell: { events: 2, proportion: 1 },
    })
    expect(changeVerdict(result)).toEqual({ word: 'cannot tell', reason: 'too-few-events' })
    expect(pooledEffect([event(5, 1), event(4, 0)], { fewestEvents: 2, clumping: unclumped }).estimable).toBe(
      true,
    )
    expect(pooledEffect([event(5, 1)], { fewestEvents: 1, clumping: unclumped })).toMatchObject({
      reason: 'too-few-events',
    })
  })

  test('from nothing', () => {
    expect(pooledEffect([])).toEqual({
      estimable: false,
      reason: 'too-few-events',
      events: 0,
      noneCaught: 0,
      withoutEffort: 0,
      fell: null,
    })
  })

  test('from one reading a side without a clumping, from what is no count, at no confidence', () => {
    const three = [event(5, 1), event(4, 0), event(3, 3)]
    expect(pooledEffect(three)).toMatchObject({ estimable: false, reason: 'too-few-readings' })
    expect(pooledEffect([...three, event(0.5, 1)])).toMatchObject({ estimable: false, reason: 'not-a-count' })
    expect(pooledEffect(three, { confidence: 1, clumping: unclumped })).toMatchObject({
      reason: 'out-of-range',
    })
  })
})

test('no answer holds a number that is none; events in another order give the same', () => {
  const readings = fc.array(
    fc.record({
      count: fc.oneof(fc.integer({ min: 0, max: 30 }), fc.constantFrom(0, 1_000_000)),
      effort: fc.constantFrom(0, 0.5, 1, 30, 2000),
    }),
    { maxLength: 4 },
  )
  fc.assert(
    fc.property(fc.array(fc.record({ before: readings, after: readings }), { maxLength: 7 }), (events) => {
      const result = pooledEffect(events)
      expect(notFinite(result)).toEqual([])
      if (!result.estimable) return
      const turned = pooledEffect([...events].reverse())
      if (!turned.estimable) throw new Error(turned.reason)
      expect(turned.lower).toBeCloseTo(result.lower, 9)
      expect(result.lower).toBeLessThanOrEqual((result.ratio ?? Infinity) * (1 + 1e-9))
      if (result.upper !== null) expect(result.upper).toBeGreaterThanOrEqual((result.ratio ?? 0) * (1 - 1e-9))
    }),
  )
})
