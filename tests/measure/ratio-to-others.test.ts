import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { betaBinomialTail, outlyingDevices } from '../../src/measure/outlying-devices.js'
import { rateRatio } from '../../src/measure/rate-ratio.js'
import { type OneAndOthers, ratioToOthers } from '../../src/measure/ratio-to-others.js'
import { negativeBinomial, seededRandom } from '../../src/measure/seeded-random.js'
import { notFinite } from './not-finite.js'

const given = (more: Partial<OneAndOthers> = {}): OneAndOthers => ({
  count: 8,
  effort: 30,
  othersCount: 10,
  othersEffort: 270,
  dispersion: 1,
  ...more,
})

describe('ratioToOthers', () => {
  test.each([
    [8, 30, 10, 270],
    [5, 1, 0, 4],
    [0, 2, 7, 9],
    [1, 1, 1, 1],
    [40, 28, 3, 500],
  ])(
    'without clumping it is the exact interval of two rates: %d in %d, %d in %d',
    (count, effort, othersCount, othersEffort) => {
      const limits = ratioToOthers(given({ count, effort, othersCount, othersEffort }))
      const exact = rateRatio(count, effort, othersCount, othersEffort)
      if (!limits || !exact) throw new Error('there are limits')
      expect(limits.lower).toBeCloseTo(exact.lower, 6)
      if (exact.upper === Infinity) expect(limits.upper).toBeNull()
      else expect((limits.upper ?? 0) / exact.upper).toBeCloseTo(1, 6)
    },
  )

  test('with clumping, by hand: one animal, the device has it', () => {
    // Own and others' parameters are 1/(D − 1) each at D = 2 with one animal among the others: 1 and 1.
    // Two animals fall 0, 1 or 2 to the device as often as not: weights 1, w, w². The device has 1.
    // Lower: (w + w²)/(1 + w + w²) = 0.025, so 0.975 w² + 0.975 w − 0.025 = 0, w = 0.0250111…;
    // ρ = w/(1 − (w − 1)) = 0.0250111/1.9749889 = 0.0126639. Upper: w = 1/0.0250111 = 39.98 is above 2: none.
    const limits = ratioToOthers(
      given({ count: 1, othersCount: 1, effort: 1, othersEffort: 1, dispersion: 2 }),
    )
    const w = (-0.975 + Math.sqrt(0.975 ** 2 + 4 * 0.975 * 0.025)) / (2 * 0.975)
    expect(limits?.lower).toBeCloseTo(w / (2 - w), 10)
    expect(limits?.upper).toBeNull()
  })

  test('a rate equal to that of the others is within it just when the comparison says so', () => {
    const room = [14, 2, 0, 5, 1, 3, 2].map((count) => ({ group: 'kitchen', count, effort: 30 }))
    const first = outlyingDevices(room)[0]
    if (!first?.compared) throw new Error('it was to be compared')
    const one = given({
      count: 14,
      effort: 30,
      othersCount: 13,
      othersEffort: 180,
      dispersion: first.dispersion,
    })
    // At the confidence whose tail is p, the lower limit is 1.
    expect(ratioToOthers(one, 1 - 2 * first.p)?.lower).toBeCloseTo(1, 8)
    expect(first.p).toBeCloseTo(
      betaBinomialTail(14, 27, 13 / 6 / (first.dispersion - 1), 13 / (first.dispersion - 1)),
      10,
    )
  })

  test.each([
    { count: 0, othersCount: 0 },
    { count: 1.5 },
    { othersCount: -1 },
    { effort: 0 },
    { othersEffort: Number.NaN },
    { dispersion: 0.9 },
    { dispersion: Infinity },
  ])('null for %j', (more) => {
    expect(ratioToOthers(given(more))).toBeNull()
  })

  test('null where catches clump so much that at no ratio the device would likely have had any', () => {
    // Its parameter is a 4000th of the others': it has the one animal once in 4001 times, at most 9/8 times as often.
    expect(
      ratioToOthers(given({ count: 1, effort: 0.5, othersCount: 0, othersEffort: 2000, dispersion: 9 })),
    ).toBeNull()
  })

  test('null for a confidence of 1', () => {
    expect(ratioToOthers(given(), 1)).toBeNull()
  })

  test('the limits are numbers, and about what was seen when catches do not clump', () => {
    const count = fc.integer({ min: 0, max: 60 })
    const effort = fc.constantFrom(0.5, 1, 28, 2000)
    fc.assert(
      fc.property(count, count, effort, effort, (own, others, ownEffort, othersEffort) => {
        fc.pre(own + others > 0)
        const base = given({ count: own, othersCount: others, effort: ownEffort, othersEffort })
        const [narrow, wide] = [ratioToOthers(base), ratioToOthers({ ...base, dispersion: 9 })]
        if (!narrow) throw new Error('there are limits')
        expect(notFinite([narrow, wide])).toEqual([])
        if (others === 0) return
        const seen = own / ownEffort / (others / othersEffort)
        expect(narrow.lower).toBeLessThanOrEqual(seen)
        if (narrow.upper !== null) expect(narrow.upper).toBeGreaterThanOrEqual(seen)
      }),
    )
  })

  test('more clumping, a wider interval: 8 in 30 nights against 10 in 270', () => {
    const limits = [1, 1.5, 2, 3].map((dispersion) => ratioToOthers(given({ dispersion })))
    const lower = limits.map((one) => one?.lower ?? Number.NaN)
    expect(lower).toEqual([...lower].sort((a, b) => b - a))
    const upper = limits.map((one) => (one ? (one.upper ?? Infinity) : Number.NaN))
    expect(upper).toEqual([...upper].sort((a, b) => a - b))
    expect(upper[3]).toBe(Infinity)
  })

  test('a million animals', () => {
    const limits = ratioToOthers(given({ count: 1_000_000, othersCount: 100 }))
    const exact = rateRatio(1_000_000, 30, 100, 270)
    expect((limits?.lower ?? 0) / (exact?.lower ?? 1)).toBeCloseTo(1, 5)
  })

  test.each([
    [8, 2, 1, 1],
    [8, 2, 1, 10],
    [20, 2, 1, 30],
    [20, 10, 3, 10],
    [20, 0.5, 0.5, 10],
  ])(
    'holds the truth in 95 of 100: %d devices, mean %d, k %d, %d times the rate',
    (devices, mean, k, factor) => {
      const random = seededRandom(20260312).fork(`${devices} ${mean} ${k} ${factor}`)
      let [told, held] = [0, 0]
      for (let time = 0; time < 400; time += 1) {
        const counts = Array.from({ length: devices }, (_, i) =>
          negativeBinomial(random, mean * (i === 0 ? factor : 1), k),
        )
        const [first] = outlyingDevices(counts.map((count) => ({ group: 'room', count, effort: 1 })))
        if (!first?.compared) continue
        const [own = 0, ...others] = counts
        const limits = ratioToOthers({
          count: own,
          effort: 1,
          othersCount: others.reduce((sum, one) => sum + one, 0),
          othersEffort: devices - 1,
          dispersion: first.dispersion,
        })
        if (!limits) continue
        told += 1
        if (limits.lower <= factor && (limits.upper === null || factor <= limits.upper)) held += 1
      }
      expect(told).toBeGreaterThan(300)
      expect(held / told).toBeGreaterThanOrEqual(0.95)
    },
  )
})
