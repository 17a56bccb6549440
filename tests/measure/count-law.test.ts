import fc from 'fast-check'
import { expect, test } from 'vitest'
import { countLaw } from '../../src/measure/count-law.js'

const mean = fc.double({ min: 0.01, max: 40, noNaN: true })
const clumping = fc.constantFrom(0, 0.1, 0.5, 1, 2, 10)

test('tails are the sums of the probabilities, and mean and variance are what they should be', () => {
  fc.assert(
    fc.property(mean, clumping, (m, c) => {
      const law = countLaw(m, c)
      let [sum, first, second] = [0, 0, 0]
      const variance = m + c * m * m
      const enough = Math.ceil(m + 60 * Math.sqrt(variance) + 60 * c * m + 60)
      for (let count = 0; count <= enough; count += 1) {
        expect(law.atLeast(count)).toBeCloseTo(1 - sum, 9)
        const chance = law.probability(count)
        sum += chance
        first += count * chance
        second += count * count * chance
        expect(law.atMost(count)).toBeCloseTo(sum, 9)
      }
      expect(first / m).toBeCloseTo(1, 8)
      expect((second - first * first) / variance).toBeCloseTo(1, 6)
    }),
    { numRuns: 40 },
  )
})

test('below zero there is nothing', () => {
  for (const law of [countLaw(3), countLaw(3, 1)]) {
    expect([law.probability(-1), law.atMost(-1), law.atLeast(-1), law.atLeast(0)]).toEqual([0, 0, 1, 1])
  }
})

// Negative binomial with k = 1 is geometric: mean 3 gives 1/4 · (3/4)^count.
test('clumping of 1 is the geometric law', () => {
  const law = countLaw(3, 1)
  for (const count of [0, 1, 2, 10]) {
    expect(law.probability(count)).toBeCloseTo(0.25 * 0.75 ** count, 14)
    expect(law.atLeast(count)).toBeCloseTo(0.75 ** count, 14)
  }
})
