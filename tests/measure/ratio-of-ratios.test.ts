import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CatchReading } from '../../src/measure/effective-counts.js'
import { exactOddsRatio, type FourCounts } from '../../src/measure/odds-ratio.js'
import { type ComparedReadings, ratioOfRatios } from '../../src/measure/ratio-of-ratios.js'
import { notFinite } from './not-finite.js'
import { expectAgrees, type ReferenceCase, type ReferenceNumber, referenceKind } from './stats-reference.js'

interface Interval {
  lower: ReferenceNumber
  upper: ReferenceNumber
}

type OddsCase = ReferenceCase<FourCounts, { ci95: Interval; ci90: Interval }> & {
  printed?: { lower: number; upper: number }
}

const reference = referenceKind<FourCounts, OddsCase['expected']>('odds_ratio')
const cases: OddsCase[] = reference.cases

describe('exactOddsRatio', () => {
  test.each(cases)('agrees with scipy: $id', ({ input, expected }) => {
    for (const [confidence, limits] of [
      [0.95, expected.ci95],
      [0.9, expected.ci90],
    ] as const) {
      const { lower, upper } = exactOddsRatio(input, confidence)
      expectAgrees(lower, limits.lower, reference, 'lower')
      expectAgrees(upper ?? Infinity, limits.upper, reference, 'upper')
    }
  })

  // R looks for the root in t = odds or 1/odds to within .Machine$double.eps^0.25 = 0.000122.
  test.each(cases.filter((one) => one.printed !== undefined))(
    'agrees with what R fisher.test printed, to the tolerance of its root finder: $id',
    ({ input, printed }) => {
      const near = (ours: number, theirs: number) => {
        const [a, b] = theirs > 1 ? [1 / ours, 1 / theirs] : [ours, theirs]
        expect(Math.abs(a - b)).toBeLessThanOrEqual(2 ** -13)
      }
      const { lower, upper } = exactOddsRatio(input, 0.95)
      near(lower, printed?.lower ?? Number.NaN)
      near(upper ?? Number.NaN, printed?.upper ?? Number.NaN)
    },
  )

  test("Fisher's tea tasting by hand: four and four cups, three of four told right", () => {
    const { lower, upper, p } = exactOddsRatio({ a: 3, b: 1, c: 1, d: 3 }, 0.95)
    // The tables with margins 4, 4, 4, 4 weigh 1, 16ψ, 36ψ², 16ψ³, ψ⁴.
    const weights = (odds: number) => [1, 16 * odds, 36 * odds ** 2, 16 * odds ** 3, odds ** 4]
    const share = (odds: number, from: number, to: number) => {
      const all = weights(odds)
      return all.slice(from, to).reduce((sum, one) => sum + one, 0) / all.reduce((sum, one) => sum + one, 0)
    }
    expect(share(lower, 3, 5)).toBeCloseTo(0.025, 12)
    expect(share(upper ?? Number.NaN, 0, 4)).toBeCloseTo(0.025, 12)
    // At odds 1: (16 + 1)/70 = 0.242857 (R prints 0.2429 one-sided), doubled.
    expect(p).toBeCloseTo(34 / 70, 12)
  })

  test('counts that are not whole, by hand', () => {
    // a = 0 can only gain: one step weighs ψ · b · c / (d + 1). At the upper limit 1/(1 + weight) = 0.025.
    expect(exactOddsRatio({ a: 0, b: 1, c: 1, d: 2.5 }, 0.95).upper).toBeCloseTo(39 * 3.5, 8)
    expect(exactOddsRatio({ a: 0, b: 0.5, c: 1, d: 2.5 }, 0.95).upper).toBeCloseTo((39 * 3.5) / 0.5, 8)
    // Two steps: ψ·1.5·2/(1·3.5) and from there ψ·0.5·1/(2·4.5): 1 + uψ + vψ² = 40, u = 6/7, v = 1/21.
    const [u, v] = [6 / 7, 1 / 21]
    const root = (-u + Math.sqrt(u * u + 4 * v * 39)) / (2 * v)
    expect(exactOddsRatio({ a: 0, b: 1.5, c: 2, d: 2.5 }, 0.95).upper).toBeCloseTo(root, 8)
  })

  test('limits do not jump where a count becomes whole', () => {
    const at = (b: number) => exactOddsRatio({ a: 3, b, c: 4, d: 5 }, 0.95)
    for (const whole of [1, 2, 3]) {
      expect(at(whole - 1e-9).lower).toBeCloseTo(at(whole).lower, 7)
      expect(at(whole + 1e-9).lower).toBeCloseTo(at(whole).lower, 7)
      expect(at(whole + 1e-9).upper ?? 0).toBeCloseTo(at(whole).upper ?? 1, 4)
    }
  })
})

const each = (...counts: number[]): CatchReading[] => counts.map((count) => ({ count, effort: 1 }))
const compared = (
  before: readonly CatchReading[],
  after: readonly CatchReading[],
  untreatedBefore: readonly CatchReading[],
  untreatedAfter: readonly CatchReading[],
): ComparedReadings => ({
  'treated before': before,
  'treated after': after,
  'untreated before': untreatedBefore,
  'untreated after': untreatedAfter,
})
const unclumped = { perMean: 0, degreesOfFreedom: 1e9 }

describe('ratioOfRatios', () => {
  test('by hand: efforts are offsets', () => {
    const one = (count: number, effort: number) => [{ count, effort }]
    const result = ratioOfRatios(compared(one(0, 2), one(1, 4), one(1, 3), one(2, 5)), {
      clumping: unclumped,
    })
    if (!result.estimable) throw new Error(result.reason)
    expect(result.ratio).toBeNull()
    expect(result.upper).toBeNull()
    const other = ratioOfRatios(compared(one(1, 2), one(0, 4), one(2, 3), one(1, 5)), { clumping: unclumped })
    if (!other.estimable) throw new Error(other.reason)
    // a = 0, b = 1, c = 1 (untreated after), d = 2: upper odds 39 · 3 = 117 but for t/z (one millionth);
    // rates: (0/4)/(1/2) over (1/5)/(2/3), so per odds (2/4)·(5/3) = 5/6.
    expect(other.ratio).toBe(0)
    expect(other.lower).toBe(0)
    expect((other.upper ?? 0) / ((117 * 5) / 6)).toBeCloseTo(1, 4)
  })

  test('by hand: the ratio and the dispersion', () => {
    const result = ratioOfRatios(compared(each(0, 8), each(1, 1), each(4, 4), each(3, 1)))
    if (!result.estimable) throw new Error(result.reason)
    // (2/8) / (4/8) = 0.5. χ²: 8 + 0 + 0 + (1 + 1)/2 = 9, 4 degrees of freedom, Σ(1 − h)μ = 4 + 1 + 4 + 2 = 11.
    expect(result.ratio).toBe(0.5)
    expect(result.degreesOfFreedom).toBe(4)
    expect(result.dispersion).toBeCloseTo(1 + (5 / 11) * 4, 12)
  })

  test.each([
    [{ reason: 'not-a-count' }, compared(each(0.5, 1), each(1), each(1), each(1))],
    [{ reason: 'no-readings', where: 'untreated after' }, compared(each(1, 2), each(1), each(1), [])],
    [
      { reason: 'no-effort', where: 'treated after' },
      compared(each(1, 2), [{ count: 0, effort: 0 }], each(1), each(1)),
    ],
    [{ reason: 'none-caught', where: 'treated' }, compared(each(0, 0), each(0), each(1), each(1))],
    [{ reason: 'none-caught', where: 'untreated' }, compared(each(1, 0), each(0), each(0), each(0))],
    [{ reason: 'too-few-readings' }, compared(each(1), each(1), each(1), each(1))],
  ] as const)('%j', (why, readings) => {
    expect(ratioOfRatios(readings)).toEqual({ estimable: false, ...why })
  })

  test('counts of a million are judged like others', () => {
    const large = each(1_000_000, 1_000_000)
    const result = ratioOfRatios(compared(large, each(500_000, 500_000), large, large))
    if (!result.estimable) throw new Error(result.reason)
    expect(result.ratio).toBe(0.5)
    // Log standard error √(1/1e6 + 3/2e6) · t(4)/z = 0.00158 · 1.417; 1.96 of them are 0.0044.
    expect(Math.log(result.upper ?? 0) - Math.log(0.5)).toBeCloseTo(0.0044, 4)
    expect(Math.log(0.5) - Math.log(result.lower)).toBeCloseTo(0.0044, 4)
  })

  const set = fc.array(
    fc.record({
      count: fc.oneof(fc.integer({ min: 0, max: 30 }), fc.constantFrom(0, 1_000_000)),
      effort: fc.constantFrom(0, 0.5, 1, 30, 2000),
    }),
    { maxLength: 4 },
  )

  test('no answer holds a number that is none; treated and untreated changed over gives the reciprocals', () => {
    fc.assert(
      fc.property(set, set, set, set, (b, a, d, c) => {
        const one = ratioOfRatios(compared(b, a, d, c))
        const other = ratioOfRatios(compared(d, c, b, a))
        expect(notFinite(one)).toEqual([])
        expect(one.estimable).toBe(other.estimable)
        if (!one.estimable || !other.estimable) return
        if (one.upper !== null) expect(one.upper * other.lower).toBeCloseTo(1, 7)
        expect(one.lower).toBeLessThanOrEqual(one.ratio ?? Infinity)
        expect(one.p).toBeCloseTo(other.p, 9)
      }),
      { numRuns: 60 },
    )
  })
})
