import { describe, expect, it } from 'vitest'
import { countLaw } from '../../src/measure/count-law.js'
import { exposureNeededToNotice } from '../../src/measure/exposure-to-notice.js'
import { exposureNeededToRuleOut } from '../../src/measure/poisson-rate.js'

describe('the exposure needed to notice a rate', () => {
  it('is that of the rule of three where catches do not clump', () => {
    // −ln 0.05 = 2.995732 (Hanley & Lippman-Hand 1983): 29.957 trap-nights at one in ten.
    expect(exposureNeededToNotice(0.1)).toBeCloseTo(29.95732, 4)
    expect(exposureNeededToNotice(0.1)).toBe(exposureNeededToRuleOut(0.1))
  })

  it.each([
    // c = 1: P(0) = 1/(1 + μ) = 0.05 at μ = 19.
    [1, 19],
    // c = 1/2: P(0) = (1 + μ/2)^−2 = 0.05 at μ = 2·(√20 − 1) = 6.944272.
    [0.5, 6.944272],
    // c = 2: P(0) = (1 + 2μ)^−½ = 0.05 at μ = (400 − 1)/2 = 199.5.
    [2, 199.5],
  ])('grows with clumping: %f', (clumping, mean) => {
    expect(exposureNeededToNotice(1, clumping)).toBeCloseTo(mean, 5)
    expect(exposureNeededToNotice(0.25, clumping)).toBeCloseTo(4 * mean, 5)
  })

  it('is where the law of the counts catches one with that chance', () => {
    for (const clumping of [0, 0.01, 0.3, 1, 4]) {
      for (const chance of [0.5, 0.8, 0.95, 0.999]) {
        const exposure = exposureNeededToNotice(0.2, clumping, chance)
        if (exposure === null) throw new Error('it can be told')
        expect(countLaw(0.2 * exposure, clumping).atLeast(1)).toBeCloseTo(chance, 10)
      }
    }
  })

  it('comes to that without clumping as clumping goes to nothing', () => {
    expect(exposureNeededToNotice(1, 1e-12)).toBeCloseTo(2.995732, 6)
  })

  it('is null, never infinite, where it cannot be told', () => {
    expect(exposureNeededToNotice(0)).toBeNull()
    expect(exposureNeededToNotice(-1)).toBeNull()
    expect(exposureNeededToNotice(Number.NaN)).toBeNull()
    expect(exposureNeededToNotice(1, -0.1)).toBeNull()
    expect(exposureNeededToNotice(1, Number.NaN)).toBeNull()
    expect(exposureNeededToNotice(1, 1, 1)).toBeNull()
    expect(exposureNeededToNotice(1, 1, 0)).toBeNull()
    // 20^1000 is beyond a double.
    expect(exposureNeededToNotice(1, 1000)).toBeNull()
    expect(exposureNeededToNotice(5e-324, 1)).toBeNull()
  })
})
