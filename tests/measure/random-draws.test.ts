import { describe, expect, test } from 'vitest'
import { binomialOfMany, multinomialInto, shuffle } from '../../src/measure/random-draws.js'
import { seededRandom } from '../../src/measure/seeded-random.js'
import { binomialProbability, gammaTails } from '../../src/measure/special-functions.js'

const DRAWS = 40_000

/** Pearson's χ² p value of 400,000 draws against the binomial, cells joined until each expects at least 10. */
function goodnessOfFit(trials: number, chance: number, seed: number): number {
  const draws = 10 * DRAWS
  const random = seededRandom(seed)
  const seen = new Array<number>(trials + 1).fill(0)
  for (let i = 0; i < draws; i += 1) {
    const drawn = binomialOfMany(random, trials, chance)
    seen[drawn] = (seen[drawn] ?? 0) + 1
  }
  let [chiSquare, cells, expected, found] = [0, 0, 0, 0]
  const cell = () => {
    chiSquare += (found - expected) ** 2 / expected
    cells += 1
    expected = 0
    found = 0
  }
  let left = draws
  for (let value = 0; value <= trials; value += 1) {
    const share = draws * binomialProbability(value, trials, chance, 1 - chance)
    expected += share
    left -= share
    found += seen[value] ?? 0
    if (expected >= 10 && left >= 10) cell()
  }
  cell()
  return gammaTails((cells - 1) / 2, chiSquare / 2).upper
}

describe('binomialOfMany', () => {
  test.each([
    [5, 0.3],
    [40, 0.02],
    [900, 0.01],
    [30, 0.4],
    [100, 0.5],
    [100, 0.93],
    [2000, 0.2],
    [60_000, 0.0005],
  ])('%d trials of chance %d come as often as the binomial says', (trials, chance) => {
    expect(goodnessOfFit(trials, chance, 4711)).toBeGreaterThan(0.0001)
  })

  test('no trial, no chance and certainty are not left to chance', () => {
    const random = seededRandom(1)
    expect(binomialOfMany(random, 0, 0.5)).toBe(0)
    expect(binomialOfMany(random, 9, 0)).toBe(0)
    expect(binomialOfMany(random, 9, Number.NaN)).toBe(0)
    expect(binomialOfMany(random, 9, 1)).toBe(9)
  })

  test('a million trials have the mean and variance of the binomial', () => {
    const random = seededRandom(2)
    let [sum, squares] = [0, 0]
    for (let i = 0; i < DRAWS; i += 1) {
      const away = binomialOfMany(random, 1_000_000, 0.3) - 300_000
      sum += away
      squares += away * away
    }
    // Variance 1,000,000 · 0.3 · 0.7 = 210,000; five standard errors of the mean and of the variance.
    expect(Math.abs(sum / DRAWS)).toBeLessThan(5 * Math.sqrt(210_000 / DRAWS))
    expect(Math.abs(squares / DRAWS / 210_000 - 1)).toBeLessThan(5 * Math.sqrt(2 / DRAWS))
  })
})

test('multinomialInto deals out the whole total, each place its share', () => {
  const random = seededRandom(3)
  const weights = [1, 0, 2, 5]
  const sums = [0, 0, 0, 0]
  const counts = new Float64Array(4)
  for (let i = 0; i < DRAWS; i += 1) {
    multinomialInto(random, 8, weights, counts)
    expect(counts.reduce((sum, one) => sum + one, 0)).toBe(8)
    counts.forEach((count, at) => {
      sums[at] = (sums[at] ?? 0) + count
    })
  }
  expect(sums[1]).toBe(0)
  // Means 1, 2 and 5 of 8; variance 8·p·(1 − p) is at most 2.
  for (const [at, mean] of [
    [0, 1],
    [2, 2],
    [3, 5],
  ] as const) {
    expect(Math.abs((sums[at] ?? 0) / DRAWS - mean)).toBeLessThan(5 * Math.sqrt(2 / DRAWS))
  }
})

test('shuffle brings up each of the six orders of three equally often', () => {
  const random = seededRandom(5)
  const seen = new Map<string, number>()
  for (let i = 0; i < DRAWS; i += 1) {
    const order = Int32Array.of(0, 1, 2)
    shuffle(random, order)
    seen.set(order.join(), (seen.get(order.join()) ?? 0) + 1)
  }
  expect(seen.size).toBe(6)
  const chiSquare = [...seen.values()].reduce((sum, one) => sum + (one - DRAWS / 6) ** 2 / (DRAWS / 6), 0)
  // 20.52 is the printed upper 0.1 % point of χ² with 5 degrees of freedom.
  expect(chiSquare).toBeLessThan(20.52)
})

test('seededRandom is sfc32 seeded by splitmix32, worked out anew in whole numbers without bit limits', () => {
  const word = (value: bigint) => BigInt.asUintN(32, value)
  let state = 77n
  const spread = () => {
    state = word(state + 0x9e3779b9n)
    let mixed = word((state ^ (state >> 16n)) * 0x85ebca6bn)
    mixed = word((mixed ^ (mixed >> 13n)) * 0xc2b2ae35n)
    return mixed ^ (mixed >> 16n)
  }
  let [a, b, c, counter] = [spread(), spread(), spread(), 1n]
  const next = () => {
    const sum = word(a + b + counter)
    counter = word(counter + 1n)
    a = b ^ (b >> 9n)
    b = word(c + (c << 3n))
    c = word(word((c << 21n) | (c >> 11n)) + sum)
    return (Number(sum) + 0.5) / 4_294_967_296
  }
  for (let i = 0; i < 12; i += 1) next()
  const random = seededRandom(77)
  for (let i = 0; i < 1000; i += 1) expect(random.next()).toBe(next())
})
