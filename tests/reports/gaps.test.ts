import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { gapsReport } from '../../src/reports/gaps.js'
import type { ReportOptions } from '../../src/reports/options.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { day } from '../ledger/small-site.js'

/** Overlays on the ledger of the rules' examples, in which nothing is wrong on 2026-03-20. */
function reportOn(overlay: string, more: Partial<ReportOptions> = {}) {
  return gapsReport(memorySource(ledgerWith(overlay)), {
    asOf: day('2026-03-20'),
    asOfIsToday: false,
    ...more,
  })
}

function rowsOf(report: ReturnType<typeof reportOn>, ...columns: string[]) {
  return report.tables[0]?.rows.map(({ cells }) => columns.map((column) => cells[column]))
}

const routineVisit = (site: string, date: string, rest: string) => `
=== sites/${site}/visits/${date}-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
inspected: [kitchen]
${rest}
`
const ash = `
=== sites/ash/site.yaml
name: Ash School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}}
`
const conditions = `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  sink-drip: {new: drip, area: kitchen, kind: moisture, gives: water, by: 2026-04-10}
  gap: {new: gap under the door, area: kitchen, kind: structural, gives: entry, owner: maintenance, by: 2026-03-15}
  bins: {new: bins left full, area: kitchen, kind: sanitation, gives: food, owner: kitchen, by: 2026-03-11}
`
/** The first visit of the base, without a word on the log. */
const noLog = `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`

describe('the gaps that stand', () => {
  it('are none in a ledger without one', () => {
    const report = reportOn('')
    expect(report.headline).toBe('No gap stands.')
    expect(report.tables[0]?.rows).toEqual([])
    expect(report.period).toBeUndefined()
  })

  it('are sorted by site, by who can mend them, and by age', () => {
    const report = reportOn(
      ash +
        routineVisit('ash', '2026-03-06', 'complaint-log: read') +
        conditions +
        noLog.replace('site-manager: lind\n', ''),
    )
    // Days up to 2026-03-20: from 03-06 are 14, from 03-10 are 10; one that was due on 03-15 stands since 03-16.
    expect(rowsOf(report, 'site', 'who', 'since', 'days', 'rule')).toEqual([
      ['ash', 'technician', '2026-03-06', 14, 'site-manager-not-told'],
      ['oak', 'coordinator', '2026-03-10', 10, 'condition-without-owner'],
      ['oak', 'maintenance', '2026-03-16', 4, 'condition-overdue'],
      ['oak', 'site manager', '2026-03-12', 8, 'condition-overdue'],
      ['oak', 'technician', '2026-03-05', 15, 'complaint-log-not-read'],
      ['oak', 'technician', '2026-03-05', 15, 'site-manager-not-told'],
    ])
    expect(report.headline).toBe('6 gaps stand, the oldest since 2026-03-05.')
  })

  it('say where, in the line of the record, and in words', () => {
    const [row] = reportOn(conditions).tables[0]?.rows ?? []
    expect(row?.cells).toMatchObject({
      level: 'warning',
      gap: 'Nothing says who is to mend sink-drip.',
      // The 4th line of the record, after purpose, by and conditions.
      where: 'sites/oak/visits/2026-03-10-okafor.yaml:4',
    })
    expect(row?.records).toEqual(['sites/oak/visits/2026-03-10-okafor.yaml'])
    expect(row?.cells.fingerprint).toMatch(/^[0-9a-f]{20}$/)
  })

  it('are not what is wrong in a record, only what is missing', () => {
    const report = reportOn(`
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
inspected: [kitchn]
`)
    expect(rowsOf(report, 'rule')).toEqual([])
  })

  it('are those of one site, where one is asked for', () => {
    const overlay = ash + routineVisit('ash', '2026-03-06', 'complaint-log: read') + conditions
    expect(rowsOf(reportOn(overlay, { site: 'ash' }), 'site')).toEqual([['ash']])
    expect(reportOn(overlay, { site: 'ash' }).headline).toBe('One gap stands, the oldest since 2026-03-06.')
  })
})

describe('a gap that was made good', () => {
  /** The log was not read on the 5th and was on the 18th: the gap stood from the 5th to the 17th. */
  const madeGood =
    noLog +
    routineVisit('oak', '2026-03-18', 'site-manager: lind\ncomplaint-log: read\nreadings: {none: [K1]}')

  it('stands on the as-of day while it did, and no longer', () => {
    expect(rowsOf(reportOn(madeGood, { asOf: day('2026-03-17') }), 'rule', 'days')).toEqual([
      ['complaint-log-not-read', 12],
    ])
    expect(rowsOf(reportOn(madeGood, { asOf: day('2026-03-18') }), 'rule')).toEqual([])
    expect(rowsOf(reportOn(madeGood), 'rule')).toEqual([])
  })

  it.each([
    ['the whole time', '2026-03-01', '2026-03-20', true],
    ['up to its first day', '2026-03-01', '2026-03-05', true],
    ['up to the day before', '2026-03-01', '2026-03-04', false],
    ['from its last day', '2026-03-17', '2026-03-20', true],
    ['from the day it was made good', '2026-03-18', '2026-03-20', false],
  ])('stood in a period: %s, %s to %s: %s', (_, from, to, stood) => {
    const report = reportOn(madeGood, { from: day(from), to: day(to) })
    expect(rowsOf(report, 'since', 'ended', 'days')).toEqual(stood ? [['2026-03-05', '2026-03-18', 13]] : [])
    expect(report.period).toEqual({ from, to })
  })

  it('is told apart from what still stands', () => {
    const report = reportOn(madeGood + conditions, { from: day('2026-03-01') })
    expect(report.headline).toBe(
      '3 gaps stand, the oldest since 2026-03-10; one more stood in the period and was made good.',
    )
    expect(rowsOf(reportOn(madeGood, { from: day('2026-03-01') }), 'rule')).toHaveLength(1)
    expect(reportOn(madeGood, { from: day('2026-03-01') }).headline).toBe(
      'No gap stands; one stood in the period and was made good.',
    )
  })

  it('with a period that has one end takes the ledger for the other', () => {
    // Records begin on 2026-03-01; nothing is known after the as-of day.
    expect(reportOn(madeGood, { to: day('2026-03-10') }).period).toEqual({
      from: '2026-03-01',
      to: '2026-03-10',
    })
    expect(reportOn(madeGood, { from: day('2026-03-10') }).period).toEqual({
      from: '2026-03-10',
      to: '2026-03-20',
    })
    expect(reportOn(madeGood, { to: day('2027-01-01') }).period).toEqual({
      from: '2026-03-01',
      to: '2026-03-20',
    })
  })
})

describe('an exception', () => {
  const exception = (from: string, until: string) => `
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: the log is being bound anew
from: ${from}
until: ${until}
`

  it('that is in force leaves the gap out', () => {
    expect(rowsOf(reportOn(noLog + exception('2026-03-01', '2026-03-31')), 'rule')).toEqual([])
    expect(rowsOf(reportOn(noLog + exception('2026-03-01', '2026-03-19')), 'rule')).toHaveLength(1)
  })

  it('that began later excuses no earlier day of a period', () => {
    const late = noLog + exception('2026-03-15', '2026-03-31')
    expect(rowsOf(reportOn(late), 'rule')).toEqual([])
    // The gap stands since the 5th; the exception holds since the 15th.
    expect(rowsOf(reportOn(late, { from: day('2026-03-01'), to: day('2026-03-20') }), 'rule')).toHaveLength(1)
    expect(rowsOf(reportOn(late, { from: day('2026-03-15'), to: day('2026-03-20') }), 'rule')).toEqual([])
  })
})

describe('what could not be looked at', () => {
  it('is a site with a record that cannot be read; the report is incomplete then', () => {
    const report = reportOn(
      '=== sites/oak/visits/2026-03-10-okafor.yaml\npurpose: callback\nby: okafor\ninspected: kitchen\n',
    )
    expect(report.incomplete).toBe(true)
    expect(report.notExamined[0]).toMatch(/^sites\/oak: /)
  })

  it('is what seems to be missing in a record with a key that is not known', () => {
    const report = reportOn(noLog.replace('inspected:', 'complaint-lgo: read\ninspected:'))
    expect(rowsOf(report, 'rule')).toEqual([])
    expect(report.notExamined).toEqual([
      'sites/oak/visits/2026-03-05-okafor.yaml: a key in it is not known, so what else seems to be missing there is not told.',
    ])
  })
})
