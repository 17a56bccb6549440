import { describe, expect, test } from 'vitest'
import { beforeAfter } from '../../src/measure/before-after.js'
import type { CatchReading } from '../../src/measure/effective-counts.js'
import { outlyingDevices } from '../../src/measure/outlying-devices.js'
import { pooledEffect } from '../../src/measure/pooled-effect.js'
import { ratioOfRatios } from '../../src/measure/ratio-of-ratios.js'
import {
  negativeBinomial,
  normal,
  poisson,
  type Random,
  seededRandom,
} from '../../src/measure/seeded-random.js'
import { spatialScan } from '../../src/measure/spatial-scan.js'

/**
 * How often intervals miss the truth, and how often something is found where nothing is, when catches clump. The
 * bounds are the stated 5 % and two and a half standard errors of so many trials; tests/bench measures more, and
 * src/measure/README.md gives the figures.
 */
const TRIALS = 2000
const SEED = 20_260_312
const atMost = (stated: number, trials: number) => stated + 2.5 * Math.sqrt((stated * (1 - stated)) / trials)

function caught(random: Random, mean: number, k: number): number {
  return k === Infinity ? poisson(random, mean) : negativeBinomial(random, mean, k)
}

function readings(random: Random, number: number, mean: number, k: number): CatchReading[] {
  return Array.from({ length: number }, () => ({ count: caught(random, mean, k), effort: 1 }))
}

type Interval = { estimable: false } | { estimable: true; lower: number; upper: number | null }

function missed(truth: number, name: string, invent: (random: Random) => Interval): number {
  const random = seededRandom(SEED).fork(name)
  let misses = 0
  for (let i = 0; i < TRIALS; i += 1) {
    const interval = invent(random)
    if (!interval.estimable) continue
    if (interval.lower > truth || (interval.upper !== null && interval.upper < truth)) misses += 1
  }
  return misses / TRIALS
}

describe('intervals miss the true factor in at most 5 of 100', () => {
  test.each([
    [4, 4, 1, Infinity, 1],
    [4, 4, 3, 1, 0.2],
    [8, 8, 20, 0.5, 1],
    [8, 2, 8, 1, 5],
    [2, 8, 20, 1, 0.2],
    [2, 2, 3, 0.5, 2],
  ])('before and after: %d and %d readings, mean %d, k %d, factor %d', (before, after, mean, k, factor) => {
    const share = missed(factor, `before ${before} ${after} ${mean} ${k} ${factor}`, (random) =>
      beforeAfter(readings(random, before, mean, k), readings(random, after, mean * factor, k)),
    )
    expect(share).toBeLessThanOrEqual(atMost(0.05, TRIALS))
  })

  test.each([
    [4, 3, 1, 0.5, 0.4],
    [8, 20, 0.5, 0.2, 2.5],
    [8, 3, Infinity, 1, 1],
  ])(
    'ratio of ratios: %d readings each, mean %d, k %d, ratio %d, drift %d',
    (number, mean, k, ratio, drift) => {
      const share = missed(ratio, `ratios ${number} ${mean} ${k} ${ratio} ${drift}`, (random) =>
        ratioOfRatios({
          'treated before': readings(random, number, mean, k),
          'treated after': readings(random, number, mean * ratio * drift, k),
          'untreated before': readings(random, number, mean, k),
          'untreated after': readings(random, number, mean * drift, k),
        }),
      )
      expect(share).toBeLessThanOrEqual(atMost(0.05, TRIALS))
    },
  )

  test.each([
    [3, 2, 0.5, 0.3],
    [5, 0.5, Infinity, 0.3],
    [10, 10, 2, 2],
    [20, 2, 0.5, 1],
  ])('pooled: %d events, mean %d, k %d, factor %d', (events, mean, k, factor) => {
    const share = missed(factor, `pooled ${events} ${mean} ${k} ${factor}`, (random) =>
      pooledEffect(
        Array.from({ length: events }, () => {
          const level = mean * Math.exp(normal(random) - 0.5)
          return { before: readings(random, 3, level, k), after: readings(random, 3, level * factor, k) }
        }),
      ),
    )
    expect(share).toBeLessThanOrEqual(atMost(0.05, TRIALS))
  })
})

describe('nothing is found where nothing is', () => {
  test.each([
    [30, 2, Infinity],
    [30, 2, 0.5],
    [30, 10, 1],
  ])('shuffled scan of %d devices, mean %d, k %d: a cluster in at most 5 of 100 maps', (number, mean, k) => {
    const random = seededRandom(SEED).fork(`scan ${number} ${mean} ${k}`)
    let alarms = 0
    for (let seed = 0; seed < 1000; seed += 1) {
      const devices = Array.from({ length: number }, () => ({
        x: random.next(),
        y: random.next(),
        count: caught(random, mean, k),
        effort: 1,
      }))
      const scan = spatialScan(devices, { replicates: 99, seed })
      if (scan.found && scan.clusters[0].p <= 0.05) alarms += 1
    }
    expect(alarms / 1000).toBeLessThanOrEqual(atMost(0.05, 1000))
  })

  test('the scan by even chance is no use for catches that clump: most maps alarm', () => {
    const random = seededRandom(SEED).fork('even')
    let alarms = 0
    for (let seed = 0; seed < 200; seed += 1) {
      const devices = Array.from({ length: 30 }, () => ({
        x: random.next(),
        y: random.next(),
        count: caught(random, 2, 0.5),
        effort: 1,
      }))
      const scan = spatialScan(devices, { replicates: 99, seed, chance: 'even' })
      if (scan.found && scan.clusters[0].p <= 0.05) alarms += 1
    }
    expect(alarms / 200).toBeGreaterThan(0.5)
  })

  test.each([
    [5, 2, 0.5],
    [8, 10, Infinity],
    [20, 10, 0.5],
    [40, 2, 1],
  ])('rooms of %d devices, mean %d, k %d: an outlying one in at most 5 of 100', (number, mean, k) => {
    const random = seededRandom(SEED).fork(`room ${number} ${mean} ${k}`)
    let alarms = 0
    for (let i = 0; i < TRIALS; i += 1) {
      const room = readings(random, number, mean, k).map((one) => ({ ...one, group: 'room' }))
      if (outlyingDevices(room).some((one) => one.compared && one.outlying)) alarms += 1
    }
    expect(alarms / TRIALS).toBeLessThanOrEqual(atMost(0.05, TRIALS))
  })
})
