import { describe, expect, it } from 'vitest'
import type { CatchObservation } from '../../src/ledger/catch-series.js'
import { addMonths, isoOf } from '../../src/measure/calendar.js'
import { benjaminiHochberg } from '../../src/measure/false-discovery.js'
import { mannKendall } from '../../src/measure/mann-kendall.js'
import { trendCautions } from '../../src/reports/trend-cautions.js'
import { judge } from '../../src/reports/trend-judge.js'
import { goesTheOtherWay, rankChecks } from '../../src/reports/trend-ranks.js'
import { twoSeasonsOf } from '../../src/reports/trend-season.js'
import { trendTable } from '../../src/reports/trend-tables.js'
import { day } from '../ledger/small-site.js'
import { board, only, renewedReadings, rowsOf, trendOn } from './trend-ledgers.js'

const period = { from: day('2026-01-01'), to: day('2026-12-31') }
const everyMonth = (counts: readonly number[]): CatchObservation[] =>
  counts.map((count, at) => ({ day: period.from + 30 * at, count, trapNights: 30, files: [] }))
const series = (counts: readonly number[], area = 'kitchen') => ({
  site: 'oak',
  area,
  pest: 'german-cockroach',
  observations: everyMonth(counts),
})
const cellsOf = (counts: readonly number[]) =>
  only(trendTable(judge([series(counts)], period), period).rows).cells

describe('the order of the readings', () => {
  it('of five rising by two each is up, with the slope of the median pair', () => {
    // S = 10 of 10 pairs. Exact p: two of 5! = 120 orders are as far from none. Every pair rises by 2 in 30 nights of
    // one board, in 30 days: 2/30 · 7 = 0.4667 a trap-week. N = 10 slopes; √(5·4·15/18) · 1.96 = 8.002, so the limits
    // have the ranks 0 and 11, which are not there.
    expect(cellsOf([10, 12, 14, 16, 18])).toMatchObject({
      order: 'up',
      'order-tau': 1,
      'order-p': expect.closeTo(1 / 60, 12),
      'order-p-adjusted': expect.closeTo(1 / 60, 12),
      'median-slope': expect.closeTo((2 * 7) / 30, 12),
      'median-slope-low': null,
      'median-slope-high': null,
      'years-order': null,
      'year-slope': null,
    })
    expect(cellsOf([18, 16, 14, 12, 10]).order).toBe('down')
  })

  it('with ties has the normal p', () => {
    // S = 5; variance (6·5·17 − 5·4·15)/18 = 11.667; z = 4/3.4157 = 1.1711; p = 0.2416; τ-b = 5/√((15 − 10) · 15).
    const cells = cellsOf([3, 3, 3, 3, 3, 20])
    expect(cells).toMatchObject({ order: 'neither', 'median-slope': 0 })
    expect(cells['order-tau']).toBeCloseTo(0.57735, 5)
    expect(cells['order-p']).toBeCloseTo(0.2416, 4)
    expect(cells.method).toContain('p by the normal approximation')
    expect(cellsOf([10, 12, 14, 16, 18]).method).toContain('exact p')
  })

  it.each([
    ['four days read', [10, 20, 40, 80]],
    ['nine animals', [0, 1, 1, 2, 2, 3]],
    ['all alike', [5, 5, 5, 5, 5, 5]],
    ['one reading', [50]],
  ])('of %s cannot be told', (_, counts) => {
    expect(cellsOf(counts)).toMatchObject({ order: 'cannot tell', 'order-p-adjusted': null })
  })

  it('is adjusted over all series with enough days and animals, as the verdict is', () => {
    const counts = [
      [10, 12, 14, 16, 18],
      [5, 9, 2, 14, 8],
      [12, 3, 9, 7, 1],
      [1, 0, 1, 0, 1],
    ]
    const judged = judge(
      counts.map((one, at) => series(one, `room-${at}`)),
      period,
    )
    const p = counts.map((one, at) => {
      const kendall = mannKendall(one.map((value, time) => ({ time, value })))
      return kendall.estimable && at < 3 ? (kendall.pExact ?? kendall.p) : null
    })
    expect(judged.map(({ ranks }) => ranks.adjustedP)).toEqual(benjaminiHochberg(p))
    // 1/60 of three tests is 0.05, as near as a double comes.
    expect(judged[0]?.ranks.adjustedP).toBeCloseTo(0.05, 12)
  })

  it('does not change a verdict, and is told where it goes the other way', () => {
    const [rising] = judge([series([1, 2, 3, 5, 8, 12, 18, 27, 40, 60])], period)
    if (!rising) throw new Error('one series is judged')
    expect([rising.verdict, goesTheOtherWay('rising', rising.ranks)]).toEqual(['rising', false])
    const cautions = (shown: typeof rising) =>
      trendCautions({
        period,
        seasons: twoSeasonsOf(period),
        seriesOfLedger: 1,
        shown: [shown],
        catches: [],
      }).join('\n')
    expect(cautions(rising)).not.toContain('the other way')
    const other = { ...rising, verdict: 'falling' as const }
    expect(cautions(other)).toContain(
      'goes the other way than the verdict for German cockroach in oak kitchen (falling)',
    )
    expect(only(trendTable([other], period).rows).cells.why).toContain(
      'the order of the readings goes the other way',
    )
  })
})

describe('the order of the years', () => {
  /** A reading on the 5th of every month. */
  const monthly = (from: string, counts: readonly number[]) =>
    renewedReadings(
      Object.fromEntries(counts.map((count, at) => [isoOf(addMonths(day(from), at)), { K1: count }])),
    )
  const year = [1, 2, 4, 8, 12, 20, 31, 25, 14, 9, 3, 1]
  const visits = {
    '2024-12-05': `set: {K1: ${board()}}`,
    ...monthly('2025-01-05', [...year, ...year.map((count) => count + 3)]),
  }

  it('holds each month against itself, so that a season is no trend', () => {
    const { cells } = only(rowsOf(trendOn(visits, { from: day('2025-01-01') }), 'trend'))
    // Twelve months rise once each: S = 12, variance 12, z = 11/√12 = 3.1754, p = 0.0015. No month strays: χ² = 0.
    expect(cells['years-order']).toBe('up')
    expect(cells['years-p-adjusted']).toBeCloseTo(0.0015, 4)
    expect(cells['months-alike-p']).toBe(1)
    // Three more in 31 nights seven times, in 30 four times, in 28 once: the middle is 3/31 · 7 a trap-week.
    expect(cells['year-slope']).toBeCloseTo((3 * 7) / 31, 12)
    expect(cells.order).toBe('neither')
  })

  it('is told only of two years or more', () => {
    const { cells } = only(rowsOf(trendOn(visits, { from: day('2025-01-02') }), 'trend'))
    expect([cells['years-order'], cells['years-p-adjusted']]).toEqual([null, null])
    expect(trendOn(visits, { from: day('2025-01-01') }).cautions[1]).toContain('same month of other years')
    expect(trendOn(visits, { from: day('2025-01-02') }).cautions[1]).not.toContain('other years')
  })

  it('cannot be told together where the months go different ways', () => {
    // Over four years: six months rise each year, six fall.
    const years = [0, 1, 2, 3].flatMap((at) => year.map((_, month) => (month < 6 ? 10 + at : 40 - at)))
    const all = { '2022-12-05': `set: {K1: ${board()}}`, ...monthly('2023-01-05', years) }
    const { cells } = only(rowsOf(trendOn(all, { from: day('2023-01-01') }), 'trend'))
    // Each z is ±6/√(4·3·13/18) = ±2.038 (up to effort in leap years); χ² = 12 · 2.038² = 49.8 on 11 degrees of freedom.
    expect(cells['years-order']).toBe('months differ')
    expect(Number(cells['months-alike-p'])).toBeLessThan(0.001)
  })
})

it('no reading or no series at all is no fault', () => {
  expect(rankChecks([], () => true, period)).toEqual([])
  const [none] = rankChecks([[]], () => true, period)
  expect(none).toMatchObject({ direction: 'cannot tell', adjustedP: null, seasonal: null })
})
