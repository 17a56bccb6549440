import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportText } from '../../src/output/report-text.js'
import { conditionsReport } from '../../src/reports/conditions.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string>>

const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-06-30'),
  asOfIsToday: false,
  ...more,
})

function reportOn(visits: Texts, others: Texts = {}, more: Partial<ReportOptions> = {}): Report {
  return conditionsReport(memorySource(oakFiles(visits, others)), options(more))
}

const rowsOf = (report: Report, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []
const cellsOf = (report: Report, table: string, which = 'all') =>
  rowsOf(report, table).find(({ cells }) => cells.which === which)?.cells

const fault = (more: string) => `{new: drip, area: kitchen, kind: moisture, gives: water${more}}`
const found = (name: string, more = ', owner: maintenance') => `conditions: {${name}: ${fault(more)}}`
const repair = (...names: string[]) => `by: lind\nmends: [${names.join(', ')}]\ndone: new washer\n`

/** Everything a report can be printed as, to look for what may never be printed. */
function printed(report: Report): string {
  return [
    reportJson(report),
    reportText(report, { paint: plainPainter, showWork: true }),
    ...report.tables.map(({ id }) => reportCsv(report, id)),
  ].join('\n')
}
const notANumber = /\bNaN\b|Infinity|\bundefined\b/

/** Four found on 1 March: mended after 2, 5 and 9 days, and one open still. */
const four: Texts = {
  '2026-03-01': `conditions:
  a: ${fault(', owner: maintenance, by: 2026-03-05')}
  b: ${fault(', owner: maintenance, by: 2026-03-05')}
  c: ${fault(', owner: kitchen, by: 2026-03-20')}
  d: ${fault(', owner: maintenance, by: 2026-07-15')}`,
}
const fourMended: Texts = {
  'sites/oak/repairs/2026-03-03-lind.yaml': repair('a'),
  'sites/oak/repairs/2026-03-06-lind.yaml': repair('b'),
  'sites/oak/repairs/2026-03-10-lind.yaml': repair('c'),
}

describe('the time to repair', () => {
  it('is that by which half were put right, those still open counted as open', () => {
    const report = reportOn(four, fourMended)
    // Still open: 3/4 from day 2, 1/2 from day 5, 1/4 from day 9. Half all the way from 5 to 9, so the middle, 7.
    // On day 2 the lower limit is 0.75^exp(1.96·√(1/12)/|ln 0.75|) = 0.128, below a half, so the lower limit is 2. On
    // day 9 the upper one is 0.25^exp(-1.96·√0.75/|ln 0.25|) = 0.665, above a half, so there is no upper limit.
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      found: 4,
      'put-right': 3,
      'put-right-shown': '3 of 4',
      days: 7,
      'days-low': 2,
      'days-high': null,
      'days-shown': '7 days (2 or more)',
      'days-why': 'too few to tell an upper limit',
      'still-open': 1,
      open: 1,
      overdue: 0,
    })
    expect(report.headline).toBe(
      'One correctable condition is open, since 2026-03-01, and it is not overdue; of those found in the period, half were put right within 7 days (2 or more).',
    )
  })

  it('is told by owner, by what it gives and by kind, and counts what came back anew', () => {
    const report = reportOn(
      { ...four, '2026-03-20': 'conditions: {a: {still: dripping again, by: 2026-03-31}}' },
      { ...fourMended, 'sites/oak/repairs/2026-04-10-lind.yaml': repair('a') },
    )
    // a again: 21 days, from 20 March to 10 April.
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({ found: 5, 'put-right': 4, days: 9 })
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      'came-back-shown': '1 of 4',
      'came-back-count': 1,
      'came-back-of': 4,
      'came-back': 25,
    })
    // Maintenance: 2, 5 and 21 days and one open: half from 5 to 21, so 13.
    expect(cellsOf(report, 'time-to-repair', 'maintenance')).toMatchObject({ found: 4, days: 13 })
    expect(cellsOf(report, 'time-to-repair', 'kitchen')).toMatchObject({
      found: 1,
      days: 9,
      'days-low': null,
      'days-high': null,
      'days-shown': '9 days (no limits)',
    })
    expect(rowsOf(report, 'time-to-repair').map(({ cells }) => `${cells.by} ${cells.which}`)).toEqual([
      'all all',
      'owner maintenance',
      'owner kitchen',
      'gives water',
      'kind moisture',
    ])
  })

  it('leaves out what was found before the period, but not from what is open now', () => {
    const report = reportOn(
      { '2026-01-05': found('old'), '2026-04-01': found('young') },
      {},
      { from: day('2026-03-01') },
    )
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({ found: 1, 'still-open': 1, open: 2 })
    expect(rowsOf(report, 'open').map(({ cells }) => cells.since)).toEqual(['2026-01-05', '2026-04-01'])
  })

  it('goes on after the end of the period, until the as-of day', () => {
    const report = reportOn(four, fourMended, { from: day('2026-03-01'), to: day('2026-03-04') })
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({ found: 4, 'put-right': 3, days: 7 })
  })

  it.each([
    [
      'is none where nothing is put right yet',
      {},
      { days: null, 'days-shown': null, 'put-right': 0 },
      'fewer than half were put right so far',
    ],
    [
      'is none at all where all is put right on the very day',
      { 'sites/oak/repairs/2026-03-01-lind.yaml': repair('a', 'b', 'c', 'd') },
      { days: 0, 'days-shown': '0 days (no limits)', 'put-right': 4 },
      'half were put right on the very day',
    ],
  ])('%s', (_, others, cells, words) => {
    const report = reportOn(four, others)
    expect(cellsOf(report, 'time-to-repair')).toMatchObject(cells)
    expect(report.headline).toContain(words)
    expect(printed(report)).not.toMatch(notANumber)
  })
})

describe('put right in time', () => {
  it('is judged once the day stated is past, and a day late is late', () => {
    const report = reportOn(four, fourMended)
    // a before its day; b on the day after it; c early, its day past by now; d open and its day to come.
    // Wilson for 2 of 3: (2 + 1.921 ± 1.96·√(2/3 + 0.960))/6.841 = 0.208 and 0.939.
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      'in-time-count': 2,
      'in-time-of': 3,
      'in-time-shown': '67 % (21 to 94)',
      'day-not-past': 1,
    })
    expect(cellsOf(report, 'time-to-repair')?.['in-time-low']).toBeCloseTo(20.7659, 3)
    expect(cellsOf(report, 'time-to-repair')?.['in-time-high']).toBeCloseTo(93.8508, 3)
  })

  it('waits for the day also where it was put right early, as it does where it is open', () => {
    const report = reportOn(
      { '2026-06-20': found('a', ', by: 2026-07-10') },
      { 'sites/oak/repairs/2026-06-22-lind.yaml': repair('a') },
    )
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      'in-time-of': 0,
      'in-time-shown': null,
      'day-not-past': 1,
    })
  })

  it('counts what is open past its day as not in time, and is by the day agreed before the first was past', () => {
    const report = reportOn({
      '2026-03-01': `conditions:
  late: ${fault(', by: 2026-03-10')}
  longer: ${fault(', by: 2026-03-10')}`,
      '2026-03-09': 'conditions: {longer: {still: part ordered, by: 2026-03-31}}',
      '2026-03-30': 'conditions: {longer: {closed: dry}}',
    })
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      'in-time-count': 1,
      'in-time-of': 2,
      overdue: 1,
    })
  })

  it('is not judged without a day, nor by one that lies before the day it was found', () => {
    const report = reportOn({
      '2026-03-01': `conditions:
  undated: ${fault('')}
  past: ${fault(', by: 2026-02-20')}`,
    })
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      'in-time-of': 0,
      'in-time': null,
      'no-day-stated': 1,
      'day-before-found': 1,
    })
    // The rule calls it overdue from the day it was found: 121 days by 30 June.
    expect(
      rowsOf(report, 'open').map(({ cells }) => [cells.due, cells['overdue-days'], cells['open-days']]),
    ).toEqual([
      ['2026-02-20', 121, 121],
      ['no day stated', 0, 121],
    ])
  })
})

describe('what is open now', () => {
  const three: Texts = {
    '2026-05-01': `conditions:
  young: ${fault(', owner: kitchen, by: 2026-06-20')}
  today: ${fault(', owner: office, by: 2026-06-30')}`,
    '2026-04-01': found('undated', ''),
    '2026-06-10': found('overdue', ', owner: maintenance, by: 2026-06-12'),
  }

  it('begins with the longest overdue, then the oldest', () => {
    const report = reportOn(three)
    expect(
      rowsOf(report, 'open').map(({ cells }) => [cells.condition, cells['overdue-days'], cells['put-to']]),
    ).toEqual([
      ['2026-06-10-okafor/overdue', 18, 'maintenance'],
      ['2026-05-01-okafor/young', 10, 'site manager'],
      ['2026-04-01-okafor/undated', 0, 'maintenance'],
      ['2026-05-01-okafor/today', 0, 'site manager'],
    ])
    expect(report.headline).toMatch(
      /^4 correctable conditions are open, 2 of them overdue, the oldest since 2026-04-01; /,
    )
  })

  it('tells people when it is due, or how long ago it was', () => {
    const words = rowsOf(reportOn(three), 'open').map(({ cells }) => cells['due-shown'])
    expect(words).toEqual(['18 days overdue', '10 days overdue', 'no day stated', 'by 2026-06-30'])
  })

  it('is what was open on the as-of day, and what came back is open since it came back', () => {
    const visits = { '2026-03-01': found('a'), '2026-04-01': 'conditions: {a: {still: dripping again}}' }
    const others = { 'sites/oak/repairs/2026-03-03-lind.yaml': repair('a') }
    expect(rowsOf(reportOn(visits, others), 'open')[0]?.cells).toMatchObject({
      since: '2026-04-01',
      'open-days': 90,
      'times-back': 1,
    })
    expect(rowsOf(reportOn(visits, others, { asOf: day('2026-03-20') }), 'open')).toEqual([])
  })

  it('may have been found on the very as-of day', () => {
    const report = reportOn({ '2026-06-30': found('a', ', owner: office, by: 2026-06-30') })
    expect(rowsOf(report, 'open')[0]?.cells).toMatchObject({ 'open-days': 0, 'overdue-days': 0 })
    expect(report.headline).toBe(
      'One correctable condition is open, since 2026-06-30, and it is not overdue; of those found in the period, fewer than half were put right so far.',
    )
  })

  it('leaves out a closed site, and says so', () => {
    const site = `name: Oak School\nuntil: 2026-05-31\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {kitchen: {kind: kitchen}}\n`
    const report = reportOn({ '2026-05-01': found('a', ', by: 2026-06-10') }, { 'sites/oak/site.yaml': site })
    expect(rowsOf(report, 'open')).toEqual([])
    expect(cellsOf(report, 'time-to-repair')).toMatchObject({
      found: 1,
      'put-right': 0,
      'in-time-of': 0,
      'site-closed': 1,
    })
    expect(report.notExamined).toContain(
      'One condition was open when its site closed; it is not counted as open.',
    )
  })
})

describe('month by month', () => {
  it('counts what is open and overdue when a month ends, and draws it', () => {
    const report = reportOn(four, fourMended, { from: day('2026-02-01') })
    const rows = rowsOf(report, 'months').filter(({ cells }) => cells.site === 'all sites')
    expect(
      rows.map(({ cells }) => [cells.month, cells.found, cells['put-right'], cells.open, cells.overdue]),
    ).toEqual([
      ['2026-02', 0, 0, 0, 0],
      ['2026-03', 4, 3, 1, 0],
      ['2026-04', 0, 0, 1, 0],
      ['2026-05', 0, 0, 1, 0],
      ['2026-06', 0, 0, 1, 0],
    ])
    expect(report.plots?.[0]?.points.map(({ value }) => value)).toEqual([0, 1, 1, 1, 1])
    const later = reportOn(four, fourMended, { asOf: day('2026-07-31'), from: day('2026-07-01') })
    expect(rowsOf(later, 'months')[0]?.cells).toMatchObject({ month: '2026-07', open: 1, overdue: 1 })
    expect(later.plots).toBeUndefined()
  })
})

describe('a filter', () => {
  const elm: Texts = {
    'sites/elm/site.yaml':
      'name: Elm School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {kitchen: {kind: kitchen}}\n',
    'sites/elm/visits/2026-04-01-okafor.yaml': `purpose: follow-up\nby: okafor\n${found('e', ', owner: kitchen, by: 2026-04-10')}\n`,
  }
  const whole = reportOn(four, { ...fourMended, ...elm })
  const oak = reportOn(four, { ...fourMended, ...elm }, { site: 'oak' })

  it('only hides rows', () => {
    for (const table of oak.tables) {
      const rows = JSON.stringify(rowsOf(whole, table.id).filter(({ cells }) => cells.site === 'oak'))
      if (table.id === 'time-to-repair' || table.id === 'before-pests') expect(table.rows).toEqual([])
      else expect(JSON.stringify(table.rows)).toBe(rows)
    }
    expect(rowsOf(oak, 'open')).toHaveLength(1)
    expect(rowsOf(whole, 'open')).toHaveLength(2)
    expect(oak.headline).toContain('half were put right within 7 days (2 or more)')
    expect(cellsOf(oak, 'time-to-repair-within-sites', 'kitchen')).toMatchObject({ found: 1, days: 9 })
    expect(cellsOf(whole, 'time-to-repair', 'kitchen')).toMatchObject({ found: 2 })
  })

  it('does not depend on the order of the files', () => {
    const files = oakFiles(four, { ...fourMended, ...elm })
    const turned = new Map([...files].reverse())
    expect(reportJson(conditionsReport(memorySource(turned), options()))).toBe(reportJson(whole))
  })
})

describe('where there is little to tell', () => {
  it('says so when nothing is on record', () => {
    const report = reportOn({})
    expect(report.headline).toBe(
      'No correctable condition is open, and none was found in this period; that none was written down does not show that there was none.',
    )
    expect(report.incomplete).toBe(false)
    expect(report.plots).toBeUndefined()
    expect(printed(report)).not.toMatch(notANumber)
  })

  it('is incomplete without a district or with a site that cannot be read', () => {
    const empty = conditionsReport(memorySource(new Map()), options())
    expect(empty.incomplete).toBe(true)
    expect(printed(empty)).not.toMatch(notANumber)
    const broken = reportOn(four, { ...fourMended, 'sites/oak/visits/2026-05-01-okafor.yaml': 'purpose: [' })
    expect(broken.incomplete).toBe(true)
    expect(rowsOf(broken, 'open')).toEqual([])
    expect(broken.notExamined[0]).toMatch(/^sites\/oak: .*2026-05-01-okafor\.yaml cannot be used/)
  })

  it('says what of the period asked for lies after the as-of day', () => {
    expect(reportOn(four, {}, { to: day('2026-12-31') }).cautions.at(-1)).toBe(
      'The period asked for ends after the as-of day; it is told up to that day.',
    )
  })

  it('lists the records behind every row', () => {
    const report = reportOn(four, fourMended)
    for (const table of report.tables)
      for (const row of table.rows)
        if (row.cells.month === undefined && table.id !== 'before-pests') expect(row.records).not.toEqual([])
    expect(rowsOf(report, 'open')[0]?.records).toEqual(['sites/oak/visits/2026-03-01-okafor.yaml'])
    expect(printed(report)).not.toMatch(notANumber)
  })
})
