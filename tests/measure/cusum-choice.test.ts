import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type ChosenCusum, chooseCusum } from '../../src/measure/cusum-choice.js'
import { averageRunLength } from '../../src/measure/cusum-run-length.js'

function chosen(wish: Parameters<typeof chooseCusum>[0]): ChosenCusum {
  const choice = chooseCusum(wish)
  if (!choice.chosen) throw new Error(choice.reason)
  return choice
}

// tests/reference/stats/poisson_cusum_arl.json (R): mean 2, k 2.9, h 6 runs for 395.5 readings, and for 6.12
// once the mean is 4. k for a doubling of 2 is 2/ln 2 = 2.885, in tenths 2.9.
test('a wish for 395 readings at mean 2 is met by h = 6', () => {
  const choice = chosen({ mean: 2, factor: 2, runLength: 395 })
  expect(choice).toMatchObject({ direction: 'up', k: 2.9, h: 6, mean: 2, clumping: 0 })
  expect(choice.runLength).toBeCloseTo(395.543421598344, 6)
  expect(choice.runLengthOnceChanged).toBeCloseTo(6.12270327335132, 8)
})

test('where one animal in a thousand readings is all there is, the first one signals', () => {
  // 1/P(1 or more) = 1/(1 − e^−0.001) = 1000.5.
  expect(chosen({ mean: 0.001, factor: 2, runLength: 370 })).toMatchObject({ k: 0.1, h: 0.1 })
  expect(chosen({ mean: 0.001, factor: 2, runLength: 370 }).runLength).toBeCloseTo(1000.5, 3)
})

describe('not chosen, and why', () => {
  const wish = { mean: 2, factor: 2, runLength: 370 }
  test.each([
    [{ mean: 0 }, 'mean-out-of-range'],
    [{ mean: Number.NaN }, 'mean-out-of-range'],
    [{ mean: Infinity }, 'mean-out-of-range'],
    [{ factor: 1 }, 'factor-too-close'],
    [{ factor: 0.9 }, 'factor-too-close'],
    [{ factor: 0 }, 'wish-out-of-range'],
    [{ factor: Number.NaN }, 'wish-out-of-range'],
    [{ runLength: 1 }, 'wish-out-of-range'],
    [{ runLength: 1e7 }, 'wish-out-of-range'],
    [{ clumping: -1 }, 'wish-out-of-range'],
    [{ clumping: Infinity }, 'wish-out-of-range'],
    [{ mean: 0.1, factor: 0.5 }, 'mean-too-small'],
    [{ mean: 1000, clumping: 2 }, 'not-reached'],
    [{ mean: 1e6 }, 'one-reading-tells'],
  ])('%o', (change, reason) => {
    expect(chooseCusum({ ...wish, ...change })).toEqual({ chosen: false, reason })
  })
})

const wishes = fc.record({
  mean: fc.double({ min: 0.15, max: 12, noNaN: true }),
  factor: fc.constantFrom(0.4, 0.5, 1.5, 2, 3),
  runLength: fc.constantFrom(50, 100, 370, 1000),
  clumping: fc.constantFrom(0, 0.5),
})

test('the wish is met at the mean that was asked for, and no smaller h of the chart meets it', () => {
  fc.assert(
    fc.property(wishes, (wish) => {
      const choice = chosen(wish)
      const { direction, k, h, clumping } = choice
      expect(direction).toBe(wish.factor > 1 ? 'up' : 'down')
      expect(k > choice.mean).toBe(direction === 'up')
      expect(choice.runLength).toBeGreaterThanOrEqual(wish.runLength)
      expect(choice.runLengthOnceChanged).toBeLessThan(choice.runLength)
      // Rounded to the safe side, by less than one in a hundred.
      expect(Math.abs(choice.mean / wish.mean - 1)).toBeLessThan(0.0101)
      const asked = averageRunLength({ direction, mean: wish.mean, k, h, clumping }) ?? 0
      expect(asked).toBeGreaterThanOrEqual(wish.runLength)
      // The next smaller chart: the same k, one step of the states lower.
      const step = [1, 2, 5, 10].findLast((one) => Math.round(k * 10) % one === 0) ?? 1
      const lower = Math.round(h * 10 - step) / 10
      if (lower > 0) {
        const shorter = averageRunLength({ direction, mean: choice.mean, k, h: lower, clumping }) ?? Infinity
        expect(shorter).toBeLessThan(wish.runLength)
      }
    }),
    { numRuns: 60 },
  )
})

test('asked again, also after many other wishes, the answer is the same', () => {
  const wish = { mean: 0.731, factor: 2, runLength: 200 }
  const first = chosen(wish)
  for (let i = 0; i < 5200; i += 1) chooseCusum({ mean: 2, factor: 2, runLength: 2 + i / 100 })
  expect(chooseCusum(wish)).toEqual(first)
})

test('clumped catches need a larger h for the same wish', () => {
  const wish = { mean: 3, factor: 2, runLength: 370 }
  expect(chosen({ ...wish, clumping: 2 }).h).toBeGreaterThan(chosen(wish).h)
})
