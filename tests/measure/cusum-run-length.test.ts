import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { averageRunLength, type EvenCusum } from '../../src/measure/cusum-run-length.js'
import { decisionForAnyEffort, runLengthWithVariedEffort } from '../../src/measure/cusum-varied-effort.js'
import { cusumReference, poissonCusum } from '../../src/measure/poisson-cusum.js'
import { type Chance, clumpedCount, mulberry32 } from './invented-series.js'
import { expectAgrees, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { mu: number; k: number; h: number },
  { arl_zero_start: number; arl_headstart_half_h: number; headstart_used: number }
>('poisson_cusum_arl')

describe('averageRunLength agrees with R (the chain solved there directly)', () => {
  test.each(reference.cases)('$id', ({ input: { mu, k, h }, expected }) => {
    const plan = { direction: 'up', mean: mu, k, h } as const
    expectAgrees(averageRunLength(plan), expected.arl_zero_start, reference, 'from zero')
    const started = averageRunLength({ ...plan, headStart: expected.headstart_used })
    expectAgrees(started, expected.arl_headstart_half_h, reference, 'with a head start')
  })
})

describe('worked by hand', () => {
  // With k = h = 1 a sum for a rise signals at the first count of 2 or more, as any 0 or 1 leaves it at 0;
  // Poisson with mean 1: 1/(1 − 2/e).
  test('up: the first reading of two', () => {
    const length = averageRunLength({ direction: 'up', mean: 1, k: 1, h: 1 })
    expect(length).toBeCloseTo(1 / (1 - 2 / Math.E), 10)
  })
  // For a fall it signals at the first count of 0: 1/P(0) = e³.
  test('down: the first reading of none', () => {
    expect(averageRunLength({ direction: 'down', mean: 3, k: 1, h: 1 })).toBeCloseTo(Math.E ** 3, 9)
  })
  // h = 2: two readings of none in a row, except that a 1 between them changes nothing: state 1 is left by a
  // count of 0 (signal) or of 2 and more (back to 0). With a = P(0), b = P(1): L0 = 1/a + L1 and
  // L1 = (1 + (1 − a − b)·L0)/(1 − b).
  test('down: two readings of none', () => {
    const [a, b] = [Math.exp(-3), 3 * Math.exp(-3)]
    const l0 = (1 / a + 1 / (1 - b)) / (1 - (1 - a - b) / (1 - b))
    expect((averageRunLength({ direction: 'down', mean: 3, k: 1, h: 2 }) ?? 0) / l0).toBeCloseTo(1, 10)
  })
  // Clumping 1 is the geometric law: P(2 or more) = (mean/(1 + mean))² = (1/2)².
  test('clumped: the first reading of two', () => {
    const length = averageRunLength({ direction: 'up', mean: 1, k: 1, h: 1, clumping: 1 })
    expect(length).toBeCloseTo(4, 12)
  })
  test('a run of 1e34 readings keeps its digits: 1/P(16 or more) of mean 0.05', () => {
    // P(X ≥ 16) is 0.05¹⁶/16! · e^−0.05 · (1 + 0.05/17 + 0.05²/(17 · 18) + …).
    const factorial = Array.from({ length: 16 }, (_, i) => i + 1).reduce((all, i) => all * i, 1)
    const chance =
      (0.05 ** 16 / factorial) * Math.exp(-0.05) * (1 + 0.05 / 17 + 0.0025 / 306 + 1.25e-4 / 5814)
    const length = averageRunLength({ direction: 'up', mean: 0.05, k: 15, h: 1 })
    expect((length ?? 0) * chance).toBeCloseTo(1, 9)
  })
})

/** Run length by following the probabilities of all states from reading to reading. */
function followed({ direction, mean, k, h, headStart = 0 }: EvenCusum): number {
  let states = new Map([[Math.round(headStart * 10), 1]])
  let length = 0
  for (let still = 1; still > 1e-12; ) {
    length += still
    const next = new Map<number, number>()
    for (const [state, chance] of states) {
      let term = Math.exp(-mean)
      for (let count = 0; count < 60; count += 1) {
        const move = (direction === 'up' ? 1 : -1) * (10 * count - Math.round(10 * k))
        const to = Math.max(0, state + move)
        if (to < Math.round(10 * h)) next.set(to, (next.get(to) ?? 0) + chance * term)
        term *= mean / (count + 1)
      }
    }
    states = next
    still = [...next.values()].reduce((sum, chance) => sum + chance, 0)
  }
  return length
}

test('the chain gives what following all states from reading to reading gives', () => {
  fc.assert(
    fc.property(
      fc.constantFrom<'up' | 'down'>('up', 'down'),
      fc.double({ min: 0.3, max: 4, noNaN: true }),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 25 }),
      fc.double({ min: 0, max: 0.99, noNaN: true }),
      (direction, mean, k, h, start) => {
        const plan = { direction, mean, k: k / 10, h: h / 10, headStart: Math.floor(start * h) / 10 }
        const length = averageRunLength(plan)
        if (length === null) throw new Error('a run length was expected')
        fc.pre(length < 2000)
        expect(length / followed(plan)).toBeCloseTo(1, 8)
      },
    ),
    { numRuns: 60 },
  )
})

describe('no run length', () => {
  const plan: EvenCusum = { direction: 'up', mean: 1, k: 1.4, h: 4 }
  test.each([
    ['a mean of zero', { mean: 0 }],
    ['a mean that is none', { mean: Number.NaN }],
    ['k finer than tenths', { k: 1.44 }],
    ['h of zero', { h: 0 }],
    ['k of zero', { k: 0 }],
    ['h without end', { h: Infinity }],
    ['a head start at h', { headStart: 4 }],
    ['negative clumping', { clumping: -1 }],
    ['more states than are built', { h: 400 }],
    ['a run longer than a double holds', { mean: 0.05, k: 500, h: 1 }],
  ])('%s', (_, change) => {
    expect(averageRunLength({ ...plan, ...change })).toBeNull()
  })
})

/** Mean and standard error of simulated runs. */
function simulated(runs: number, oneRun: () => number) {
  const lengths = Array.from({ length: runs }, oneRun)
  const mean = lengths.reduce((sum, length) => sum + length, 0) / runs
  const variance = lengths.reduce((sum, length) => sum + (length - mean) ** 2, 0) / (runs - 1)
  return { mean, standardError: Math.sqrt(variance / runs) }
}

/** Readings until `poissonCusum` signals. */
function runOf(
  plan: { direction: 'up' | 'down'; k: number; h: number },
  next: () => { count: number; exposure: number },
) {
  const readings = []
  for (;;) {
    for (let i = 0; i < 100; i += 1) readings.push(next())
    const sum = poissonCusum(readings, plan)
    const first = sum.estimable ? sum.signals[0] : undefined
    if (first !== undefined) return first + 1
  }
}

describe('the sum itself runs as long as the chain says (3,000 invented runs each, seed 20260312)', () => {
  test.each([
    ['up', 1, 1.4, 4, 0],
    ['down', 6, 4.3, 5, 0],
    ['up', 2, 2.9, 9, 0.5],
  ] as const)('%s, mean %d, k %d, h %d, clumping %d', (direction, mean, k, h, clumping) => {
    const chance = mulberry32(20260312)
    const law = clumping === 0 ? Infinity : 1 / clumping
    const seen = simulated(3000, () =>
      runOf({ direction, k, h }, () => ({ count: clumpedCount(mean, law, chance), exposure: 1 })),
    )
    const length = averageRunLength({ direction, mean, k, h, clumping }) ?? 0
    expect(Math.abs(seen.mean - length)).toBeLessThan(4 * seen.standardError)
  })
})

const exposures = [84, 70, 84, 91, 40, 84]
const anyOf = (chance: Chance) => exposures[Math.floor(chance() * exposures.length)] ?? 0

describe('effort that varies', () => {
  const best = cusumReference(0.05, 0.1)
  if (best === null) throw new Error('a reference value was expected')

  test('with equal effort in tenths both bounds are the run length itself', () => {
    const bounds = runLengthWithVariedEffort({
      direction: 'up',
      rate: 0.25,
      k: 0.35,
      h: 4,
      exposures: [4, 4],
    })
    const length = averageRunLength({ direction: 'up', mean: 1, k: 1.4, h: 4 }) ?? 0
    expect((bounds?.atLeast ?? 0) / length).toBeCloseTo(1, 9)
    expect((bounds?.atMost ?? 0) / length).toBeCloseTo(1, 9)
  })

  test.each(['up', 'down'] as const)('%s: simulated runs lie between the bounds', (direction) => {
    const plan = { direction, k: direction === 'up' ? best.k : 0.036, h: 4 }
    const bounds = runLengthWithVariedEffort({ ...plan, rate: 0.05, exposures })
    if (bounds === null) throw new Error('bounds were expected')
    expect(bounds.atMost).toBeGreaterThanOrEqual(bounds.atLeast)
    expect(bounds.atMost / bounds.atLeast).toBeLessThan(1.1)
    const chance = mulberry32(20260312)
    const seen = simulated(3000, () =>
      runOf(plan, () => {
        const exposure = anyOf(chance)
        return { count: clumpedCount(0.05 * exposure, Infinity, chance), exposure }
      }),
    )
    expect(seen.mean).toBeGreaterThan(bounds.atLeast - 4 * seen.standardError)
    expect(seen.mean).toBeLessThan(bounds.atMost + 4 * seen.standardError)
  })

  // ln 100/ln 2 = 6.6439.
  test('the decision value for any effort, worked by hand', () => {
    expect(decisionForAnyEffort(100, 2)).toBeCloseTo(6.6439, 4)
    expect(decisionForAnyEffort(100, 0.5)).toBeCloseTo(6.6439, 4)
  })

  test('it holds also where effort swings from next to none to very much', () => {
    for (const wild of [[1, 400], [84], [2, 2, 2, 900], exposures]) {
      const h = decisionForAnyEffort(50, 2) ?? 0
      const bounds = runLengthWithVariedEffort({ ...best, rate: 0.05, h, exposures: wild })
      expect(bounds?.atLeast).toBeGreaterThan(50)
    }
  })

  test.each([
    ['no exposures', { exposures: [] }],
    ['an exposure of zero', { exposures: [1, 0] }],
    ['a rate of zero', { rate: 0 }],
    ['h above 40', { h: 41 }],
    ['h without end', { h: Infinity }],
    ['negative clumping', { clumping: -1 }],
  ])('%s is null', (_, change) => {
    const plan = { direction: 'up' as const, rate: 1, k: 1.4, h: 4, exposures: [1, 2] }
    expect(runLengthWithVariedEffort({ ...plan, ...change })).toBeNull()
  })

  test.each([
    [1, 2],
    [Number.NaN, 2],
    [100, 1],
    [100, 0],
  ])('no decision value for a run of %s and a factor of %s', (runLength, factor) => {
    expect(decisionForAnyEffort(runLength, factor)).toBeNull()
  })
})
