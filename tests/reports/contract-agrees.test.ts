import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayIn } from '../../src/ledger/spans.js'
import { isoOf } from '../../src/measure/calendar.js'
import { contractReport } from '../../src/reports/contract.js'
import type { Problem, Report, Row } from '../../src/types.js'
import { demoLedger } from '../../src/writing/demo/ledger.js'
import { day } from '../ledger/small-site.js'

const until = day('2026-06-30')

/** A generated ledger in which visits are missed, complaints left and devices passed by, as its last commit leaves it. */
function spoiltLedger(seed: number, changed: (siteFile: string) => string): Map<string, string> {
  const files = new Map<string, string>()
  for (const commit of demoLedger({ sites: 3, years: 1, seed, until, clean: false }))
    for (const { path, text } of commit.files) files.set(path, text)
  for (const [path, text] of files) if (path.endsWith('site.yaml')) files.set(path, changed(text))
  return files
}

const asItIs = (site: string) => site
const visitsOf = (terms: string) => (site: string) =>
  site.replace('routine-visits: monthly', `routine-visits: ${terms}`)
/** The first contract ends on a day, and others follow, or not. */
const endingOn = (last: string, others: string) => (site: string) =>
  site
    .replace(/contract:\n( +- from: \S+\n)/, `contract:\n$1    until: ${last}\n`)
    .replace('\nareas:', `\n${others}areas:`)

interface Both {
  readonly report: Report
  /** Gaps that had begun by the as-of day, also those made good since, by rule. */
  readonly gaps: (rule: string) => Problem[]
}

function both(files: ReadonlyMap<string, string>, asOf: number): Both {
  const options = { asOf, asOfIsToday: false }
  const { problems, excepted, district } = runCheck(memorySource(files), options)
  const all = [...problems, ...excepted.map(({ problem }) => problem)].filter(({ from }) => from <= asOf)
  const report = contractReport(memorySource(files), { ...options, from: district?.recordsBegin ?? asOf })
  return { report, gaps: (rule) => all.filter((problem) => problem.rule === rule) }
}

function rowsOf(report: Report, table: string): readonly Row[] {
  const found = report.tables.find(({ id }) => id === table)
  if (!found) throw new Error(`there is no table ${table}`)
  return found.rows
}

const isOpen = ({ cells }: Row) => /late$|^no record$/.test(String(cells.outcome))
const total = (report: Report, column: string) =>
  rowsOf(report, 'on-visits').reduce((sum, { cells }) => sum + Number(cells[column]), 0)

/** By month, by days and by week, with grace, contracts that change or lapse, and sites that begin or close. */
const ledgers = [
  { name: 'monthly', seed: 31, changed: asItIs, asOf: '2026-06-30' },
  { name: 'monthly, in the middle of a month', seed: 36, changed: asItIs, asOf: '2026-03-14' },
  {
    name: 'monthly with grace',
    seed: 37,
    changed: visitsOf('monthly\n    grace: 5 days'),
    asOf: '2026-05-03',
  },
  { name: 'every 30 days', seed: 33, changed: visitsOf('every 30 days'), asOf: '2026-06-30' },
  { name: 'every 10 days', seed: 34, changed: visitsOf('every 10 days'), asOf: '2026-04-20' },
  {
    name: 'weekly with grace',
    seed: 35,
    changed: visitsOf('weekly\n    grace: 20 days'),
    asOf: '2026-06-30',
  },
  {
    name: 'one contract after another',
    seed: 30,
    changed: endingOn(
      '2025-11-20',
      '  - from: 2025-11-21\n    contractor: Other Firm\n    routine-visits: every 12 days\n    complaint-days: 1\n',
    ),
    asOf: '2026-06-30',
  },
  {
    name: 'months without a contract, then a site that closes',
    seed: 32,
    changed: (site: string) =>
      `${endingOn(
        '2025-10-20',
        '  - from: 2026-01-21\n    contractor: Other Firm\n    routine-visits: weekly\n    in-recess: yes\n',
      )(site)}until: 2026-04-17\n`,
    asOf: '2026-06-30',
  },
].map(({ name, seed, changed, asOf }) => {
  const files = spoiltLedger(seed, changed)
  return { name, asOf: day(asOf), ...both(files, day(asOf)) }
})

describe('the ledgers of these tests', () => {
  it('can be read, and have gaps of each kind', () => {
    for (const { name, report } of ledgers) expect(report.incomplete, name).toBe(false)
    for (const rule of [
      'visit-overdue',
      'complaint-not-answered',
      'device-overdue',
      'complaint-log-not-read',
      'site-manager-not-told',
      'lost-device-not-renewed',
    ])
      expect(ledgers.flatMap(({ gaps }) => gaps(rule)).length, rule).toBeGreaterThan(1)
  })
})

describe.each(ledgers)(
  'what check calls overdue is late or without a record here: $name',
  ({ report, gaps, asOf }) => {
    it('holds for routine visits', () => {
      const overdue = gaps('visit-overdue')
      const rows = rowsOf(report, 'each-visit').filter(isOpen)
      const keyOfRow = ({ cells }: Row) => `${cells.site} ${cells.about} ${cells['last-day']}`
      const told = new Set(overdue.map(({ site, args }) => `${site} ${args.about} ${args.by}`))
      expect(rows.map(keyOfRow)).toEqual(expect.arrayContaining([...told]))
      // What has no gap of its own is a further visit of a gap that began with an earlier one.
      for (const row of rows.filter((one) => !told.has(keyOfRow(one)))) {
        const overdueOn = dayIn(String(row.cells['last-day'])) + 1
        const within = overdue.filter(
          ({ site, from, until: end }) =>
            site === row.cells.site && from < overdueOn && overdueOn <= (end ?? asOf),
        )
        expect(within, keyOfRow(row)).toHaveLength(1)
      }
      // Nothing else is without a record.
      const inTime = rowsOf(report, 'each-visit').filter((row) => row.cells.outcome === 'made in time')
      for (const { cells } of inTime)
        expect(String(cells.made) <= String(cells['last-day']), JSON.stringify(cells)).toBe(true)
    })

    it('holds for complaints', () => {
      const rows = rowsOf(report, 'each-complaint').filter(isOpen)
      expect(rows.map(({ cells }) => `${cells.site} ${cells.complaint}`).sort()).toEqual(
        gaps('complaint-not-answered')
          .map(({ site, args }) => `${site} ${args.complaint}`)
          .sort(),
      )
    })

    it('holds for checks of devices, but for those that check tells as another gap', () => {
      const rows = rowsOf(report, 'late-checks').filter(({ cells }) => cells['told-by'] === 'device-overdue')
      expect(
        rows.map(({ cells }) => `${cells.site} ${cells.device} ${cells.since} ${cells['last-day']}`).sort(),
      ).toEqual(
        gaps('device-overdue')
          .map(({ site, args }) => `${site} ${args.device} ${args.since} ${args.by}`)
          .sort(),
      )
      // A visit that has no record leaves its devices unread: they are told with it.
      const elsewhere = new Set(rowsOf(report, 'late-checks').map(({ cells }) => cells['told-by']))
      for (const rule of elsewhere) expect(gaps(String(rule)).length, String(rule)).toBeGreaterThan(0)
    })

    it('holds for what routine visits leave open', () => {
      expect(total(report, 'log-not-read')).toBe(gaps('complaint-log-not-read').length)
      expect(total(report, 'manager-not-told')).toBe(gaps('site-manager-not-told').length)
      expect(total(report, 'device-not-renewed')).toBe(gaps('lost-device-not-renewed').length)
      expect(total(report, 'area-not-inspected')).toBe(
        gaps('area-not-inspected-lately').length + gaps('area-never-inspected').length,
      )
    })

    it('says the same of each site as of all', () => {
      const all = rowsOf(report, 'district').find(({ cells }) => cells.what === 'routine visits')
      const sites = rowsOf(report, 'visits')
      for (const column of ['due', 'in-time', 'late', 'no-record'])
        expect(all?.cells[column], column).toBe(
          sites.reduce((sum, { cells }) => sum + Number(cells[column]), 0),
        )
      expect(report.asOf).toBe(isoOf(asOf))
    })
  },
)
