import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { shuffle } from '../../src/measure/random-draws.js'
import { logLikelihoodRatio } from '../../src/measure/scan-windows.js'
import { seededRandom } from '../../src/measure/seeded-random.js'
import { type ScannedDevice, spatialScan } from '../../src/measure/spatial-scan.js'
import { notFinite } from './not-finite.js'
import { expectAgrees, type ReferenceNumber, referenceKind } from './stats-reference.js'

interface Expected {
  n_windows: number
  members_index0: number[]
  llr: number
  cases: number
  expected: number
  relative_risk: ReferenceNumber
  p_bracket_for_999_replicates?: [number, number]
}

const reference = referenceKind<{ x: number[]; y: number[]; exposure: number[]; count: number[] }, Expected>(
  'spatial_scan',
)

describe("spatialScan agrees with R's answers", () => {
  test.each(reference.cases)('$id', ({ input, expected }) => {
    const devices = input.x.map((x, i) => ({
      x,
      y: input.y[i] ?? Number.NaN,
      count: input.count[i] ?? Number.NaN,
      effort: input.exposure[i] ?? Number.NaN,
    }))
    const scan = spatialScan(devices, { chance: 'even' })
    expect(scan.windows).toBe(expected.n_windows)
    expect(scan.found).toBe(expected.members_index0.length > 0)
    if (!scan.found) return
    const [best] = scan.clusters
    expect(best.members).toEqual(expected.members_index0)
    expect(scan.ties).toEqual([])
    expectAgrees(best.logLikelihoodRatio, expected.llr, reference, 'log likelihood ratio')
    expectAgrees(best.count, expected.cases, reference, 'count')
    expectAgrees(best.expected, expected.expected, reference, 'expected')
    expectAgrees(best.relativeRisk ?? Infinity, expected.relative_risk, reference, 'relative risk')
    const [low, high] = expected.p_bracket_for_999_replicates ?? [Number.NaN, Number.NaN]
    expect(best.p).toBeGreaterThanOrEqual(low)
    expect(best.p).toBeLessThanOrEqual(high)
  })
})

const line = (...counts: number[]): ScannedDevice[] =>
  counts.map((count, x) => ({ x, y: 0, count, effort: 1 }))

describe('spatialScan', () => {
  test('the ratio by hand: 8 of 10 animals in 2 of 10 devices', () => {
    // 8 ln(8/2) + 2 ln(2/8) = 6 ln 4.
    expect(logLikelihoodRatio(8, 2, 10)).toBeCloseTo(6 * Math.log(4), 12)
    expect(logLikelihoodRatio(2, 2, 10)).toBe(0)
    expect(logLikelihoodRatio(1, 2, 10)).toBe(0)
  })

  test('two clusters far apart: the second shares no device with the first', () => {
    const counts = Array.from({ length: 60 }, (_, i) => (i < 3 ? 30 : i >= 57 ? 20 : 1))
    const scan = spatialScan(line(...counts), { chance: 'even' })
    if (!scan.found) throw new Error(scan.reason)
    expect(scan.clusters.map(({ members }) => members)).toEqual([
      [0, 1, 2],
      [57, 58, 59],
    ])
    expect(scan.clusters[0].p).toBe(0.001)
    expect(scan.clusters[1]?.p).toBeLessThanOrEqual(0.05)
    expect(scan.clusters[0].radius).toBe(1)
    // 90 in 3 devices against 60 + 54 in 57.
    expect(scan.clusters[0].relativeRisk).toBeCloseTo(30 / (114 / 57), 12)
  })

  test('the same seed gives the same answer, another seed another p, the same cluster', () => {
    const devices = line(4, 3, 0, 1, 0, 2, 1, 0, 0, 1, 2, 0)
    const one = spatialScan(devices, { seed: 7 })
    expect(spatialScan(devices, { seed: 7 })).toEqual(one)
    const other = spatialScan(devices, { seed: 8 })
    if (!one.found || !other.found) throw new Error('a cluster was expected')
    expect(other.clusters[0]).toEqual({ ...one.clusters[0], p: other.clusters[0].p })
  })

  test('shuffled p equals the share of all orders, counted one by one', () => {
    // Five in a row, 1 animal in each of two neighbours: best circle {0, 1} holds 2 of 0.8 expected.
    // Of the 10 places for two animals the 4 neighbouring pairs do as well, and {0, 2}, {1, 3}, {2, 4} do not:
    // a circle has at most half of five, so at most two devices, and only {0, 1} and {3, 4} are such circles.
    const scan = spatialScan(line(1, 1, 0, 0, 0), { replicates: 9999 })
    if (!scan.found) throw new Error(scan.reason)
    expect(scan.clusters[0].members).toEqual([0, 1])
    expect(Math.abs(scan.clusters[0].p - 2 / 10)).toBeLessThan(5 * Math.sqrt((0.2 * 0.8) / 9999))
  })

  test('one device that caught everything is no cluster when catches are shuffled', () => {
    const scan = spatialScan(line(0, 0, 0, 40, 0, 0, 0, 0))
    if (!scan.found) throw new Error(scan.reason)
    expect(scan.clusters).toHaveLength(1)
    expect(scan.clusters[0].p).toBe(1)
    expect(scan.clusters[0].relativeRisk).toBeNull()
  })

  test('two devices that stand out alike are told as a tie', () => {
    const scan = spatialScan(line(6, 0, 0, 0, 0, 0, 0, 6))
    if (!scan.found) throw new Error(scan.reason)
    expect(scan.clusters[0].members).toEqual([0])
    expect(scan.ties).toEqual([[7]])
  })

  test('devices without effort keep their place in the list', () => {
    const devices = line(0, 9, 9, 0, 1, 0, 0, 1)
    devices.splice(1, 0, { x: 1, y: 0, count: 50, effort: 0 })
    const scan = spatialScan(devices)
    if (!scan.found) throw new Error(scan.reason)
    // The two neighbours of x = 1 are as far and enter together; the circle about x = 2 holds as many: a tie.
    expect(scan.clusters[0].members).toEqual([0, 2, 3])
    expect(scan.ties).toEqual([[2, 3, 4]])
    expect(scan.devices).toBe(8)
  })

  test.each([
    ['no-effort', []],
    ['no-effort', [{ x: 0, y: 0, count: 3, effort: 0 }]],
    ['one-device', line(3)],
    ['one-place', line(3, 4, 5).map((one) => ({ ...one, x: 2 }))],
    ['none-caught', line(0, 0, 0)],
    ['rates-equal', line(2, 2, 2)],
    ['not-a-count', line(1, 0.5)],
    ['not-a-place', [...line(1, 2), { x: Number.NaN, y: 0, count: 1, effort: 1 }]],
    ['not-a-place', [...line(1, 2), { x: 0, y: 1e200, count: 1, effort: 1 }]],
    ['out-of-range', line(1, 2).map((one) => ({ ...one, effort: Number.MAX_VALUE }))],
  ] as const)('%s', (reason, devices) => {
    expect(spatialScan(devices)).toMatchObject({ found: false, reason })
  })

  test('ends when enough replicates do as well, and p is then their share of those made', () => {
    // As above, the true p is 2/10; twenty are reached after about a hundred.
    const few = spatialScan(line(1, 1, 0, 0, 0), { replicates: 9999, enough: 20, seed: 3 })
    if (!few.found) throw new Error(few.reason)
    expect(few.clusters[0].p).toBeCloseTo(20 / few.replicates, 12)
    expect(few.replicates).toBeGreaterThan(40)
    expect(few.replicates).toBeLessThan(250)
    // The last one made is the twentieth: without it the same chance gives 19 and the map itself, of as many.
    const plain = spatialScan(line(1, 1, 0, 0, 0), { replicates: few.replicates - 1, seed: 3 })
    if (!plain.found) throw new Error(plain.reason)
    expect(few.clusters[0].p).toBeCloseTo(plain.clusters[0].p, 12)
    // Being ready to make more changes nothing.
    expect(spatialScan(line(1, 1, 0, 0, 0), { replicates: 50_000, enough: 20, seed: 3 })).toEqual(few)
  })

  test('goes on to the last replicate where fewer do as well', () => {
    const counts = Array.from({ length: 20 }, (_, i) => (i < 5 ? 30 : 0))
    const all = spatialScan(line(...counts), { replicates: 999 })
    expect(spatialScan(line(...counts), { replicates: 999, enough: 500 })).toEqual(all)
  })

  test('ended early it calls no more clusters than it may', () => {
    // Ten devices in a row, three caught one animal: of the 120 orders, those with all three side by side stand out
    // most, and any p is a share of them; so p <= 0.1 in at most a tenth of maps, whatever order is the true one.
    const random = seededRandom(11)
    let alarms = 0
    for (let seed = 0; seed < 1000; seed += 1) {
      const order = Int32Array.from({ length: 10 }, (_, i) => (i < 3 ? 1 : 0))
      shuffle(random, order)
      const scan = spatialScan(line(...order), { replicates: 999, enough: 20, seed })
      if (scan.found && scan.clusters[0].p <= 0.1) alarms += 1
    }
    // Five standard errors of a tenth in a thousand.
    expect(alarms / 1000).toBeLessThan(0.1 + 5 * Math.sqrt((0.1 * 0.9) / 1000))
  })

  test.each([0, -1, Number.NaN])('%s replicates are never enough', (enough) => {
    expect(spatialScan(line(1, 5, 0, 0), { enough })).toMatchObject({ reason: 'out-of-range' })
  })

  test.each([0, -1, 1.5, Number.NaN])('%s replicates are out of range', (replicates) => {
    expect(spatialScan(line(1, 5, 0, 0), { replicates })).toMatchObject({ reason: 'out-of-range' })
  })
})

const device = fc.record({
  x: fc.integer({ min: 0, max: 6 }),
  y: fc.integer({ min: 0, max: 6 }),
  count: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.constantFrom(0, 1_000_000)),
  effort: fc.constantFrom(0, 1, 2, 28, 30),
})

test('the best circle is that of a plain search over every centre and every radius', () => {
  fc.assert(
    fc.property(fc.array(device, { maxLength: 12 }), (devices) => {
      const scan = spatialScan(devices, { replicates: 1 })
      expect(notFinite(scan)).toEqual([])
      const working = devices.filter(({ effort }) => effort > 0)
      const sum = (of: readonly ScannedDevice[], key: 'count' | 'effort') =>
        of.reduce((all, one) => all + one[key], 0)
      const [all, effort] = [sum(working, 'count'), sum(working, 'effort')]
      let best = 0
      for (const centre of working) {
        const square = (one: ScannedDevice) => (one.x - centre.x) ** 2 + (one.y - centre.y) ** 2
        for (const edge of working) {
          const inside = working.filter((one) => square(one) <= square(edge))
          if (2 * sum(inside, 'effort') > effort) continue
          const expected = (all * sum(inside, 'effort')) / effort
          const count = sum(inside, 'count')
          if (count <= expected * (1 + 1e-12)) continue
          const rest = all - count
          const ratio =
            count * Math.log(count / expected) + (rest && rest * Math.log(rest / (all - expected)))
          best = Math.max(best, ratio)
        }
      }
      const found = scan.found ? scan.clusters[0].logLikelihoodRatio : 0
      expect(Math.abs(found - best)).toBeLessThanOrEqual(1e-9 * (1 + best))
    }),
  )
})

test('moved, turned by a right angle and enlarged, the map has the same clusters', () => {
  fc.assert(
    fc.property(fc.array(device, { minLength: 3, maxLength: 12 }), (devices) => {
      const one = spatialScan(devices, { replicates: 99 })
      const turned = devices.map(({ x, y, ...rest }) => ({ ...rest, x: 100 - 4 * y, y: 7 + 4 * x }))
      const other = spatialScan(turned, { replicates: 99 })
      expect(other.found).toBe(one.found)
      if (!one.found || !other.found) return
      expect(other.clusters.map(({ members, p }) => [members, p])).toEqual(
        one.clusters.map(({ members, p }) => [members, p]),
      )
    }),
  )
})
