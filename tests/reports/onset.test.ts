import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { isoOf } from '../../src/measure/calendar.js'
import { chooseCusum } from '../../src/measure/cusum-choice.js'
import { exactRate, oneSidedUpperBound } from '../../src/measure/poisson-rate.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportText } from '../../src/output/report-text.js'
import { onsetReport } from '../../src/reports/onset.js'
import type { SitePest } from '../../src/reports/onset-collect.js'
import { judgeOnsets } from '../../src/reports/onset-judge.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { notFinite } from '../measure/not-finite.js'
import { generatedLedger } from './generated-ledger.js'

type Texts = Readonly<Record<string, string>>

const board = (area = 'kitchen', kind = 'sticky-trap') =>
  `{kind: ${kind}, area: ${area}, for: [german-cockroach]}`
const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  ...more,
})

function reportOn(visits: Texts, more: Partial<ReportOptions> = {}, others: Texts = {}): Report {
  return onsetReport(memorySource(oakFiles(visits, others)), options(more))
}

const rowsOf = (report: Report, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []
const only = (rows: readonly Row[]) => {
  const [row, ...others] = rows
  if (!row || others.length > 0) throw new Error(`one row is asked for, not ${rows.length}`)
  return row
}

const begin = day('2025-08-20')
/**
 * One board, read and renewed every 30 days: ten readings in the year before 2026-07-01 (the last on 2026-06-16), then
 * 2026-07-16, 08-15, 09-14, 10-14, 11-13 and 12-13. A count that is a text is a whole visit.
 */
function readings(
  before: readonly number[],
  since: readonly (number | string)[],
  more: Texts = {},
): Record<string, string> {
  const visits: Record<string, string> = { [isoOf(begin)]: `set: {K1: ${board()}}` }
  const add = (read: number | string, at: number) => {
    visits[isoOf(begin + 30 * at)] =
      typeof read === 'string' ? read : `readings: {K1: {german-cockroach: ${read}, renewed: yes}}`
  }
  for (const [at, count] of before.entries()) add(count, at + 1 + 10 - before.length)
  for (const [at, read] of since.entries()) add(read, at + 11)
  return { ...visits, ...more }
}

const twos = Array.from({ length: 10 }, () => 2)
const nones = Array.from({ length: 10 }, () => 0)
const rise = [2, 3, 6, 7, 2, 9]

/** Nothing that is not a number in any format, and every row says which files it rests on. */
function expectFit(report: Report): void {
  expect(notFinite(report)).toEqual([])
  const json = reportJson(report)
  const text = reportText(report, { paint: plainPainter, showWork: true })
  for (const output of [json, text, ...report.tables.map(({ id }) => reportCsv(report, id))])
    expect(output).not.toMatch(/NaN|Infinity|undefined/)
  for (const row of report.tables.flatMap(({ rows }) => rows)) expect(row.records).not.toEqual([])
  expect(report.headline).toMatch(/^[A-Z0-9].*\.$/)
}

describe('a rise', () => {
  // Usual: 20 caught in 300 nights, and half an animal over all of them: 20.5/300 × 30 = 2.05 a reading. No clumping: ten
  // twos do not vary. 80 % upper limit of 20 (Garwood): 24.728, so the chart is set for 2.05 × 24.728/20.5 = 2.4728.
  const chosen = chooseCusum({
    mean: (oneSidedUpperBound(20, 1, 0.8) ?? 0) / 10,
    factor: 2,
    runLength: 200,
  })
  if (!chosen.chosen) throw new Error('a mean of 2.5 has a chart')
  const report = reportOn(readings(twos, rise))
  const { cells, records } = only(rowsOf(report, 'risen'))

  it('is noticeable at the first reading at which the sum reaches its limit', () => {
    // (5.0 − 2.4728)/ln 2 = 3.6 is rounded to 3.5, which is near enough. Sums: 2 − 3.5 < 0, so 0; 3 − 3.5 < 0, so 0;
    // 6 − 3.5 = 2.5; 2.5 + 7 − 3.5 = 6.0, which is the first at or above 6. The chart is set for 200, of which 100 is claimed.
    expect([chosen.k, chosen.h]).toEqual([3.5, 6])
    expect(cells).toMatchObject({
      site: 'oak',
      pest: 'German cockroach',
      noticeable: '2026-10-14',
      began: '2026-09-14',
      allowed: 3.5,
      limit: 6,
      where: 'kitchen',
      readings: 6,
      effort: 180,
      clumping: 0,
    })
    expect(cells.sum).toBeCloseTo(6, 12)
    expect(cells['run-length']).toBe(chosen.runLength / 2)
    expect(chosen.runLength).toBeGreaterThanOrEqual(100)
    // Every reading had 30 nights, so the bound at the efforts as they were is that of even effort, rounding apart.
    expect(Number(cells['run-length-varied'])).toBeLessThanOrEqual((chosen.runLength / 2) * 1.0001)
    expect(Number(cells['run-length-varied'])).toBeGreaterThan((0.9 * chosen.runLength) / 2)
  })

  it('comes with what was usual and how sure that is', () => {
    // Two readings: usual 4.1, and 6 + 7 caught. Garwood's 95 % limits of 20 are 12.217 and 30.888, of 300 nights.
    const limits = exactRate(20, 300)
    expect(cells).toMatchObject({ caught: 13, 'trap-nights': 60, 'caught-shown': '13, usual 4.1' })
    expect(cells.usual).toBeCloseTo(4.1, 10)
    expect(cells['usual-low']).toBeCloseTo(60 * (limits?.lower ?? 0), 10)
    expect(cells['usual-high']).toBeCloseTo(60 * (limits?.upper ?? 0), 10)
    expect(cells).toMatchObject({ 'baseline-caught': 20, 'baseline-effort': 300, 'baseline-readings': 10 })
    expect(cells.baseline).toBeCloseTo((7 * 20) / 300, 12)
    expect(cells['baseline-low']).toBeCloseTo(7 * (limits?.lower ?? 0), 12)
    expect(cells['baseline-high']).toBeCloseTo(7 * (limits?.upper ?? 0), 12)
  })

  it('tells the last reading, and rests on every reading of both years', () => {
    expect(cells).toMatchObject({ 'last-read': '2026-12-13', 'last-caught': 9 })
    expect(cells['last-sum']).toBeCloseTo(10, 12)
    expect(records).toHaveLength(16)
  })

  it('is told in one sentence', () => {
    expect(report.headline).toBe(
      'The rise of German cockroach at Oak School should have been noticed on 2026-10-14; no other catch has risen beyond chance.',
    )
    expect(report.period).toEqual({ from: '2026-07-01', to: '2026-12-31' })
    // 6 readings at a run of 129 readings: far fewer than one false signal.
    expect(report.cautions.join(' ')).toContain(
      'at least 100 readings on average: fewer than one is expected',
    )
  })

  it('is drawn with its limit when one series is asked for', () => {
    const drawn = reportOn(readings(twos, rise), { site: 'oak', pest: 'german-cockroach' })
    // 10.0 at the end: 6.0 + 2 − 3.5 = 4.5, and 4.5 + 9 − 3.5 = 10.
    const sums = drawn.plots?.[0]?.points.map(({ value }) => Number(value?.toFixed(9)))
    expect(sums).toEqual([0, 0, 2.5, 6, 4.5, 10])
    expect(drawn.plots?.[0]?.line?.value).toBe(6)
    expect(report.plots).toBeUndefined()
    expectFit(drawn)
  })

  it('fits every format', () => expectFit(report))
})

describe('what came after', () => {
  const action = (pest = 'german-cockroach') =>
    `actions: {cleaned: {did: cleaned behind the range, tactic: cleaning, area: kitchen, pest: ${pest}}}`
  const rowOf = (more: Texts, others: Texts = {}) =>
    only(rowsOf(reportOn(readings(twos, rise, more), {}, others), 'risen'))
  const plan = (threshold: string) => ({
    'plans/german-cockroach.yaml': `spans: [{from: 2025-01-01, ${threshold}, tactics: {clean: {do: Clean nightly}}}]`,
  })

  it.each([
    ['later', { '2026-10-20': action() }, '2026-10-20, 6 days later', 6],
    ['on the same day', { '2026-10-14-reyes': action() }, '2026-10-14, the same day', 0],
    ['before the sum was sure', { '2026-09-15': action() }, '2026-09-15, 29 days before', -29],
    ['before the rise began, so not about it', { '2026-08-15-reyes': action() }, 'nothing recorded', null],
    ['against another pest', { '2026-10-20': action('house-mouse') }, 'nothing recorded', null],
  ])('something was done %s', (_, more, words, days) => {
    const { cells } = rowOf(more)
    expect([cells['done-shown'], cells['acted-after']]).toEqual([words, days])
  })

  it.each([
    ['no plan', {}, 'no threshold'],
    // 7 on 2026-10-14 is the first at or above 7.
    ['crossed with it', plan('thresholds: {kitchen: {act-at: 7, per: room}}'), '2026-10-14'],
    ['crossed before the sum', plan('thresholds: {kitchen: {act-at: 6, per: room}}'), '2026-09-14'],
    // Two and three were at or above two as well, and every reading of the year before.
    ['crossed all along', plan('thresholds: {kitchen: {act-at: 2, per: room}}'), '2025-09-19'],
    ['one is enough', plan('act-on-one: [kitchen]'), '2025-09-19'],
    ['never crossed', plan('thresholds: {kitchen: {act-at: 100, per: room}}'), 'not crossed'],
    ['another room', plan('thresholds: {office: {act-at: 1, per: room}}'), 'no threshold'],
    ['no extent', plan('thresholds: {kitchen: {act-at: 1, per: 100 ft2}}'), 'cannot tell'],
  ])('threshold: %s', (_, others, says) => {
    expect(rowOf({}, others).cells.threshold).toBe(says)
  })
})

describe('what is usual', () => {
  /** A kitchen board that catches and a store board that does not, both read each time. */
  const both = (count: number) => `readings: {K1: {german-cockroach: ${count}, renewed: yes}, none: [S1]}`

  it('is that of the place: traps read again alone are not held against the whole building', () => {
    const visits: Record<string, string> = { [isoOf(begin)]: `set: {K1: ${board()}, S1: ${board('store')}}` }
    for (let at = 1; at <= 10; at++) visits[isoOf(begin + 30 * at)] = both(6)
    for (let at = 11; at <= 16; at++) {
      // The same six a month, three of them found half-way when only the kitchen was read.
      visits[isoOf(begin + 30 * at - 15)] = 'readings: {K1: {german-cockroach: 3, renewed: yes}}'
      visits[isoOf(begin + 30 * at)] = both(3)
    }
    // The first of those, on 2026-07-01, is judged: 12 readings. By the building's rate of 60 in 600 nights a kitchen
    // reading of 15 nights would have 1.5 usual; by the kitchen's own it has 3.
    const { cells } = only(rowsOf(reportOn(visits), 'no-signal'))
    expect(cells).toMatchObject({ caught: 36, readings: 12 })
    // Kitchen (60/300 + 0.5/600) × 180 + store 0.5/600 × 180 = 36.15 + 0.15.
    expect(cells.usual).toBeCloseTo(36.3, 10)
  })

  it('of another kind of device, or of a place without earlier readings, is not known', () => {
    const visits = readings(twos, rise, {
      '2026-07-02': `set: {K2: ${board('kitchen', 'glue-board')}, R1: ${board('room-1')}}`,
      '2026-11-20': 'readings: {K2: {german-cockroach: 50}, R1: {german-cockroach: 70}}',
    })
    const report = reportOn(visits)
    const { cells } = only(rowsOf(report, 'risen'))
    expect(cells).toMatchObject({ noticeable: '2026-10-14', 'last-caught': 9, readings: 6 })
    expect(cells['too-new']).toBe('kitchen, room-1')
    expect(report.notExamined.join(' ')).toContain('not compared: oak kitchen, room-1 (German cockroach)')
  })

  it('after nothing was caught is still not impossible', () => {
    // 0 in 300 nights: 80 % upper limit −ln 0.2 = 1.609, 0.161 a reading; k = 0.161/ln 2 = 0.23, so 0.2.
    // Sums: 0, 0, 0.8, 1.6, 4.4 at a limit of 4.
    const { cells } = only(rowsOf(reportOn(readings(nones, [0, 0, 1, 1, 3, 0])), 'risen'))
    expect(cells).toMatchObject({ allowed: 0.2, limit: 4, noticeable: '2026-11-13', began: '2026-09-14' })
    expect(cells.sum).toBeCloseTo(4.4, 12)
    expect(cells['baseline-low']).toBe(0)
    // One or two animals are not beyond chance.
    expect(rowsOf(reportOn(readings(nones, [0, 0, 1, 1, 0, 0])), 'risen')).toEqual([])
  })

  it('is learnt from the year before the period that is asked for', () => {
    const report = reportOn(readings(twos, rise), { from: day('2026-10-01') })
    // From 2025-10-01 on nine twos, then 2, 3, 6: 29 in 12 × 30 nights. Judged: three readings.
    const row = [...rowsOf(report, 'risen'), ...rowsOf(report, 'no-signal')][0]
    expect(row?.cells).toMatchObject({ 'baseline-caught': 29, 'baseline-effort': 360, readings: 3 })
    expect(reportOn(readings(twos, rise), { to: day('2026-10-13') }).headline).toContain(
      'No catch has risen beyond chance',
    )
  })
})

describe('many series', () => {
  const files = generatedLedger(7)
  const all = onsetReport(memorySource(files), options())
  const tables = ['risen', 'no-signal', 'not-judged']
  const cellsIn = (report: Report, table: string, site?: string, pest?: string) =>
    rowsOf(report, table)
      .map(({ cells }) => cells)
      .filter(
        (cells) => (site === undefined || cells.site === site) && (pest === undefined || cells.pest === pest),
      )

  it('are all judged, and some have risen', () => {
    // 3 sites, 2 pests.
    expect(tables.flatMap((table) => cellsIn(all, table))).toHaveLength(6)
    expect(cellsIn(all, 'risen').length).toBeGreaterThan(1)
    expectFit(all)
  })

  it.each(['ash', 'elm', 'oak'])('the filter for site %s hides the others and changes nothing', (site) => {
    const one = onsetReport(memorySource(files), options({ site }))
    for (const table of tables) expect(cellsIn(one, table)).toEqual(cellsIn(all, table, site))
    expect(one.cautions).toEqual(all.cautions)
  })

  it('so does the filter for a pest', () => {
    const one = onsetReport(memorySource(files), options({ pest: 'german-cockroach' }))
    for (const table of tables)
      expect(cellsIn(one, table)).toEqual(cellsIn(all, table, undefined, 'German cockroach'))
  })

  it('are the same whatever the order of the files', () => {
    const backwards = onsetReport(memorySource(new Map([...files].reverse())), options())
    expect(reportJson(backwards)).toBe(reportJson(all))
  })

  it.each([
    // 5 × 6 = 30 readings, 30 × 6 = 180, 100 × 6 = 600.
    [5, 100],
    [30, 180],
    [100, 500],
  ])('%i of six readings each: one false signal in %i readings', (sites, runLength) => {
    const days = { baselineFrom: begin, from: begin + 305, to: begin + 500 }
    const series = Array.from({ length: sites }, (_, at) => steadySeries(`site-${at}`))
    const judged = judgeOnsets(series, days)
    expect(judged.runLength).toBe(runLength)
    expect(judged.watched).toHaveLength(sites)
    for (const { statedRunLength, chosen, signal } of judged.watched) {
      expect(statedRunLength).toBeGreaterThanOrEqual(runLength)
      // The chart is set for twice what is claimed, since what is usual is only learnt.
      expect(chosen.runLength).toBe(2 * statedRunLength)
      expect(signal).toBeUndefined()
    }
    // All alike: readings over the run length that is claimed.
    const length = judged.watched[0]?.statedRunLength ?? 0
    expect(judged.falseExpected).toBeCloseTo((6 * sites) / length, 9)
  })
})

function steadySeries(site: string): SitePest {
  return {
    site,
    siteName: site,
    pest: 'german-cockroach',
    readings: Array.from({ length: 16 }, (_, at) => ({
      day: begin + 30 * (at + 1),
      parts: [{ part: 'kitchen sticky-trap', count: 2, effort: 30 }],
      files: [`${site}-${at}`],
    })),
    areaOf: new Map([['kitchen sticky-trap', 'kitchen']]),
    done: [],
    threshold: { crossings: [], wasJudged: false, cannotTell: false },
  }
}

describe('what cannot be judged', () => {
  it.each([
    [
      'too few readings before',
      readings([2, 2, 2, 2], rise),
      'no baseline yet: 4 days read in the year before, 5 needed',
    ],
    ['none before', readings([], rise), 'no baseline yet: no day read in the year before, 5 needed'],
    [
      'five days, in two areas',
      readings([2, 2, 2], [2], {
        '2026-01-01': `set: {R1: ${board('room-1')}}`,
        '2026-01-11': 'readings: {R1: {german-cockroach: 1, renewed: yes}}',
        '2026-01-21': 'readings: {R1: {german-cockroach: 1, renewed: yes}}',
      }),
      'no baseline yet: 5 days read in the year before, but no kind of device in an area on 5',
    ],
    ['nothing since', readings(twos, []), 'not read in this period'],
    [
      'other devices since',
      readings(twos, [], {
        '2026-07-02': `set: {R1: ${board('room-1')}}`,
        '2026-08-02': 'readings: {R1: {german-cockroach: 9}}',
      }),
      'none of the devices with a baseline was read in this period',
    ],
    [
      'a hundred thousand are usual each time',
      readings(
        Array.from({ length: 10 }, () => 100_000),
        [100_000, 300_000],
      ),
      'so many are usual that no sum is needed to see a doubling: compare single readings',
    ],
    [
      'millions are usual',
      readings(
        Array.from({ length: 10 }, () => 3_000_000),
        [3_000_000, 9_000_000],
      ),
      'the numbers are beyond what can be reckoned with',
    ],
  ])('%s: no all-clear', (_, visits, why) => {
    const report = reportOn(visits)
    expect(only(rowsOf(report, 'not-judged')).cells).toMatchObject({ site: 'oak', why })
    expect(report.headline).toMatch(/^Nothing can be told of a rise: one series .* could not be judged/)
    expectFit(report)
  })

  it('is said beside what can be', () => {
    const visits = readings(twos, [2, 2], {
      '2026-07-02': `set: {M1: {kind: snap-trap, area: store, for: [house-mouse]}}`,
      '2026-07-03': 'readings: {none: [M1]}',
    })
    expect(reportOn(visits).headline).toBe(
      'No catch has risen beyond chance since 2026-07-01, in one series of a pest at a site; one series could not be judged.',
    )
  })
})

describe('records as they come', () => {
  it.each([
    ['an empty ledger', {}],
    ['a board never read', { [isoOf(begin)]: `set: {K1: ${board()}}` }],
    ['only read on the day it was set', { [isoOf(begin)]: `set: {K1: ${board()}}\nreadings: {none: [K1]}` }],
    [
      'all unusable',
      readings([], ['readings: {K1: {unusable: missing}}', 'readings: {K1: {unusable: wet, renewed: yes}}']),
    ],
    ['no access', readings([], ['readings: {K1: {no-access: locked}}'])],
  ])('%s: nothing can be told', (_, visits) => {
    const report = reportOn(visits)
    expect(report.headline).toBe(
      'Nothing that was asked for was read in this period or in the year before, so nothing can be told of a rise.',
    )
    expectFit(report)
  })

  it('one reading since is judged as one', () => {
    // 10 − 3.5 = 6.5 at a limit of 6; 8 − 3.5 = 4.5, three quarters of it.
    expect(only(rowsOf(reportOn(readings(twos, [10])), 'risen')).cells).toMatchObject({
      noticeable: '2026-07-16',
      readings: 1,
    })
    expect(only(rowsOf(reportOn(readings(twos, [8])), 'no-signal')).cells).toMatchObject({ nearness: 75 })
  })

  it('zeros all along are no rise', () => {
    const report = reportOn(readings(nones, [0, 0, 0, 0, 0, 0]))
    // Half an animal in 300 nights, over 180 nights: 0.3; at most 3.689/300 × 180 = 2.2.
    expect(only(rowsOf(report, 'no-signal')).cells).toMatchObject({
      caught: 0,
      'usual-shown': '0.3 (0.0 to 2.2)',
      nearness: 0,
    })
    expectFit(report)
  })

  it('a reading that is missing is no zero, and the others stand', () => {
    const missing = readings(twos, [2, 3, 'readings: {K1: {unusable: missing, renewed: yes}}', 7, 7])
    const { cells } = only(rowsOf(reportOn(missing), 'risen'))
    // 0, 0, then 3.5 and 7.
    expect(cells).toMatchObject({ noticeable: '2026-11-13', readings: 4 })
  })

  it('two visits on one day are one reading', () => {
    const twice = readings(twos, rise, { [isoOf(begin)]: `set: {K1: ${board()}, K2: ${board()}}` })
    for (let at = 1; at <= 16; at++) twice[`${isoOf(begin + 30 * at)}-reyes`] = 'readings: {none: [K2]}'
    const { cells } = only(rowsOf(reportOn(twice), 'risen'))
    expect(cells).toMatchObject({ readings: 6, effort: 360, 'baseline-readings': 10, 'baseline-effort': 600 })
  })

  it('a board renewed and read again on one day keeps what was caught', () => {
    const again = readings(twos, rise, {
      '2026-10-14-reyes': 'readings: {K1: {german-cockroach: 1, renewed: yes}}',
    })
    const report = reportOn(again)
    expect(only(rowsOf(report, 'risen')).cells).toMatchObject({ noticeable: '2026-10-14' })
    expectFit(report)
  })

  it('a million is a rise', () => {
    const report = reportOn(readings(twos, [2, 1_000_000]))
    expect(only(rowsOf(report, 'risen')).cells).toMatchObject({ noticeable: '2026-08-15', sum: 999_996.5 })
    expectFit(report)
  })

  it('a rise on the last day of the record is told', () => {
    const report = reportOn(readings(twos, [2, 30]), { asOf: day('2026-08-15') })
    expect(only(rowsOf(report, 'risen')).cells).toMatchObject({
      noticeable: '2026-08-15',
      'done-shown': 'nothing recorded',
    })
  })

  it('a site with a record that cannot be read is not examined, and the report is incomplete', () => {
    const report = reportOn(readings(twos, ['readings: {K1: {german-cockroach: many}}']))
    expect(report.incomplete).toBe(true)
    expect(report.headline).toBe(
      'What was asked for could not be examined, so nothing can be told of a rise.',
    )
    expect(report.notExamined[0]).toContain('sites/oak')
    expectFit(report)
  })
})
