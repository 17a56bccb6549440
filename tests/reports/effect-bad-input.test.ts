import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { effectReport } from '../../src/reports/effect.js'
import { asMeasured } from '../../src/reports/effect-tables.js'
import { timesInWords } from '../../src/reports/effect-words.js'
import type { Report } from '../../src/types.js'
import { board, cleaned, effectOn, effectOptions, only, readEvery, rowsOf } from './effect-ledgers.js'

/** No figure of any table that is not one. */
function expectFigures(report: Report): void {
  for (const table of report.tables) {
    for (const { cells } of table.rows)
      for (const cell of Object.values(cells))
        if (typeof cell === 'number') expect(Number.isFinite(cell)).toBe(true)
    expect(reportCsv(report, table.id)).not.toMatch(/NaN|Infinity/)
  }
  expect(reportJson(report)).not.toMatch(/NaN|Infinity|undefined/)
}

const on = (date: string) => ({ done: { [date]: cleaned() } })

describe.each([
  [
    'one reading before, none after',
    readEvery([5], on('2026-03-11')),
    'no trap reading lies wholly in the days after',
  ],
  [
    'done on the last day of the record',
    readEvery([5, 4, 3], on('2026-03-31')),
    'no trap reading lies wholly in the days after',
  ],
  [
    'done on the day the trap was set',
    { ...readEvery([5, 4, 3]), '2026-03-01': `set: {K1: ${board()}}\n${cleaned()}` },
    'no trap reading lies wholly in the days before',
  ],
  ['all zeros', readEvery([0, 0, 0, 0, 0], on('2026-03-31')), 'nothing was caught before or after'],
  [
    'few animals',
    readEvery([1, 1, 9, 1, 2], on('2026-03-31')),
    'fewer than 6 animals caught on both sides together',
  ],
  [
    'all lost after',
    readEvery([5, 4, 3, null, null], on('2026-03-31')),
    'no trap reading lies wholly in the days after',
  ],
  [
    'one reading on either side, and nothing known of clumping',
    readEvery([50, 40], on('2026-03-11')),
    'too few readings to know how catches clump',
  ],
  [
    'other traps after than before',
    {
      ...readEvery([5, 4, 3]),
      '2026-03-31': `readings: {K1: {german-cockroach: 3, renewed: yes}}\ntaken-up: {K1: broken}\nset: {K2: ${board()}}\n${cleaned()}`,
      '2026-04-10': 'readings: {K2: {german-cockroach: 9, renewed: yes}}',
    },
    'no trap was read both before and after',
  ],
])('%s', (_, visits, why) => {
  const report = effectOn(visits)
  it('cannot tell, with its reason', () => {
    const { cells } = only(rowsOf(report, 'effect'))
    expect([cells.answer, cells.why, cells['p-adjusted']]).toEqual(['cannot tell', why, null])
    expect(report.headline).toBe(
      `The one treatment, repair or other action cannot be judged, mostly since ${why}.`.replace(
        'mostly ',
        '',
      ),
    )
    expectFigures(report)
  })
})

describe('figures stay figures', () => {
  it('with counts of a million', () => {
    const many = readEvery([1e6, 999_999, 1e6, 2, 1e6, 0], on('2026-03-31'))
    const report = effectOn(many)
    const { cells } = only(rowsOf(report, 'effect'))
    // (1000002/300)/(1999999/200).
    expect(cells.change).toBeCloseTo(1_000_002 / 300 / (1_999_999 / 200), 12)
    expect(cells.answer).toBe('cannot tell')
    expectFigures(report)
  })

  it('with nothing caught before: no factor, and no upper limit', () => {
    const report = effectOn(
      readEvery([0, 0, 0, 0, 0, 0, 0, 9, 8, 9, 8], { every: 8, done: { '2026-04-26': cleaned() } }),
      {},
      { window: 60 },
    )
    const { cells } = only(rowsOf(report, 'effect'))
    expect([cells.change, cells['change-high'], cells['caught-before'], cells['caught-after']]).toEqual([
      null,
      null,
      0,
      34,
    ])
    // 34 animals, all after, in 320 of 800 trap-nights. Before there is no animal to tell of clumping: c = 0 with 3 degrees of
    // freedom, so 34/(3.182446/1.959964)² = 12.896 effective ones: p = 2 · 0.4^12.896 = 1.476e-5.
    expect(cells.answer).toBe('rose')
    expect(Number(cells['p-adjusted']) / 1.476e-5).toBeCloseTo(1, 3)
    expectFigures(report)
  })

  it('with two visits on one day: what the second finds belongs to the nights before the first', () => {
    const visits: Record<string, string> = readEvery([4, 6, 30, 2, 3, 0], on('2026-03-31'))
    visits['2026-04-10-reyes'] = 'purpose: callback\nby: reyes\nreadings: {K1: {german-cockroach: 5}}'
    visits['2026-04-20'] = 'readings: {K1: {german-cockroach: 8, renewed: yes}}'
    const { cells } = only(rowsOf(effectOn(visits), 'effect'))
    // 2 and 5 on the tenth, then 8 − 5 = 3 on the twentieth, and none: 10 in 300.
    expect(cells).toMatchObject({ 'caught-after': 10, 'nights-after': 300, 'readings-after': 3 })
  })

  it('with a trap read on the day it was set: its catch is counted with the next reading', () => {
    const visits = {
      '2026-03-01': `set: {K1: ${board()}}`,
      '2026-03-01-reyes':
        'purpose: callback\nby: reyes\ntime: 15:00 to 16:00\nreadings: {K1: {german-cockroach: 2}}',
      '2026-03-11': 'readings: {K1: {german-cockroach: 5, renewed: yes}}',
      '2026-03-21': `readings: {K1: {german-cockroach: 7, renewed: yes}}\n${cleaned()}`,
      '2026-03-31': 'readings: {K1: {german-cockroach: 4, renewed: yes}}',
    }
    // The visit of 2026-03-01 without a time comes last on its day, so it is given one.
    const timed = { ...visits, '2026-03-01': `time: 08:00 to 09:00\n${visits['2026-03-01']}` }
    const { cells } = only(rowsOf(effectOn(timed), 'effect'))
    // 2 at once and 3 more by the eleventh.
    expect(cells).toMatchObject({ 'caught-before': 5, 'nights-before': 100, 'caught-after': 4 })
  })

  it('with a trap picked up meanwhile, whose interval begins when it is put out again', () => {
    const visits = {
      ...readEvery([4, 6, 30]),
      '2026-03-21': 'readings: {K1: {german-cockroach: 6, renewed: yes}}\npicked-up: [K1]',
      '2026-03-25': `put-out: [K1]\n${cleaned()}`,
      '2026-03-31': 'readings: {K1: {german-cockroach: 7, renewed: yes}}',
    }
    const { cells } = only(rowsOf(effectOn(visits), 'effect'))
    // Six nights of ten traps, all of them after.
    expect(cells).toMatchObject({ 'caught-after': 7, 'nights-after': 60 })
  })
})

describe('a factor in words', () => {
  it.each([
    [{ ratio: 0.25, lower: 0.114, upper: 0.426 }, '0.25 (0.11 to 0.43)'],
    [{ ratio: 12.4, lower: 0.5, upper: 250 }, '12 (0.50 to over 100)'],
    [{ ratio: null, lower: 1.5, upper: null }, '1.50 or more'],
    // Limits that bound nothing.
    [{ ratio: 0.2, lower: 0.001, upper: null }, '0.20 (anything)'],
    [{ ratio: 0.2, lower: 0, upper: 2e6 }, '0.20 (anything)'],
    [{ ratio: null, lower: 0, upper: null }, 'anything'],
  ])('%j', (estimate, words) => {
    const measured = asMeasured(estimate)
    expect(measured && timesInWords(measured)).toBe(words)
  })
})

describe('what is not there', () => {
  it('is no error: an empty ledger', () => {
    const report = effectOn({})
    expect(report.headline).toBe('No treatment, repair or other action is on record in this period.')
    expect(report.tables.every(({ rows }) => rows.length === 0)).toBe(true)
    expect(report.incomplete).toBe(false)
    expectFigures(report)
  })

  it('no trap at all where something was done', () => {
    const report = effectOn({ '2026-03-01': cleaned() })
    expect(rowsOf(report, 'effect')).toEqual([])
    expect(only(rowsOf(report, 'not-judged')).cells).toMatchObject({
      why: 'no trap that counts the pest stands there',
      things: 1,
    })
  })

  it('a site that cannot be read is named, and the report is incomplete', () => {
    const report = effectOn({
      ...readEvery([4, 6, 30], on('2026-03-31')),
      '2026-05-01': 'readings: {K1: {ant: many}}',
    })
    expect(report.incomplete).toBe(true)
    expect(report.notExamined[0]).toContain('sites/oak')
    expect(rowsOf(report, 'effect')).toEqual([])
    expect(report.headline).toBe(
      'No treatment, repair or other action is on record in this period in what could be read.',
    )
  })

  it('a ledger without its district', () => {
    const report = effectReport(memorySource(new Map()), effectOptions())
    expect(report.incomplete).toBe(true)
    expectFigures(report)
  })

  it('an area that the site does not have is compared with none', () => {
    const visits = readEvery([4, 6, 30, 2, 3, 0], {
      set: board('attic'),
      done: { '2026-03-31': cleaned('attic') },
    })
    const { cells } = only(rowsOf(effectOn(visits), 'effect'))
    expect(cells).toMatchObject({ area: 'attic', basis: 'the catch before' })
  })
})
