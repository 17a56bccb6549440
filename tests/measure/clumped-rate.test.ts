import { describe, expect, it } from 'vitest'
import { rateWithClumping } from '../../src/measure/clumped-rate.js'
import { clumpingAbout } from '../../src/measure/effective-counts.js'
import { exactRate } from '../../src/measure/poisson-rate.js'
import { negativeBinomial, seededRandom } from '../../src/measure/seeded-random.js'

const reading = (count: number, effort = 10) => ({ count, effort })

describe('a rate that allows for clumping', () => {
  it('is the exact one of the count divided by its dispersion, from the printed table', () => {
    // Ten readings of 2 animals in 10 trap-nights, clumping 0.5: mean 2, so the dispersion is 1 + 0.5 · 2 = 2, and with
    // so many degrees of freedom t is z. 20 animals are worth 10, whose limits Garwood (1936) prints as 4.795 and 18.390.
    const readings = Array.from({ length: 10 }, () => reading(2))
    const found = rateWithClumping(readings, { perMean: 0.5, degreesOfFreedom: 1e9 })
    expect(found?.rate).toBeCloseTo(0.2, 12)
    expect(found?.lower).toBeCloseTo((4.795 * 2) / 100, 4)
    expect(found?.upper).toBeCloseTo((18.39 * 2) / 100, 4)
  })

  it('is the exact one without clumping to go by, without a catch, and without clumping', () => {
    expect(rateWithClumping([reading(7)], null)).toEqual(exactRate(7, 10))
    expect(rateWithClumping([reading(0), reading(0)], { perMean: 3, degreesOfFreedom: 5 })).toEqual(
      exactRate(0, 20),
    )
    const none = rateWithClumping([reading(7), reading(3)], { perMean: 0, degreesOfFreedom: 1e9 })
    expect(none?.lower).toBeCloseTo(exactRate(10, 20)?.lower ?? Number.NaN, 5)
    expect(none?.upper).toBeCloseTo(exactRate(10, 20)?.upper ?? Number.NaN, 5)
  })

  it('is none without effort, or of what is no count', () => {
    const clumping = { perMean: 1, degreesOfFreedom: 5 }
    expect(rateWithClumping([], clumping)).toBeNull()
    expect(rateWithClumping([reading(3, 0)], clumping)).toBeNull()
    expect(rateWithClumping([reading(1.5)], clumping)).toBeNull()
    expect(rateWithClumping([reading(Number.NaN)], clumping)).toBeNull()
    expect(
      rateWithClumping([reading(1_000_000)], { perMean: 1e300, degreesOfFreedom: 5 })?.rate ?? null,
    ).toBe(null)
  })

  it('holds the truth of clumped catches, where the exact one does not', () => {
    // 400 series of twelve readings, mean 5, k 1 (variance 5 + 25): each with clumping of its own.
    const random = seededRandom(20_261_130)
    const mean = 5
    let [held, heldExact] = [0, 0]
    for (let n = 0; n < 400; n++) {
      const readings = Array.from({ length: 12 }, () => reading(negativeBinomial(random, mean, 1), 1))
      const found = rateWithClumping(readings, clumpingAbout([readings]))
      const exact = exactRate(
        readings.reduce((sum, { count }) => sum + count, 0),
        12,
      )
      if (found && found.lower <= mean && mean <= found.upper) held++
      if (exact && exact.lower <= mean && mean <= exact.upper) heldExact++
    }
    // Standard error at 95 %: 1.1 points.
    expect(held / 400).toBeGreaterThan(0.92)
    expect(heldExact / 400).toBeLessThan(0.75)
  })
})
