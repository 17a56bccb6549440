import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { isoOf } from '../../src/measure/calendar.js'
import { trendOf } from '../../src/measure/count-trend.js'
import { benjaminiHochberg } from '../../src/measure/false-discovery.js'
import { exactRate } from '../../src/measure/poisson-rate.js'
import type { ReportOptions } from '../../src/reports/options.js'
import { trendReport } from '../../src/reports/trend.js'
import type { Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { expectAgrees, referenceKind } from '../measure/stats-reference.js'
import { generatedLedger } from './generated-ledger.js'

const board = (traps: number, area = 'kitchen') =>
  `{kind: sticky-trap, area: ${area}, for: [german-cockroach], traps: ${traps}}`
const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  ...more,
})

function reportOn(visits: Readonly<Record<string, string>>, more: Partial<ReportOptions> = {}) {
  return trendReport(memorySource(oakFiles(visits)), options(more))
}

const rowsOf = (report: ReturnType<typeof reportOn>, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []
const only = (rows: readonly Row[]) => {
  const [row, ...others] = rows
  if (!row || others.length > 0) throw new Error(`one row is asked for, not ${rows.length}`)
  return row
}

/** Monthly readings of one board that is renewed each time: the counts are the catches. */
function monthly(counts: readonly number[], every = 30): Record<string, string> {
  const begin = day('2026-01-01')
  const visits: Record<string, string> = { [isoOf(begin)]: `set: {K1: ${board(1)}}` }
  counts.forEach((count, at) => {
    visits[isoOf(begin + every * (at + 1))] = `readings: {K1: {german-cockroach: ${count}, renewed: yes}}`
  })
  return visits
}

describe('a rate', () => {
  it('is the catch over the effort, with the exact interval of the published reference', () => {
    // 12 traps for 7 nights are 84 trap-nights, as in the case trap_week: 12 monitors for 7 days, 7 caught.
    const report = reportOn({
      '2026-03-01': `set: {K1: ${board(12)}}`,
      '2026-03-08': 'readings: {K1: {german-cockroach: 7}}',
    })
    const { cells } = only(rowsOf(report, 'trend'))
    expect(cells).toMatchObject({ caught: 7, 'trap-nights': 84, readings: 1, verdict: 'unclear' })
    const reference = referenceKind<
      { count: number; exposure: number },
      { rate: number; ci95: { lower: number; upper: number } }
    >('poisson_rate_ci')
    const expected = reference.cases.find(({ id }) => id === 'trap_week')?.expected
    const perNight = (cell: unknown) => Number(cell) / 7
    expectAgrees(perNight(cells['per-trap-week']), expected?.rate, reference, 'rate')
    expectAgrees(perNight(cells['per-trap-week-low']), expected?.ci95.lower, reference, 'lower limit')
    expectAgrees(perNight(cells['per-trap-week-high']), expected?.ci95.upper, reference, 'upper limit')
    // 7/84 = 0.0833 a night, 0.58 a week; limits 0.0335 × 7 = 0.23 and 0.1717 × 7 = 1.20.
    expect(cells['per-trap-week-shown']).toBe('0.58 (0.23 to 1.20)')
    expect(cells['per-trap-night']).toBeCloseTo(1 / 12, 12)
  })

  it('adds up days and devices; what tells nothing is left out with its effort', () => {
    const report = reportOn({
      '2026-03-01': `set: {K1: ${board(1)}, K2: ${board(2)}}`,
      '2026-03-08':
        'readings: {K1: {german-cockroach: 3}, K2: {unusable: wet, german-cockroach: 9, renewed: yes}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 4}, K2: {no-access: locked}}',
      '2026-03-22': 'readings: {K1: {german-cockroach: 9, after-flush: yes}, K2: {german-cockroach: 2}}',
    })
    // K1: 3 in 7, 1 in 7, and the flushed one not at all. K2: the wet one not, then 2 in 2 × 14.
    const { cells, records } = only(rowsOf(report, 'trend'))
    expect(cells).toMatchObject({ caught: 6, 'trap-nights': 42, readings: 3 })
    const rate = exactRate(6, 42)
    expect(cells['exact-high']).toBeCloseTo((rate?.upper ?? Number.NaN) * 7, 12)
    // 3, 1 and 2 in 7, 7 and 28 nights: whatever clumping three readings leave open makes it wider.
    expect(Number(cells['per-trap-week-high'])).toBeGreaterThan(Number(cells['exact-high']))
    expect(records).toEqual(['08', '15', '22'].map((date) => `sites/oak/visits/2026-03-${date}-okafor.yaml`))
  })
})

describe('a verdict', () => {
  it.each([
    ['rising', [1, 2, 3, 5, 8, 12, 18, 27, 40, 60], 'the whole interval is above no change'],
    ['falling', [60, 40, 27, 18, 12, 8, 5, 3, 2, 1], 'the whole interval is below no change'],
    ['steady', [90, 91, 89, 90, 90, 91, 89, 90, 90, 90], 'the interval is tight around no change'],
    ['unclear', [3, 0, 4, 1, 2, 0, 5, 1, 0, 3], 'the interval is too wide to tell'],
    // Doubling each time, but read four times only.
    ['unclear', [5, 10, 20, 40], 'too few days read'],
  ])('is %s for %j', (verdict, counts, why) => {
    const { cells } = only(rowsOf(reportOn(monthly(counts)), 'trend'))
    expect([cells.verdict, cells.why]).toEqual([verdict, why])
  })

  it('rests on the trend of the days as they were read, and the change is per 30 days', () => {
    const counts = [1, 2, 3, 5, 8, 12, 18, 27, 40, 60]
    const { cells } = only(rowsOf(reportOn(monthly(counts)), 'trend'))
    const trend = trendOf(
      counts.map((count, at) => ({ day: day('2026-01-01') + 30 * (at + 1), count, exposure: 30 })),
    )
    if (!trend.estimable) throw new Error('ten months with a catch have a trend')
    expect(cells.change).toBeCloseTo((trend.perMonth - 1) * 100, 9)
    expect(cells['change-low']).toBeCloseTo((trend.lower - 1) * 100, 9)
    expect(cells['change-high']).toBeCloseTo((trend.upper - 1) * 100, 9)
    // The only series: adjusting changes nothing.
    expect(cells['p-adjusted']).toBeCloseTo(trend.p, 12)
    // 60 after nine steps from 1 is a factor of 60^(1/9) = 1.58 each; the first steps doubled, so a fit is near it.
    expect(cells.change).toBeGreaterThan(40)
    expect(cells.change).toBeLessThan(80)
    expect(cells.readings).toBe(10)
  })

  it('is told in one sentence', () => {
    expect(reportOn(monthly([1, 2, 3, 5, 8, 12, 18, 27, 40, 60])).headline).toBe(
      'One catch is surely rising, first of all German cockroach in oak kitchen; 0 falling, 0 steady, 0 unclear, and 0 without a catch.',
    )
    expect(reportOn({}).headline).toBe('No trap was read in this period, so nothing can be said.')
  })
})

describe('among many series', () => {
  const source = memorySource(generatedLedger(7))
  const all = trendReport(source, options())
  const same = (row: Row) => JSON.stringify(row)

  it('what surely changes comes first, rising before falling, each with the highest rate first', () => {
    const rank = { rising: 0, falling: 1, unclear: 2, steady: 3 }
    const order = rowsOf(all, 'trend').map(({ cells }) => [
      rank[cells.verdict as keyof typeof rank],
      -Number(cells['per-trap-week']),
    ])
    expect(order.length).toBeGreaterThan(25)
    expect(order).toEqual([...order].sort(([a = 0, b = 0], [c = 0, d = 0]) => a - c || b - d))
  })

  it('p is adjusted over all of them', () => {
    // 3 sites × 5 areas × 2 pests.
    expect(all.cautions[0]).toContain('over all 30 series')
    const rows = [...rowsOf(all, 'trend')]
    expect(rows.length + rowsOf(all, 'none-caught').length).toBe(30)
    const alone = rows.map((row) => {
      const filtered = readAlone(row)
      // Series with fewer than ten animals in all are not among those tested.
      return filtered.estimable && Number(row.cells.caught) >= 10 ? filtered.p : null
    })
    const adjusted = benjaminiHochberg(alone)
    rows.forEach((row, at) => {
      const p = adjusted[at]
      if (p === null || p === undefined) expect(row.cells['p-adjusted']).toBeNull()
      else expect(row.cells['p-adjusted']).toBeCloseTo(p, 12)
    })
    const tested = adjusted.filter((p) => p !== null).length
    expect(tested).toBeGreaterThan(15)
    expect(tested).toBeLessThan(rows.length)
    for (const { cells } of rows) {
      if (Number(cells.caught) < 10 && cells.change !== null)
        expect(cells.why).toBe('too few animals caught in all')
    }
    // The ledger has a series that alone would pass for a change, and among thirty does not.
    expect(rows.map(({ cells }) => cells.why)).toContain('not sure enough among so many series')
    expect(rows.map(({ cells }) => cells.verdict)).toContain('rising')
  })

  /** The trend of one row from the counts in the ledger's own text, by another way than through the ledger. */
  function readAlone({ cells }: Row) {
    const pest = cells.pest === 'German cockroach' ? 'german-cockroach' : 'ant'
    const device = `K${Number(String(cells.area).slice('room-'.length)) - 1}`
    const counts = [...generatedLedger(7)].flatMap(([path, text]) => {
      const date = new RegExp(`^sites/${cells.site}/visits/(.{10})`).exec(path)?.[1]
      const count = new RegExp(`${device}: \\{[^}]*${pest}: ([0-9]+)`).exec(text)?.[1]
      return date === undefined || count === undefined
        ? []
        : [{ day: day(date), count: Number(count), exposure: 28 }]
    })
    expect(counts).toHaveLength(12)
    return trendOf(counts)
  }

  it.each(['ash', 'elm', 'oak'])('the filter for site %s hides the others and changes nothing', (site) => {
    const filtered = trendReport(source, options({ site }))
    for (const table of ['trend', 'none-caught']) {
      const expected = rowsOf(all, table).filter(({ cells }) => cells.site === site)
      expect(rowsOf(filtered, table).map(same)).toEqual(expected.map(same))
    }
    expect(filtered.cautions).toEqual(all.cautions)
  })

  it.each([
    ['german-cockroach', 'German cockroach'],
    ['ant', 'ant, kind not told'],
  ])('the filter for %s hides the other and changes nothing', (pest, name) => {
    const filtered = trendReport(source, options({ pest, site: 'elm' }))
    const expected = rowsOf(all, 'trend').filter(({ cells }) => cells.site === 'elm' && cells.pest === name)
    expect(expected.length).toBeGreaterThan(2)
    expect(rowsOf(filtered, 'trend').map(same)).toEqual(expected.map(same))
  })
})

describe('none caught', () => {
  it('comes with how much that tells, least looked at first', () => {
    const report = reportOn({
      '2026-03-01': `set: {K1: ${board(10)}, R1: ${board(4, 'room-1')}, S1: ${board(20, 'store')}}`,
      '2026-03-11': 'readings: {none: [K1, R1, S1]}',
      '2026-03-21': 'readings: {none: [S1]}',
    })
    expect(rowsOf(report, 'trend')).toEqual([])
    // −ln 0.05 = 2.9957 (Hanley & Lippman-Hand 1983). 40 nights: 2.9957/40 × 7 = 0.524 a trap-week; 100: 0.2097;
    // 400: 0.0524. Less than 0.1 a trap-week needs 2.9957/(0.1/7) = 209.7 nights: 169.7, 109.7 and none more.
    expect(
      rowsOf(report, 'none-caught').map(({ cells }) => [
        cells.area,
        cells['trap-nights'],
        Number(cells['at-most']).toFixed(4),
        cells['nights-missing'],
      ]),
    ).toEqual([
      ['room-1', 40, '0.5243', 170],
      ['kitchen', 100, '0.2097', 110],
      ['store', 400, '0.0524', 0],
    ])
    expect(report.headline).toBe(
      'No catch is surely rising; 0 falling, 0 steady, 0 unclear, and 3 without a catch.',
    )
  })

  it('agrees with the reference: 90 monitors for 28 days', () => {
    const report = reportOn({
      '2026-03-01': `set: {${[1, 2, 3, 4, 5].map((at) => `K${at}: ${board(18)}`).join(', ')}}`,
      '2026-03-29': 'readings: {none: [K1, K2, K3, K4, K5]}',
    })
    const reference = referenceKind<unknown, { zero_upper95_exact?: number }>('poisson_rate_ci')
    const expected = reference.cases.find(({ id }) => id === 'zero_many_days')?.expected.zero_upper95_exact
    const { cells } = only(rowsOf(report, 'none-caught'))
    expect(cells['trap-nights']).toBe(2520)
    expectAgrees(Number(cells['at-most']) / 7, expected, reference, 'upper bound')
  })

  it('is no row where nothing was read', () => {
    const report = reportOn({
      '2026-03-01': `set: {K1: ${board(1)}}`,
      '2026-03-08': 'readings: {K1: {no-access: locked}}',
      '2026-03-15': 'readings: {K1: {unusable: missing}}',
    })
    expect(rowsOf(report, 'none-caught')).toEqual([])
  })
})

describe('the period', () => {
  const visits = {
    '2025-12-01': `set: {K1: ${board(1)}}`,
    '2025-12-31': 'readings: {K1: {german-cockroach: 100, renewed: yes}}',
    '2026-01-01': 'readings: {K1: {german-cockroach: 1, renewed: yes}}',
    '2026-06-30': 'readings: {K1: {german-cockroach: 20, renewed: yes}}',
    '2026-12-31': 'readings: {K1: {german-cockroach: 300, renewed: yes}}',
  }
  const caughtIn = (more: Partial<ReportOptions>) => {
    const report = reportOn(visits, more)
    return [report.period?.from, report.period?.to, only(rowsOf(report, 'trend')).cells.caught]
  }

  it.each([
    ['the year up to the as-of day', {}, ['2026-01-01', '2026-12-31', 321]],
    ['also in the middle of a year', { asOf: day('2026-06-30') }, ['2025-07-01', '2026-06-30', 121]],
    ['the year up to a last day', { to: day('2026-12-30') }, ['2025-12-31', '2026-12-30', 121]],
    [
      'both days that are named included',
      { from: day('2026-01-01'), to: day('2026-06-30') },
      ['2026-01-01', '2026-06-30', 21],
    ],
    [
      'and no day beside them',
      { from: day('2026-01-02'), to: day('2026-12-30') },
      ['2026-01-02', '2026-12-30', 20],
    ],
  ])('is %s', (_, more, expected) => {
    expect(caughtIn(more)).toEqual(expected)
  })

  it('of no whole year comes with a word on the season', () => {
    expect(reportOn(visits).cautions[1]).not.toContain('no whole year')
    expect(reportOn(visits, { from: day('2026-02-01') }).cautions[1]).toContain('no whole year')
  })
})

it('a site with a record that cannot be read is not examined, and the report is incomplete', () => {
  const report = reportOn({ ...monthly([1, 2]), '2026-05-01': 'readings: {K1: {german-cockroach: many}}' })
  expect(report.incomplete).toBe(true)
  expect(rowsOf(report, 'trend')).toEqual([])
  expect(report.notExamined[0]).toContain('sites/oak')
})
