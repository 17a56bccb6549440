import { describe, expect, test } from 'vitest'
import type { CountTrend } from '../../src/measure/count-trend.js'
import { verdictOf, verdictSettings } from '../../src/measure/verdict.js'

function trend(lower: number, upper: number, days = 12): CountTrend {
  return {
    estimable: true,
    perMonth: Math.sqrt(lower * upper),
    lower,
    upper,
    p: 0.01,
    dispersion: 1,
    clumping: 0,
    persistence: 0,
    degreesOfFreedom: days - 2,
  }
}

describe('verdictOf', () => {
  test.each([
    ['rising', 'interval-above-no-change', trend(1.05, 1.9), 0.03],
    ['rising', 'interval-above-no-change', trend(1.05, 1.9), 0.05],
    ['rising', 'interval-above-no-change', trend(1.01, 1.08), 0.03],
    ['falling', 'interval-below-no-change', trend(0.5, 0.95), 0.03],
    ['steady', 'interval-tight-around-no-change', trend(0.95, 1.05), 0.9],
    ['steady', 'interval-tight-around-no-change', trend(1 / 1.1, 1.1), 0.9],
    ['steady', 'interval-tight-around-no-change', trend(1.01, 1.08), 0.2],
    ['unclear', 'interval-too-wide', trend(0.95, 1.11), 0.9],
    ['unclear', 'interval-too-wide', trend(0.9, 1.05), 0.9],
    ['unclear', 'interval-too-wide', trend(0.4, 2.9), 0.9],
    ['unclear', 'not-significant-among-all-series', trend(1.05, 1.9), 0.0501],
    ['unclear', 'not-significant-among-all-series', trend(0.5, 0.95), 0.2],
    ['unclear', 'not-significant-among-all-series', trend(1.05, 1.9), null],
    // The interval has the last word: a small p whose interval holds 1 claims nothing.
    ['unclear', 'interval-too-wide', trend(0.99, 1.9), 0.01],
  ] as const)('%s (%s)', (verdict, reason, one, adjustedP) => {
    expect(verdictOf(one, adjustedP, 12)).toEqual({ verdict, reason })
  })

  test('four days read are too few, by either count', () => {
    expect(verdictOf(trend(1.5, 2, 4), 0.001, 4).reason).toBe('too-few-readings')
    expect(verdictOf(trend(1.5, 2, 4), 0.001, 40)).toEqual({ verdict: 'unclear', reason: 'too-few-readings' })
    expect(verdictOf(trend(1.5, 2, 12), 0.001, 4).verdict).toBe('unclear')
    expect(verdictOf(trend(1.5, 2, 5), 0.001, 5).verdict).toBe('rising')
  })

  test('no trend: unclear, with its reason', () => {
    const none: CountTrend = { estimable: false, reason: 'none-caught' }
    expect(verdictOf(none, null, 12)).toEqual({ verdict: 'unclear', reason: 'none-caught' })
  })

  test('settings move each boundary', () => {
    expect(verdictOf(trend(0.9, 1.2), 0.9, 12, { ...verdictSettings, steadyWithin: 1.25 }).verdict).toBe(
      'steady',
    )
    expect(verdictOf(trend(1.1, 1.2), 0.04, 12, { ...verdictSettings, significance: 0.01 }).verdict).toBe(
      'unclear',
    )
    expect(verdictOf(trend(1.1, 1.2), 0.01, 12, { ...verdictSettings, fewestReadings: 13 }).verdict).toBe(
      'unclear',
    )
  })
})
