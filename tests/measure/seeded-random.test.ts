import { describe, expect, it } from 'vitest'
import type { Random } from '../../src/measure/seeded-random.js'
import {
  gamma,
  negativeBinomial,
  poisson,
  seededRandom,
  wholeBetween,
} from '../../src/measure/seeded-random.js'

const draws = 40_000

function moments(draw: (random: Random) => number, seed: number): { mean: number; variance: number } {
  const random = seededRandom(seed)
  let sum = 0
  let squares = 0
  for (let count = 0; count < draws; count++) {
    const value = draw(random)
    sum += value
    squares += value * value
  }
  const mean = sum / draws
  return { mean, variance: squares / draws - mean * mean }
}

/** Five standard errors of a mean of so many draws. */
const slack = (variance: number) => 5 * Math.sqrt(variance / draws)

describe('seededRandom', () => {
  it('gives the same numbers from the same seed and others from another', () => {
    const five = (seed: number) => Array.from({ length: 5 }, seededRandom(seed).next)
    expect(five(7)).toEqual(five(7))
    expect(five(7)).not.toEqual(five(8))
  })

  it('stays strictly between 0 and 1, with the moments of a uniform', () => {
    const random = seededRandom(3)
    for (let count = 0; count < 1000; count++) {
      const value = random.next()
      expect(value > 0 && value < 1).toBe(true)
    }
    const { mean, variance } = moments((stream) => stream.next(), 3)
    expect(Math.abs(mean - 1 / 2)).toBeLessThan(slack(1 / 12))
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(0.002)
  })

  it('forks streams that depend on the label alone, not on how much was drawn before', () => {
    const used = seededRandom(5)
    used.next()
    expect(used.fork('a').next()).toBe(seededRandom(5).fork('a').next())
    expect(used.fork('a').next()).not.toBe(used.fork('b').next())
  })

  it('reaches both ends of a range of whole numbers', () => {
    const random = seededRandom(1)
    const seen = new Set(Array.from({ length: 200 }, () => wholeBetween(random, -2, 2)))
    expect([...seen].sort((a, b) => a - b)).toEqual([-2, -1, 0, 1, 2])
  })
})

describe('distributions', () => {
  it.each([
    [0.3, 1],
    [2, 0.5],
    [40, 3],
  ])('gamma of shape %d and scale %d has mean shape × scale, variance shape × scale²', (shape, scale) => {
    const { mean, variance } = moments((random) => gamma(random, shape, scale), 11)
    const expected = shape * scale * scale
    expect(Math.abs(mean - shape * scale)).toBeLessThan(slack(expected))
    // The fourth central moment of a gamma is 3·shape·(shape + 2)·scale⁴.
    const ofVariance = 3 * shape * (shape + 2) * scale ** 4 - expected ** 2
    expect(Math.abs(variance - expected)).toBeLessThan(slack(ofVariance))
  })

  it.each([0.02, 0.7, 9, 15.9, 16.1, 250])('Poisson of mean %d has its mean as variance', (mean) => {
    const found = moments((random) => poisson(random, mean), 12)
    expect(Math.abs(found.mean - mean)).toBeLessThan(slack(mean))
    // The fourth central moment of a Poisson is mean + 3·mean².
    expect(Math.abs(found.variance - mean)).toBeLessThan(slack(mean + 2 * mean * mean))
  })

  it('Poisson gives zero as often as exp(−mean)', () => {
    const { mean } = moments((random) => (poisson(random, 1.3) === 0 ? 1 : 0), 13)
    expect(Math.abs(mean - Math.exp(-1.3))).toBeLessThan(slack(0.25))
  })

  it.each([
    [0.05, 0.3],
    [1.5, 0.5],
    [8, 1.2],
    [60, 2],
  ])('negative binomial of mean %d and k %d has variance mean + mean²/k', (mean, k) => {
    const found = moments((random) => negativeBinomial(random, mean, k), 14)
    const variance = mean + (mean * mean) / k
    expect(Math.abs(found.mean - mean)).toBeLessThan(slack(variance))
    // Heavy tails: the sample variance is held to a tenth, many times its error for these k.
    expect(Math.abs(found.variance / variance - 1)).toBeLessThan(0.1)
  })

  it('negative binomial gives zero as often as (1 + mean/k)^−k', () => {
    const [mean, k] = [2, 0.5]
    const found = moments((random) => (negativeBinomial(random, mean, k) === 0 ? 1 : 0), 15)
    expect(Math.abs(found.mean - (1 + mean / k) ** -k)).toBeLessThan(slack(0.25))
  })

  it('nothing is drawn from a mean of zero', () => {
    expect(poisson(seededRandom(1), 0)).toBe(0)
    expect(negativeBinomial(seededRandom(1), 0, 1)).toBe(0)
  })
})
