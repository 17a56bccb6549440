import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { fitWithOwnClumping } from '../../src/measure/clumped-fit.js'
import { trendOf } from '../../src/measure/count-trend.js'
import { benjaminiHochberg } from '../../src/measure/false-discovery.js'
import { type CountObservation, fitLogLinear, studentSlopeTest } from '../../src/measure/log-linear.js'
import { type Verdict, verdictOf } from '../../src/measure/verdict.js'
import {
  type Chance,
  inventedSeries,
  mulberry32,
  type SeriesPlan,
  seasonalSeries,
  sharedDays,
  wanderingSeries,
} from './invented-series.js'

/**
 * How often the verdict is wrong on series whose truth is known. Each row is measured from its own seed and
 * held to a stated bound; the figures in src/measure/README.md must be those measured here.
 */
const SERIES = 2000
const LEDGERS = 200
const SEED = 20_260_312

const readme = readFileSync(new URL('../../src/measure/README.md', import.meta.url), 'utf8')

/** The percentages of the README table row that begins with the given cell. */
function figuresOf(row: string): number[] {
  const rows = readme.split('\n').map((line) => line.split('|').map((cell) => cell.trim()))
  const cells = rows.find((candidate) => candidate[1] === row)
  if (cells === undefined) throw new Error(`README.md has no row "${row}"`)
  return cells.filter((cell) => cell.endsWith(' %')).map((cell) => Number(cell.slice(0, -2)))
}

/** Percent to one decimal; a changed last bit of a logarithm may move single series, hence the leeway. */
function expectInReadme(row: string, measured: readonly number[]) {
  const rounded = measured.map((share) => Math.round(1000 * share) / 10)
  const printed = figuresOf(row)
  const agree =
    printed.length === rounded.length && printed.every((one, i) => Math.abs(one - (rounded[i] ?? 0)) < 0.31)
  if (!agree) expect(printed, `README row "${row}"`).toEqual(rounded)
}

/** How often each of several things happens to the same invented series. */
function shares<Series>(
  times: number,
  seed: number,
  invent: (chance: Chance) => Series,
  ...happens: ((series: Series) => boolean)[]
): number[] {
  const chance = mulberry32(seed)
  const counts = happens.map(() => 0)
  for (let i = 0; i < times; i += 1) {
    const series = invent(chance)
    happens.forEach((check, at) => {
      if (check(series)) counts[at] = (counts[at] ?? 0) + 1
    })
  }
  return counts.map((count) => count / times)
}

function verdictAlone(series: readonly CountObservation[]): Verdict {
  const trend = trendOf(series)
  return verdictOf(trend, trend.estimable ? trend.p : null, series.length).verdict
}

function claimed(verdict: Verdict): boolean {
  return verdict === 'rising' || verdict === 'falling'
}

/** What the first variance law alone would claim: quasi-Poisson with the dispersion raised to 1. */
function claimedByFirstLaw(series: readonly CountObservation[]): boolean {
  const fit = fitLogLinear(series)
  if (!fit.estimable || fit.dispersion === null) return false
  const standardError = fit.poisson.standardError * Math.sqrt(Math.max(1, fit.dispersion))
  return studentSlopeTest(fit.slope, standardError, fit.degreesOfFreedom).p <= 0.05
}

function claimedBySecondLaw(series: readonly CountObservation[]): boolean {
  const fit = fitWithOwnClumping(series)
  return fit !== null && studentSlopeTest(fit.slope, fit.standardError, series.length - 2).p <= 0.05
}

interface Judged {
  verdict: Verdict
  holdsTruth: boolean
}

const flat = { perMonth: 1, effort: 'the same' } as const

describe('flat series, one at a time: called rising or falling', () => {
  const plans: [row: string, bound: number, plan: SeriesPlan][] = [
    ['5 readings, mean 10, k 0.5', 0.05, { ...flat, readings: 5, mean: 10, k: 0.5 }],
    ['12 readings, mean 2, k 0.5', 0.05, { ...flat, readings: 12, mean: 2, k: 0.5 }],
    ['18 readings, mean 2, k 0.5', 0.05, { ...flat, readings: 18, mean: 2, k: 0.5 }],
    ['24 readings, mean 2, k 0.5', 0.05, { ...flat, readings: 24, mean: 2, k: 0.5 }],
    ['24 readings, mean 0.5, k 0.5', 0.05, { ...flat, readings: 24, mean: 0.5, k: 0.5 }],
    ['24 readings, mean 10, k 0.5', 0.05, { ...flat, readings: 24, mean: 10, k: 0.5 }],
    ['24 readings, mean 2, no clumping', 0.05, { ...flat, readings: 24, mean: 2, k: Infinity }],
    ['24 readings, mean 10, k 0.1', 0.08, { ...flat, readings: 24, mean: 10, k: 0.1 }],
    [
      '12 readings, mean 2, k 0.5, effort 1 or 4',
      0.05,
      { ...flat, readings: 12, mean: 2, k: 0.5, effort: '1 or 4 at random' },
    ],
    [
      '24 readings, mean 2, k 0.5, effort 1 or 4',
      0.05,
      { ...flat, readings: 24, mean: 2, k: 0.5, effort: '1 or 4 at random' },
    ],
    [
      '24 readings, mean 2, k 0.5, effort 1 then 4',
      0.05,
      { ...flat, readings: 24, mean: 2, k: 0.5, effort: '1, then 4 halfway' },
    ],
    [
      '24 readings, mean 10, k 0.5, effort 1 or 10',
      0.05,
      { ...flat, readings: 24, mean: 10, k: 0.5, effort: '1, one in seven 10' },
    ],
    [
      '24 readings, mean 10, k 0.1, effort 1 or 4',
      0.08,
      { ...flat, readings: 24, mean: 10, k: 0.1, effort: '1 or 4 at random' },
    ],
    [
      '24 readings, mean 10, k 0.1, effort 1 then 4',
      0.08,
      { ...flat, readings: 24, mean: 10, k: 0.1, effort: '1, then 4 halfway' },
    ],
  ]
  test.each(plans)('%s', (row, bound, plan) => {
    const seed = SEED + plans.findIndex((one) => one[0] === row)
    const measured = shares(
      SERIES,
      seed,
      (chance) => inventedSeries(plan, chance),
      claimedByFirstLaw,
      claimedBySecondLaw,
      (series) => claimed(verdictAlone(series)),
    )
    expect(measured[2]).toBeLessThanOrEqual(bound)
    expectInReadme(row, measured)
  })
})

describe('flat series, forty to a ledger: ledgers with any false claim', () => {
  const plans: [row: string, bound: number, plan: SeriesPlan][] = [
    ['40 × 12 readings, mean 2, k 0.5', 0.05, { ...flat, readings: 12, mean: 2, k: 0.5 }],
    ['40 × 24 readings, mean 2, k 0.5', 0.05, { ...flat, readings: 24, mean: 2, k: 0.5 }],
    [
      '40 × 24 readings, mean 2, k 0.5, effort 1 or 4',
      0.05,
      { ...flat, readings: 24, mean: 2, k: 0.5, effort: '1 or 4 at random' },
    ],
    ['40 × 24 readings, mean 10, k 0.1', 0.1, { ...flat, readings: 24, mean: 10, k: 0.1 }],
  ]
  test.each(plans)('%s', (row, bound, plan) => {
    const seed = SEED + 100 + plans.findIndex((one) => one[0] === row)
    const invent = (chance: Chance) => Array.from({ length: 40 }, () => inventedSeries(plan, chance))
    const measured = shares(LEDGERS, seed, invent, (ledger) => {
      const trends = ledger.map(trendOf)
      const adjusted = benjaminiHochberg(trends.map((trend) => (trend.estimable ? trend.p : null)))
      return trends.some((trend, i) => claimed(verdictOf(trend, adjusted[i] ?? null, plan.readings).verdict))
    })
    expect(measured[0]).toBeLessThanOrEqual(bound)
    expectInReadme(row, measured)
  })
})

describe('true change, one series at a time: what is called, and whether the limits hold the truth', () => {
  const plans: [row: string, plan: SeriesPlan][] = [
    ['× 1.2 a month, 12 readings, mean 2, k 0.5', { ...flat, readings: 12, mean: 2, k: 0.5, perMonth: 1.2 }],
    ['× 1.2 a month, 24 readings, mean 2, k 0.5', { ...flat, readings: 24, mean: 2, k: 0.5, perMonth: 1.2 }],
    ['× 1.2 a month, 12 readings, mean 2, k 2', { ...flat, readings: 12, mean: 2, k: 2, perMonth: 1.2 }],
    ['× 1.2 a month, 24 readings, mean 2, k 2', { ...flat, readings: 24, mean: 2, k: 2, perMonth: 1.2 }],
    ['× 1.5 a month, 12 readings, mean 2, k 0.5', { ...flat, readings: 12, mean: 2, k: 0.5, perMonth: 1.5 }],
    ['none, 24 readings, mean 10, no clumping', { ...flat, readings: 24, mean: 10, k: Infinity }],
    ['none, 24 readings, mean 10, k 2', { ...flat, readings: 24, mean: 10, k: 2 }],
  ]
  test.each(plans)('%s', (row, plan) => {
    const seed = SEED + 200 + plans.findIndex((one) => one[0] === row)
    const called = (verdict: Verdict) => (one: Judged) => one.verdict === verdict
    const measured = shares(
      SERIES,
      seed,
      (chance): Judged => {
        const series = inventedSeries(plan, chance)
        const trend = trendOf(series)
        const holdsTruth = !trend.estimable || (trend.lower <= plan.perMonth && plan.perMonth <= trend.upper)
        return { verdict: verdictAlone(series), holdsTruth }
      },
      called('rising'),
      called('falling'),
      called('steady'),
      (one) => one.holdsTruth,
    )
    const [, falling, steady, holdsTruth] = measured
    if (plan.perMonth > 1) {
      expect(falling).toBeLessThanOrEqual(0.005)
      expect(steady).toBeLessThanOrEqual(0.025)
    }
    expect(holdsTruth).toBeGreaterThanOrEqual(0.94)
    expectInReadme(row, measured)
  })
})

describe('beyond the model: measured', () => {
  const rows: [row: string, series: (chance: Chance) => CountObservation[]][] = [
    ['level wanders, 12 readings', (chance) => wanderingSeries(12, 5, chance)],
    ['level wanders, 24 readings', (chance) => wanderingSeries(24, 5, chance)],
    ['season, 6 readings', (chance) => seasonalSeries(6, 5, chance)],
    ['season, 12 readings', (chance) => seasonalSeries(12, 5, chance)],
    ['season, 24 readings', (chance) => seasonalSeries(24, 5, chance)],
  ]
  test.each(rows)('%s', (row, series) => {
    const seed = SEED + 300 + rows.findIndex((one) => one[0] === row)
    expectInReadme(
      row,
      shares(SERIES, seed, series, (one) => claimed(verdictAlone(one))),
    )
  })

  test('six traps that share the luck of the day: added up by day they are no false alarm', () => {
    const measured = shares(
      SERIES,
      SEED + 400,
      (chance) => sharedDays(12, 2, 0.5, chance),
      claimedByFirstLaw,
      (series) => claimed(verdictAlone(series)),
    )
    expect(measured[1]).toBeLessThanOrEqual(0.05)
    expectInReadme('six traps on each of 12 days', measured)
  })
})
