import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportText } from '../../src/output/report-text.js'
import { complaintsReport } from '../../src/reports/complaints.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string>>

const siteWith = (contract: string, more = '') => `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
${more}contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly${contract}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom}
`
/** Looked at within two days, by contract. */
const twoDays: Texts = { 'sites/oak/site.yaml': siteWith(', complaint-days: 2') }

const complaint = (more = 'area: room-1\npest: house-mouse') =>
  `by: lind\nfrom: staff\n${more}\nsays: droppings in the drawer of Ms Example\n`
const at = (date: string, site = 'oak') => `sites/${site}/complaints/${date}-lind.yaml`

const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-06-30'),
  asOfIsToday: false,
  ...more,
})
function reportOn(visits: Texts, others: Texts = {}, more: Partial<ReportOptions> = {}): Report {
  return complaintsReport(memorySource(oakFiles(visits, { ...twoDays, ...others })), options(more))
}

const rowsOf = (report: Report, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []
const first = (report: Report, table: string) => rowsOf(report, table)[0]?.cells

const textOf = (report: Report, showWork: boolean) => reportText(report, { paint: plainPainter, showWork })
const printed = (report: Report) =>
  [reportJson(report), textOf(report, true), ...report.tables.map(({ id }) => reportCsv(report, id))].join(
    '\n',
  )
const notANumber = /\bNaN\b|Infinity|\bundefined\b/

/** Four complaints in March: answered after 0, 3 and 3 days, and one not at all. */
const four: Texts = Object.fromEntries(
  ['2026-03-02', '2026-03-09', '2026-03-16', '2026-03-23'].map((date) => [at(date), complaint()]),
)
const fourAnswered: Texts = {
  '2026-03-02': 'answers: {2026-03-02-lind: traps set}',
  '2026-03-12': 'answers: {2026-03-09-lind: nothing seen}',
  '2026-03-19': 'answers: {2026-03-16-lind: a gap found}',
}

describe('how complaints were answered', () => {
  it('counts those still open with the days so far', () => {
    const report = reportOn(fourAnswered, four)
    // Waiting still: 3/4 from day 0, 1/4 from day 3: half by day 3. On day 0 the lower limit is 0.128, below a half; on
    // day 3 the upper one is 0.25^exp(-1.96·√0.75/|ln 0.25|) = 0.665, above it, so there is no upper limit.
    expect(first(report, 'answered')).toMatchObject({
      received: 4,
      answered: 3,
      'answered-shown': '3 of 4',
      withdrawn: 0,
      days: 3,
      'days-low': 0,
      'days-high': null,
      'days-shown': '3 days (0 or more)',
      open: 1,
      overdue: 1,
    })
    expect(report.headline).toBe(
      'One complaint waits for an answer, since 2026-03-23, and it is overdue; of the 4 that came in within the period, half were answered within 3 days (0 or more).',
    )
  })

  it('judges those whose day is past, and a day late is late', () => {
    // Within two days: one of four. Wilson: (1 + 1.921 ± 1.96·√(0.75 + 0.960))/7.841 = 0.0456 and 0.6994.
    const cells = first(reportOn(fourAnswered, four), 'answered')
    expect(cells).toMatchObject({ 'in-time-count': 1, 'in-time-of': 4, 'in-time-shown': '25 % (5 to 70)' })
    expect(cells?.['in-time-low']).toBeCloseTo(4.5587, 3)
    expect(cells?.['in-time-high']).toBeCloseTo(69.9359, 3)
    const open = first(reportOn(fourAnswered, four), 'open')
    // 23 March and two days are the 25th; 30 June is 97 days later.
    expect(open).toMatchObject({ due: '2026-03-25', 'open-days': 99, 'overdue-days': 97 })
  })

  it('takes the term of the district where the contract has none, and says whose it is', () => {
    const files = { ...four, 'sites/oak/site.yaml': siteWith('') }
    const none = reportOn(fourAnswered, files)
    expect(first(none, 'answered')).toMatchObject({
      'in-time-of': 0,
      'in-time': null,
      'not-judged': 4,
      overdue: 0,
    })
    expect(first(none, 'open')).toMatchObject({ due: 'no term', 'overdue-days': 0 })
    const district = `format: 1\nname: Example District\ntime-zone: UTC\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: []\ncalendar: []\nunanswered-complaint-days: 3\n`
    const own = reportOn(fourAnswered, { ...files, 'district.yaml': district })
    expect(first(own, 'answered')).toMatchObject({ 'in-time-count': 3, 'in-time-of': 4 })
    expect(first(own, 'open')?.['asked-by']).toBe('district.yaml, set by the district')
  })

  it('leaves withdrawn ones out of all but their number', () => {
    const report = reportOn(
      {},
      { [at('2026-03-02')]: `${complaint()}withdrawn: it was a raisin\n`, [at('2026-06-29')]: complaint() },
    )
    expect(first(report, 'answered')).toMatchObject({
      received: 2,
      'answered-shown': '0 of 1',
      withdrawn: 1,
      open: 1,
    })
    expect(rowsOf(report, 'complaints').map(({ cells }) => [cells.state, cells.withdrawn])).toEqual([
      ['open', null],
      ['withdrawn', 'it was a raisin'],
    ])
  })

  it('takes the first of two answers and keeps the other', () => {
    const report = reportOn(
      { ...fourAnswered, '2026-03-26': 'answers: {2026-03-09-lind: looked again}' },
      four,
    )
    expect(first(report, 'answered')).toMatchObject({ answered: 3, days: 3 })
    const one = rowsOf(report, 'complaints').find(({ cells }) => cells.received === '2026-03-09')
    expect(one?.cells).toMatchObject({
      answered: '2026-03-12',
      days: 3,
      found: 'nothing seen',
      'later-answers': '2026-03-26: looked again',
      'in-time': 'no',
    })
    expect(one?.records).toEqual([
      at('2026-03-09'),
      'sites/oak/visits/2026-03-12-okafor.yaml',
      'sites/oak/visits/2026-03-26-okafor.yaml',
    ])
  })

  it('may wait since the as-of day, and cannot be judged yet', () => {
    const report = reportOn({}, { [at('2026-06-30')]: complaint() })
    expect(first(report, 'open')).toMatchObject({ 'open-days': 0, due: '2026-07-02', 'overdue-days': 0 })
    expect(first(report, 'answered')).toMatchObject({
      days: null,
      'in-time-of': 0,
      'not-judged': 1,
      'too-soon': 1,
    })
    expect(report.headline).toBe(
      'One complaint waits for an answer, since 2026-06-30, and it is not overdue; of the one that came in within the period, fewer than half were answered so far.',
    )
    // Answered early waits for its day too, as what is open must.
    const early = reportOn(
      { '2026-06-30': 'answers: {2026-06-29-lind: seen to}' },
      { [at('2026-06-29')]: complaint() },
    )
    expect(first(early, 'answered')).toMatchObject({ answered: 1, days: 1, 'in-time-of': 0, open: 0 })
  })

  it('cannot tell the time to an answer dated before the complaint, and says so', () => {
    const report = reportOn(
      { '2026-03-01': 'answers: {2026-03-02-lind: done}' },
      { [at('2026-03-02')]: complaint() },
    )
    expect(first(report, 'answered')).toMatchObject({ answered: 1, 'answered-before': 1, days: null })
    expect(first(report, 'answered')?.['days-why']).toBe('there is none to follow')
    expect(report.notExamined).toContain(
      'One complaint is answered by a visit dated before it, so its time to the answer cannot be told.',
    )
    expect(printed(report)).not.toMatch(notANumber)
  })

  it('tells what is open now whenever it came in, and does not count what a closed site left', () => {
    const old = { [at('2026-01-05')]: complaint() }
    const later = reportOn({}, old, { from: day('2026-03-01') })
    expect(rowsOf(later, 'open')).toHaveLength(1)
    expect(first(later, 'answered')).toMatchObject({ received: 0, open: 1 })
    expect(later.headline).toBe('One complaint waits for an answer, since 2026-01-05, and it is overdue.')
    const closed = reportOn(
      {},
      { ...old, 'sites/oak/site.yaml': siteWith(', complaint-days: 2', 'until: 2026-01-06\n') },
    )
    expect(rowsOf(closed, 'open')).toEqual([])
    expect(first(closed, 'answered')).toMatchObject({ received: 1, open: 0, overdue: 0, 'in-time-of': 0 })
    expect(closed.notExamined).toContain(
      'One complaint was not answered before its site closed; it is not counted as open.',
    )
  })
})

describe('what speaks for a complaint', () => {
  const seen = (date: string, pest = 'house-mouse', area = 'room-1'): Texts => ({
    [date]: `inspected: [${area}]\nfound: {x: {area: ${area}, pest: ${pest}, evidence: droppings, age: fresh}}`,
  })
  const one = { [at('2026-03-31')]: complaint() }

  it.each([
    // 1 March is 30 days before 31 March, 30 April 30 days after.
    ['yes', seen('2026-03-01')],
    ['yes', seen('2026-04-30')],
    // The same kind of animal: whoever saw droppings need not know of which rodent.
    ['yes', seen('2026-04-02', 'norway-rat')],
    ['no', { '2026-04-02': 'inspected: [room-1]' }],
    ['no', { ...seen('2026-02-28'), '2026-04-02': 'inspected: [room-1]' }],
    ['no', { ...seen('2026-04-02', 'german-cockroach'), '2026-04-03': 'inspected: [room-1]' }],
    ['cannot tell: nobody looked there within the days', seen('2026-02-28')],
    ['cannot tell: nobody looked there within the days', seen('2026-04-02', 'house-mouse', 'kitchen')],
  ])('is %s for %j', (confirmed, visits) => {
    expect(first(reportOn(visits, one), 'complaints')?.confirmed).toBe(confirmed)
  })

  it('cannot be told without an area or a pest, nor before the days are over', () => {
    const confirmed = (text: string, date = '2026-03-31') =>
      first(reportOn(seen('2026-04-02'), { [at(date)]: complaint(text) }), 'complaints')?.confirmed
    expect(confirmed('pest: house-mouse')).toBe('cannot tell: no area is named')
    expect(confirmed('area: room-1')).toBe('cannot tell: no pest is named')
    expect(confirmed('area: room-1\npest: unidentified')).toBe('cannot tell: no pest is named')
    expect(confirmed('area: room-1\npest: house-mouse', '2026-06-01')).toBe('cannot tell yet')
  })

  it('is a share of those of which it can be told', () => {
    const report = reportOn(
      { ...seen('2026-04-02'), '2026-05-20': 'inspected: [room-1]' },
      { ...one, [at('2026-05-15')]: complaint(), [at('2026-05-16')]: complaint('area: room-1') },
    )
    expect(first(report, 'answered')).toMatchObject({
      'confirmed-shown': '1 of 2',
      confirmed: 50,
      'no-pest': 1,
    })
  })
})

describe('a complaint that came again', () => {
  it('is what the rule on repeats takes for one', () => {
    const district = `format: 1\nname: Example District\ntime-zone: UTC\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: [{rulebook: practice, from: 2026-01-01}]\ncalendar: []\n`
    const report = reportOn(
      {},
      {
        'district.yaml': district,
        [at('2026-01-10')]: complaint(),
        // 59 days later; of another pest; and 61 days after the second.
        [at('2026-03-10')]: complaint(),
        [at('2026-03-12')]: complaint('area: room-1\npest: german-cockroach'),
        [at('2026-05-10')]: complaint(),
      },
    )
    expect(first(report, 'answered')?.repeats).toBe(1)
    expect(first(reportOn(fourAnswered, four), 'answered')?.repeats).toBeNull()
    expect(rowsOf(report, 'complaints').map(({ cells }) => cells['repeat-of'])).toEqual([
      null,
      null,
      '2026-01-10',
      null,
    ])
  })
})

describe('a filter', () => {
  const elm: Texts = {
    'sites/elm/site.yaml':
      'name: Elm School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {room-1: {kind: classroom}}\n',
    [at('2026-04-01', 'elm')]: complaint(),
    [at('2026-04-02', 'elm')]: complaint('area: room-1\npest: german-cockroach'),
  }
  const whole = reportOn(fourAnswered, { ...four, ...elm })

  it.each([
    { site: 'oak' },
    { site: 'elm' },
    { pest: 'house-mouse' },
    { site: 'elm', pest: 'german-cockroach' },
  ])('only hides rows: %j', (asked) => {
    const report = reportOn(fourAnswered, { ...four, ...elm }, asked)
    const isOf = ({ cells }: Row) =>
      (asked.site === undefined || cells.site === asked.site) &&
      (asked.pest === undefined ||
        cells.pest === (asked.pest === 'house-mouse' ? 'house mouse' : 'German cockroach'))
    for (const table of report.tables)
      expect(table.rows, table.id).toEqual(rowsOf(whole, table.id).filter(isOf))
    expect(rowsOf(report, 'answered-by-site-and-pest').length).toBeGreaterThan(0)
  })

  it('does not depend on the order of the files', () => {
    const turned = new Map([...oakFiles(fourAnswered, { ...twoDays, ...four, ...elm })].reverse())
    expect(reportJson(complaintsReport(memorySource(turned), options()))).toBe(reportJson(whole))
  })
})

describe('what people said', () => {
  it('is told only to those who ask to see the work', () => {
    const report = reportOn(fourAnswered, four)
    const people = textOf(report, false)
    for (const secret of ['Ms Example', 'lind', 'traps set', 'staff']) expect(people).not.toContain(secret)
    expect(textOf(report, true)).toContain('droppings in the drawer of Ms Example')
    expect(first(report, 'open')?.says).toBe('droppings in the drawer of Ms Example')
    expect(report.cautions[0]).toMatch(/does not belong on a page that is published/)
  })
})

describe('where there is little to tell', () => {
  it('says so when none is on record', () => {
    const report = reportOn({})
    expect(report.headline).toBe(
      'No complaint is on record for this period and none waits for an answer; that none was written down does not show that there was none.',
    )
    expect(printed(report)).not.toMatch(notANumber)
  })

  it('is incomplete without a district or with a site that cannot be read', () => {
    const empty = complaintsReport(memorySource(new Map()), options())
    expect(empty.incomplete).toBe(true)
    const broken = reportOn(fourAnswered, { ...four, [at('2026-05-05')]: 'by: [' })
    expect(broken.incomplete).toBe(true)
    expect(rowsOf(broken, 'open')).toEqual([])
    expect(broken.notExamined[0]).toMatch(/^sites\/oak: /)
    expect(printed(empty) + printed(broken)).not.toMatch(notANumber)
  })

  it('lists the records behind every row', () => {
    const report = reportOn(fourAnswered, four)
    for (const table of report.tables) for (const row of table.rows) expect(row.records).not.toEqual([])
    expect(printed(report)).not.toMatch(notANumber)
  })
})
