import { describe, expect, it } from 'vitest'
import { chooseCusum } from '../../src/measure/cusum-choice.js'
import { poissonCusum } from '../../src/measure/poisson-cusum.js'
import { exactRate, oneSidedUpperBound } from '../../src/measure/poisson-rate.js'
import type { PartCatch } from '../../src/measure/usual-catch.js'
import { clumpingAboutUsual, limitsOfUsual, usualCatch } from '../../src/measure/usual-catch.js'
import { clumpedCount, mulberry32 } from './invented-series.js'

const part = (name: string, count: number, effort: number): PartCatch => ({ part: name, count, effort })
const usualOf = (readings: readonly (readonly PartCatch[])[]) => {
  const usual = usualCatch(readings)
  if (!usual) throw new Error('there is effort')
  return usual
}

describe('usual catch', () => {
  // Kitchen 9 in 30, store none in 60; half an animal over all 90.
  const usual = usualOf([
    [part('kitchen', 5, 20), part('store', 0, 20)],
    [part('kitchen', 4, 10)],
    [part('store', 0, 40)],
    [part('kitchen', 7, 0)],
  ])

  it('counts what was caught with effort', () => {
    expect(usual).toMatchObject({ count: 9, effort: 90, readings: 3 })
  })

  it('is each part by its own rate, and half an animal spread over all effort', () => {
    // (9/30 + 0.5/90) × 10 = 3.0556; (0 + 0.5/90) × 10 = 0.0556.
    expect(usual.of([part('kitchen', 99, 10)])).toBeCloseTo(3 + 5 / 90, 12)
    expect(usual.of([part('store', 99, 10)])).toBeCloseTo(5 / 90, 12)
    expect(usual.of([part('kitchen', 0, 10), part('store', 0, 10)])).toBeCloseTo(3 + 10 / 90, 12)
    // All that was read before: what was caught, and the half animal.
    expect(usual.of([part('kitchen', 0, 30), part('store', 0, 60)])).toBeCloseTo(9.5, 12)
  })

  it('leaves out parts that were never read, and those without effort', () => {
    expect(usual.of([part('attic', 3, 10), part('kitchen', 1, 0)])).toBe(0)
  })

  it('is not known without effort, or of what is no count', () => {
    expect(usualCatch([])).toBeNull()
    expect(usualCatch([[part('kitchen', 3, 0)]])).toBeNull()
    expect(usualCatch([[part('kitchen', 2.5, 10)]])).toBeNull()
    expect(usualCatch([[part('kitchen', -1, 10)]])).toBeNull()
  })
})

describe('its limits', () => {
  it.each([0, 1, 20, 400])('are those of Garwood for %i without clumping', (count) => {
    const usual = usualOf([[part('kitchen', count, 100)]])
    const limits = limitsOfUsual(usual, [count + 0.5], 0)
    const exact = exactRate(count, 1)
    expect((limits?.low ?? -1) * (count + 0.5)).toBeCloseTo(exact?.lower ?? Number.NaN, 8)
    expect((limits?.high ?? -1) * (count + 0.5)).toBeCloseTo(exact?.upper ?? Number.NaN, 8)
    expect((limits?.guarded ?? -1) * (count + 0.5)).toBeCloseTo(
      oneSidedUpperBound(count, 1, 0.8) ?? Number.NaN,
      8,
    )
  })

  it('are those of so many fewer animals where catches clump', () => {
    // Ten readings of 4 expected and clumping 0.5: 1 + 0.5 × (10 × 16)/40 = 3. 39 caught are worth 13.
    const usual = usualOf([[part('kitchen', 39, 100)]])
    const limits = limitsOfUsual(
      usual,
      Array.from({ length: 10 }, () => 4),
      0.5,
    )
    const exact = exactRate(13, 1)
    expect((limits?.low ?? -1) * 39.5).toBeCloseTo(3 * (exact?.lower ?? Number.NaN), 8)
    expect((limits?.high ?? -1) * 39.5).toBeCloseTo(3 * (exact?.upper ?? Number.NaN), 8)
  })

  it('are not known without an expected catch or with a clumping that is none', () => {
    const usual = usualOf([[part('kitchen', 3, 10)]])
    expect(limitsOfUsual(usual, [], 0)).toBeNull()
    expect(limitsOfUsual(usual, [3], -1)).toBeNull()
    expect(limitsOfUsual(usual, [3], Number.NaN)).toBeNull()
    expect(limitsOfUsual(usual, [3], Infinity)).toBeNull()
  })
})

it('clumping about what is usual is that about the mean, where all parts are read each time', () => {
  // 1, 3, 8 with equal effort: mean 4, but expected 4 + 1/6 each: χ² about the group mean of 4 is (9 + 1 + 16)/4 = 6.5,
  // less 2 degrees of freedom, over Σ(1 − 1/3) · 4 = 8: 4.5/8.
  const readings = [1, 3, 8].map((count) => [part('kitchen', count, 10)])
  const found = clumpingAboutUsual([{ usual: usualOf(readings), readings }])
  expect(found?.perMean).toBeCloseTo(4.5 / 8, 12)
  expect(found?.degreesOfFreedom).toBe(2)
  const one = readings.slice(0, 1)
  expect(clumpingAboutUsual([{ usual: usualOf(one), readings: one }])).toBeNull()
})

describe('a chart set for the guarded usual catch', () => {
  /** Share of flat series that signal, and what the run lengths promise, over the readings after a short baseline. */
  function falseSignals(mean: number, k: number, before: number, guard: boolean) {
    const chance = mulberry32(20_260_701)
    const after = 6
    const series = Array.from({ length: 1500 }, () =>
      Array.from({ length: before + after }, () => [
        part('kitchen', clumpedCount(0.8 * mean, k, chance), 30),
        part('store', clumpedCount(0.2 * mean, k, chance), 30),
      ]),
    )
    const learnt = series.map((readings) => ({
      usual: usualOf(readings.slice(0, before)),
      readings: readings.slice(0, before),
    }))
    const clumping = clumpingAboutUsual(learnt)?.perMean ?? 0
    let signals = 0
    let promised = 0
    for (const [at, readings] of series.entries()) {
      const known = learnt[at]
      if (!known) continue
      const expected = known.readings.map((parts) => known.usual.of(parts))
      const factor = guard ? (limitsOfUsual(known.usual, expected, clumping)?.guarded ?? 0) : 1
      const chosen = chooseCusum({
        mean: (expected[0] ?? 0) * factor,
        factor: 2,
        runLength: 100,
        clumping,
      })
      if (!chosen.chosen) throw new Error(chosen.reason)
      promised += after / chosen.runLength
      const counts = readings.slice(before).map((parts) => parts.reduce((sum, { count }) => sum + count, 0))
      const cusum = poissonCusum(
        counts.map((count) => ({ count, exposure: 1 })),
        chosen,
      )
      if (cusum.estimable && cusum.signals.length > 0) signals += 1
    }
    return { signals, promised }
  }

  it.each([
    [0.3, 1, 12],
    [2, 1, 12],
    [2, 0.5, 12],
    [2, Infinity, 12],
    [2, 1, 6],
  ])('keeps the run length it states: mean %d, k %d, %i readings before', (mean, k, before) => {
    const { signals, promised } = falseSignals(mean, k, before, true)
    expect(signals).toBeLessThan(promised)
  })

  it('which one set for the usual catch as estimated does not', () => {
    const { signals, promised } = falseSignals(2, 0.5, 6, false)
    expect(signals).toBeGreaterThan(1.3 * promised)
  })
})
