import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { betaBinomialTail, type ComparedDevice, outlyingDevices } from '../../src/measure/outlying-devices.js'
import { negativeBinomial, seededRandom } from '../../src/measure/seeded-random.js'
import { notFinite } from './not-finite.js'

const room = (...counts: number[]): ComparedDevice[] =>
  counts.map((count) => ({ group: 'kitchen', count, effort: 30 }))

describe('betaBinomialTail', () => {
  test('with both parameters 1 every number is as likely: by hand', () => {
    // 8, 9 or 10 of the eleven numbers 0 to 10.
    expect(betaBinomialTail(8, 10, 1, 1)).toBeCloseTo(3 / 11, 12)
    expect(betaBinomialTail(10, 10, 1, 1)).toBeCloseTo(1 / 11, 12)
  })

  test('by hand: own 2, others 1 weighs each number by one more', () => {
    // P(x) is in proportion to x + 1: of 0 to 4, (4 + 5)/(1 + 2 + 3 + 4 + 5).
    expect(betaBinomialTail(3, 4, 2, 1)).toBeCloseTo(9 / 15, 12)
  })

  test('with large parameters it is the binomial: 3 or more of 4 at one half are 5/16', () => {
    expect(betaBinomialTail(3, 4, 1e9, 1e9)).toBeCloseTo(5 / 16, 6)
  })

  test('ends', () => {
    expect(betaBinomialTail(0, 5, 1, 1)).toBe(1)
    expect(betaBinomialTail(6, 5, 1, 1)).toBe(0)
  })
})

describe('outlyingDevices', () => {
  test('one that caught far more among others that hardly clump', () => {
    const found = outlyingDevices(room(2, 3, 1, 2, 2, 40, 3, 1, 2, 2))
    expect(found.map((one) => one.compared && one.outlying)).toEqual(
      Array.from({ length: 10 }, (_, i) => i === 5),
    )
    const [, , , , , hot] = found
    if (!hot?.compared) throw new Error('it was to be compared')
    // The nine others caught 18: 2 expected, 20 times as many.
    expect(hot.expected).toBeCloseTo(2, 12)
    expect(hot.ratio).toBeCloseTo(20, 12)
    // χ² among them is (0 + 1 + 1 + 0 + 0 + 1 + 1 + 0 + 0)/2 = 2; the lower tenth of χ² with 8 df is 3.49.
    expect(hot.dispersion).toBe(1)
    // Then binomial: 40 or more of 58 at one tenth, about 58!/(40!·18!) · 0.1⁴⁰ · 0.9¹⁸ = 1.6·10⁻²⁶.
    expect(hot.p).toBeGreaterThan(1e-27)
    expect(hot.p).toBeLessThan(1e-24)
  })

  test('dispersion among the others, by hand', () => {
    const [first] = outlyingDevices(room(30, 0, 8, 0, 8))
    if (!first?.compared) throw new Error('it was to be compared')
    // Four others of mean 4: χ² = 4 · 16/4 = 16. The lower tenth of χ² with 3 df is 0.58437 (printed 0.584).
    expect(first.dispersion).toBeCloseTo(16 / 0.58437, 2)
    expect(first.outlying).toBe(false)
  })

  test('a device that stood longer is expected to have caught more', () => {
    const devices = room(4, 4, 4, 4, 4, 4)
    devices.push({ group: 'kitchen', count: 40, effort: 300 })
    const result = outlyingDevices(devices)[6]
    expect(result).toMatchObject({ compared: true, expected: 40, ratio: 1, p: 1, outlying: false })
  })

  test('one that caught some where the others caught none', () => {
    const found = outlyingDevices(room(25, 0, 0, 0, 0, 0, 0, 0))
    expect(found[0]).toMatchObject({ compared: true, ratio: null, expected: 0, outlying: true })
    expect(found[1]).toMatchObject({ compared: true, ratio: 0, p: 1, outlying: false })
  })

  test('rooms are judged apart and adjusted together', () => {
    const quiet = Array.from({ length: 12 }, (_, i) => ({ group: 'hall', count: i % 2, effort: 30 }))
    const kitchen = room(12, 2, 3, 1, 2, 2, 1, 2)
    const alone = outlyingDevices(kitchen)[0]
    const together = outlyingDevices([...kitchen, ...quiet])[0]
    if (!alone?.compared || !together?.compared) throw new Error('it was to be compared')
    expect(together.p).toBe(alone.p)
    // The smallest of 8 and of 20 tests: Benjamini & Hochberg's factors are 8 and 20.
    expect(alone.adjustedP).toBeCloseTo(8 * alone.p, 12)
    expect(together.adjustedP).toBeCloseTo(20 * alone.p, 12)
  })

  test('clumps as all groups together show, where that is more than its own others do: by hand', () => {
    // The kitchen's four others caught one each: alone they do not clump at all.
    const kitchen = room(6, 1, 1, 1, 1)
    const alone = outlyingDevices(kitchen)[0]
    const hall = [8, 0, 0, 0, 0].map((count) => ({ group: 'hall', count, effort: 30 }))
    const together = outlyingDevices([...kitchen, ...hall])[0]
    if (!alone?.compared || !together?.compared) throw new Error('it was to be compared')
    expect(alone.dispersion).toBe(1)
    // The hall, mean 1.6: χ² = (6.4² + 4 · 1.6²)/1.6 = 32 with 4 df, weight 5 · 1.6 · 4/5 = 6.4. The kitchen's
    // others: χ² 0 with 3 df, weight 4 · 1 · 3/4 = 3. Together 32 with 7 df, weight 9.4; the lower tenth of χ² with 7
    // df is 2.8331 (printed 2.833): dispersion 11.295, clumping 10.295 · 7/9.4 = 7.667, at 1 expected 1 + 7.667.
    expect(together.dispersion).toBeCloseTo(1 + ((32 / 2.83311 - 1) * 7) / 9.4, 3)
    expect(together.expected).toBe(1)
    // Own 1/7.667 = 0.13043, others 0.52172: 6 or more of 10 is then nothing unusual.
    expect(together.p).toBeCloseTo(betaBinomialTail(6, 10, 1 / 7.6667, 4 / 7.6667), 3)
    expect(together.p).toBeGreaterThan(0.1)
    expect(alone.p).toBeLessThan(0.01)
  })

  test('over many rooms of a few devices, where ants clump much, it hardly ever calls one', () => {
    // Negative binomial, mean 1, k 0.35, as ants clump; all alike. Judged by its own five others alone, each room has
    // an outlying device in 7 of 100, and 60 rooms together in 86 of 100.
    const random = seededRandom(20260312).fork('ledgers')
    let alarms = 0
    for (let ledger = 0; ledger < 100; ledger += 1) {
      const devices = Array.from({ length: 360 }, (_, i) => ({
        group: String(Math.floor(i / 6)),
        count: negativeBinomial(random, 1, 0.35),
        effort: 30,
      }))
      if (outlyingDevices(devices).some((one) => one.compared && one.outlying)) alarms += 1
    }
    expect(alarms).toBeLessThanOrEqual(5)
  })

  test('why not', () => {
    const reasons = (devices: ComparedDevice[]) =>
      outlyingDevices(devices).map((one) => (one.compared ? 'compared' : one.reason))
    expect(reasons([])).toEqual([])
    expect(reasons(room(9))).toEqual(['too-few-devices'])
    expect(reasons(room(9, 0, 0, 0))).toEqual(Array(4).fill('too-few-devices'))
    expect(reasons(room(0, 0, 0, 0, 0))).toEqual(Array(5).fill('none-caught'))
    expect(reasons([...room(1, 0, 2, 1, 0.5), { group: 'kitchen', count: 4, effort: 0 }])).toEqual([
      ...Array(4).fill('too-few-devices'),
      'not-a-count',
      'no-effort',
    ])
    expect(reasons(room(1, 0, 2, 1, 3))).toEqual(Array(5).fill('compared'))
  })

  test('no answer holds a number that is none', () => {
    const device = fc.record({
      group: fc.constantFrom('a', 'b'),
      count: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.constantFrom(0, 1_000_000, -1, 0.5, Number.NaN)),
      effort: fc.constantFrom(0, 0.5, 1, 28, 2000, Number.NaN),
    })
    fc.assert(
      fc.property(fc.array(device, { maxLength: 25 }), (devices) => {
        const found = outlyingDevices(devices)
        expect(found).toHaveLength(devices.length)
        expect(notFinite(found)).toEqual([])
        for (const one of found) {
          if (one.compared) expect(one.p >= 0 && one.p <= one.adjustedP && one.adjustedP <= 1).toBe(true)
        }
      }),
    )
  })
})
