import { describe, expect, it } from 'vitest'
import { type CatchSeries, catchSeriesOf } from '../../src/ledger/catch-series.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { addedUpByDay } from '../../src/measure/count-trend.js'
import { fitLogLinear } from '../../src/measure/log-linear.js'
import { exactRate, upperBoundWhenNoneCaught } from '../../src/measure/poisson-rate.js'
import { catchMapsOf } from '../../src/reports/hotspots-collect.js'
import { judgeScans } from '../../src/reports/hotspots-judge.js'
import { judge } from '../../src/reports/trend-judge.js'
import { expectedCatches } from '../../src/writing/demo/expected-catch.js'
import { nearSource } from '../../src/writing/demo/trial.js'
import { trialOf } from '../../src/writing/demo/trials.js'
import { drawLedger } from '../writing/demo/drawn-ledger.js'

/**
 * Ledgers whose truth is known, read as any other: what is said of them holds as often as it claims, less two standard
 * errors of so few ledgers. tests/bench/known-truth.js does this a thousand times and more, and under hardships.
 */
const ledgersOfEach = 15

interface KnownSeries {
  readonly series: CatchSeries
  readonly count: number
  readonly effort: number
  readonly expected: number
}

interface KnownLedger {
  readonly view: SiteView
  readonly period: { readonly from: number; readonly to: number }
  readonly all: readonly CatchSeries[]
  readonly known: readonly KnownSeries[]
}

function knownLedger(seed: number, planted: boolean): KnownLedger {
  const trial = trialOf('none', planted)
  const { truth, views } = drawLedger({ sites: 1, years: 2, seed, clean: true, trial })
  const [view] = views
  if (!view) throw new Error(`seed ${seed} could not be read`)
  const expected = expectedCatches(truth, trial, view)
  const all = catchSeriesOf(view, truth.from, truth.until)
  const known = all.flatMap((series): KnownSeries[] => {
    const days = expected.get(`${series.area} ${series.pest}`)
    if (!days) return []
    const { observations } = series
    return [
      {
        series,
        count: observations.reduce((sum, { count }) => sum + count, 0),
        effort: observations.reduce((sum, { trapNights }) => sum + trapNights, 0),
        expected: observations.reduce((sum, { day }) => sum + (days.get(day) ?? 0), 0),
      },
    ]
  })
  return { view, period: { from: truth.from, to: truth.until }, all, known }
}

const seeds = Array.from({ length: ledgersOfEach }, (_, n) => n + 1)
const level = seeds.map((seed) => knownLedger(seed, false))
const planted = seeds.map((seed) => knownLedger(seed, true))
const ledgers = [...level, ...planted]

/** Share of hits over all ledgers, and two standard errors of it, ledgers being what is independent. */
function shareOver(from: readonly KnownLedger[], hitsOf: (ledger: KnownLedger) => boolean[]) {
  const each = from.map((ledger) => {
    const hits = hitsOf(ledger)
    return { hits: hits.filter(Boolean).length, cases: hits.length }
  })
  const sum = (of: (one: { hits: number; cases: number }) => number) =>
    each.reduce((total, one) => total + of(one), 0)
  const cases = sum((one) => one.cases)
  const share = sum(({ hits }) => hits) / cases
  const error = (2 * Math.sqrt(sum((one) => (one.hits - share * one.cases) ** 2))) / cases
  return { share, error, cases }
}

describe('ledgers whose truth is known', () => {
  it('hold in all what the truth expects in the same intervals', () => {
    // Poisson: the sum over all series has its mean as its variance.
    const all = ledgers.flatMap(({ known }) => known)
    const caught = all.reduce((sum, { count }) => sum + count, 0)
    const expected = all.reduce((sum, one) => sum + one.expected, 0)
    expect(expected).toBeGreaterThan(10_000)
    expect(Math.abs(caught - expected) / Math.sqrt(expected)).toBeLessThan(3)
  })

  it('have their true rates in the exact 95 % intervals, and are bounded where nothing was caught', () => {
    const { share, error, cases } = shareOver(ledgers, ({ known }) =>
      known.map(({ count, effort, expected }) => {
        const interval = exactRate(count, effort)
        return interval !== null && interval.lower <= expected / effort && expected / effort <= interval.upper
      }),
    )
    expect(cases).toBeGreaterThan(800)
    expect(share).toBeGreaterThanOrEqual(0.95 - error)
    const tooLow = shareOver(ledgers, ({ known }) =>
      known
        .filter(({ expected }) => expected < 5)
        .map(
          ({ count, effort, expected }) =>
            count === 0 && (upperBoundWhenNoneCaught(effort) ?? 0) < expected / effort,
        ),
    )
    expect(tooLow.share).toBeLessThanOrEqual(0.05 + tooLow.error)
  })

  it('have their true slopes in the limits of the fitted lines, neither too seldom nor too often', () => {
    const { share, error, cases } = shareOver(level, ({ known }) =>
      known
        .filter(({ expected }) => expected >= 20)
        .map(({ series }) => {
          const fit = fitLogLinear(
            addedUpByDay(
              series.observations.map(({ day, count, trapNights }) => ({ day, count, exposure: trapNights })),
            ),
          )
          return fit.estimable && fit.quasi !== null && fit.quasi.lower <= 0 && fit.quasi.upper >= 0
        }),
    )
    expect(cases).toBeGreaterThan(300)
    expect(share).toBeGreaterThanOrEqual(0.93 - error)
    expect(share).toBeLessThanOrEqual(0.97 + error)
  })

  it('are seldom said to rise or fall where nothing does', () => {
    const { share } = shareOver(level, ({ all, period }) => [
      judge(all, period).some(({ verdict }) => verdict === 'rising' || verdict === 'falling'),
    ])
    // 5 % of 15 ledgers is 0.75; three or more come by chance in 4 of 100 such tests.
    expect(share * ledgersOfEach).toBeLessThanOrEqual(2)
  })

  it('show the planted source, and seldom a place where none is', () => {
    const source = trialOf('none', true).pests['german-cockroach']?.source
    const found = planted.filter(({ view, period }) =>
      judgeScans(catchMapsOf(view, period).maps).some(
        ({ map, clusters }) =>
          map.pest === 'german-cockroach' &&
          clusters.some(
            ({ cluster, members }) =>
              cluster.p <= 0.05 &&
              members.some(({ spot }) => spot && nearSource(source, [spot.x, spot.y]) > 1),
          ),
      ),
    )
    expect(found.length).toBeGreaterThanOrEqual(ledgersOfEach - 1)
    const wrong = level.filter(({ view, period }) =>
      judgeScans(catchMapsOf(view, period).maps).some(({ clusters }) =>
        clusters.some(({ standsOut }) => standsOut),
      ),
    )
    expect(wrong.length).toBeLessThanOrEqual(2)
  })
})
