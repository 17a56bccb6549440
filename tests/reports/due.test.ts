import { describe, expect, it } from 'vitest'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dueReport } from '../../src/reports/due.js'
import { allRules, ruleById } from '../../src/rules/all.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { demoLedger } from '../../src/writing/demo/ledger.js'
import { day } from '../ledger/small-site.js'

const due = (overlay: string, asOf: string, days = 14, site?: string) =>
  dueReport(memorySource(ledgerWith(overlay)), {
    asOf: day(asOf),
    asOfIsToday: false,
    days,
    ...(site === undefined ? {} : { site }),
  })
const cellsOf = (report: ReturnType<typeof due>, table = 'due') =>
  report.tables.find(({ id }) => id === table)?.rows.map(({ cells }) => cells) ?? []
const told = (report: ReturnType<typeof due>) =>
  cellsOf(report).map(({ area, what, by }) => `${area ?? '-'}: ${what}; ${by}`)

/** A contract of two weeks for sticky traps, with the school in session until 12 June. */
const twoWeeks = `
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: 2 weeks}, complaint-days: 2}]
areas:
  kitchen: {kind: kitchen, keys: "ring 3, brass", let-in-by: custodian}
  room-1: {kind: classroom, children: yes}
`

describe('what is due', () => {
  it('is nothing where nothing is', () => {
    const report = due('', '2026-03-20')
    expect([report.headline, told(report), report.incomplete]).toEqual([
      'Nothing is due within 14 days.',
      [],
      false,
    ])
  })

  it('is the trap set on 5 March with two weeks, by the 19th, with its key and who lets you in', () => {
    const report = due(twoWeeks, '2026-03-10')
    expect(cellsOf(report)).toMatchObject([
      {
        site: 'oak',
        area: 'kitchen',
        what: 'read K1 (sticky trap)',
        by: '2026-03-19',
        overdue: null,
        who: 'technician',
        keys: 'ring 3, brass',
        'let-in-by': 'custodian',
        rule: 'device-overdue',
      },
    ])
    expect(report.headline).toBe('One thing is due within 14 days, none overdue.')
    // Due within nine days, not within eight.
    expect(told(due(twoWeeks, '2026-03-10', 9))).toHaveLength(1)
    expect(told(due(twoWeeks, '2026-03-10', 8))).toEqual([])
  })

  it('is overdue the day after', () => {
    expect(cellsOf(due(twoWeeks, '2026-03-19'))[0]).toMatchObject({ by: '2026-03-19', overdue: null })
    expect(cellsOf(due(twoWeeks, '2026-03-22'))[0]).toMatchObject({ by: '2026-03-19', overdue: 3 })
    expect(due(twoWeeks, '2026-03-22').headline).toBe('One thing is due within 14 days, and it is overdue.')
  })

  it('comes in walking order, what is of no area first', () => {
    const report = due(
      `${twoWeeks}
=== sites/oak/complaints/2026-03-09-lind.yaml
by: lind
from: staff
area: room-1
pest: house-mouse
says: droppings
=== sites/oak/visits/2026-03-08-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  door-gap: {new: gap below the door, area: room-1, kind: structural, gives: entry, owner: maintenance, by: 2026-03-15}
`,
      '2026-03-10',
      60,
    )
    expect(told(report)).toEqual([
      '-: routine visit for 2026-04; 2026-05-05',
      'kitchen: read K1 (sticky trap); 2026-03-19',
      // Two days after the 9th.
      'room-1: look at complaint 2026-03-09-lind; 2026-03-11',
      'room-1: put right door-gap; 2026-03-15',
    ])
  })

  it('names devices of one area together for people, and each for machines', () => {
    const report = due(
      `${twoWeeks}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
  K2: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
      '2026-03-10',
    )
    expect(cellsOf(report, 'walk').map(({ what }) => what)).toEqual(['read K1, K2 (sticky trap)'])
    expect(cellsOf(report).map(({ what }) => what)).toEqual([
      'read K1 (sticky trap)',
      'read K2 (sticky trap)',
    ])
  })

  it('is what waits for the next visit: a repair to look at again, a plant that is away', () => {
    const report = due(
      `
=== sites/oak/visits/2026-03-08-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  drip: {new: drip under the sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-15}
plants:
  fern: {area: room-1, removed: fungus gnats, sprayed: contractor yard}
=== sites/oak/repairs/2026-03-11-lind.yaml
by: lind
mends: [drip]
done: new washer
`,
      '2026-03-12',
    )
    expect(told(report)).toEqual([
      'kitchen: look whether drip holds, put right 2026-03-11; next visit',
      'room-1: see that fern is dry before it comes back, away since 2026-03-08; next visit',
    ])
  })

  it('is the licence of someone at work that ends, and not of someone who has not worked here for a year', () => {
    // Okafor's ends on 2026-12-31; his last visit is of 2026-03-05.
    const ends = (asOf: string, days: number) =>
      told(due('', asOf, days)).filter((line) => line.includes('licence'))
    expect(ends('2026-12-20', 14)).toEqual([
      '-: record the renewal of the licence of Ada Okafor (OR commercial applicator), which ends; 2026-12-31',
    ])
    expect(ends('2026-12-20', 10)).toEqual([])
    expect(ends('2027-03-05', 14)).toHaveLength(1)
    expect(ends('2027-03-06', 14)).toEqual([])
  })

  it('is a planned application, and what it needs beforehand', () => {
    const report = due(
      `
=== rulebooks/own.yaml
name: Own rulebook
read: 2026-01-01
covers: notices
notices:
  parents-before:
    - from: 2026-01-01
      to: [parents]
      at-least: 72 hours
      says: [trade-name, date]
      kind: policy
      confidence: certain
      source: policy 4.2 of the Example District
=== sites/oak/applications/2026-03-24-okafor.yaml
by: okafor
status: planned
product: spray-a
pest: german-cockroach
areas: {kitchen: {}}
method: crack-and-crevice
`,
      '2026-03-12',
    )
    expect(told(report)).toContain(
      '-: precheck the application planned for 2026-03-24 before it is made; 2026-03-24',
    )
  })

  it('is said not to be everything where a site cannot be read', () => {
    const report = due('=== sites/oak/visits/2026-03-06-okafor.yaml\npurpose: rutine\n', '2026-03-20')
    expect(report.incomplete).toBe(true)
    expect(report.headline).toContain('not everything could be read')
  })
})

describe('over a generated ledger', () => {
  const files = new Map<string, Buffer>()
  for (const commit of demoLedger({ sites: 3, years: 1, seed: 11, until: day('2026-05-31'), clean: false }))
    for (const { path, text } of commit.files) files.set(path, Buffer.from(text))
  const source = memorySource(files)
  const asOf = day('2026-05-20')
  const options = { asOf, asOfIsToday: false }

  it('overdue is what check says today', () => {
    const standing = runCheck(source, options).problems.filter(
      (problem) => standsOn(problem, asOf) && ruleById(problem.rule)?.asks,
    )
    const rows = cellsOf(dueReport(source, { ...options, days: 20 }))
    expect(standing.length).toBeGreaterThan(0)
    expect(rows.filter(({ rule, overdue }) => rule !== null && overdue !== null)).toHaveLength(
      standing.length,
    )
  })

  it('holds everything that check would say by then, if nobody did anything', () => {
    const untilNow = new Map([...files].filter(([path]) => !laterThan(path, '2026-05-20')))
    const later = runCheck(memorySource(untilNow), { asOf: asOf + 21, asOfIsToday: false })
    const asked = later.problems
      .filter((problem) => standsOn(problem, asOf + 21))
      .flatMap(({ rule, args }) => ruleById(rule)?.asks?.(args) ?? [])
    const rows = cellsOf(dueReport(source, { ...options, days: 20 })).map(({ what }) => what)
    expect(asked.length).toBeGreaterThan(5)
    expect(asked.filter((what) => !rows.includes(what))).toEqual([])
  })

  it('every rule that looks ahead says what it asks', () => {
    const ahead = new Set(
      runCheck(source, options)
        .problems.filter(({ from }) => from > asOf)
        .map(({ rule }) => rule),
    )
    expect(ahead.size).toBeGreaterThan(3)
    const silent = [...ahead].filter((id) => !ruleById(id)?.asks)
    expect(silent).toEqual([])
    expect(allRules.filter(({ asks }) => asks).length).toBeGreaterThan(15)
  })

  it('of one site is the same as its part of all', () => {
    const all = cellsOf(dueReport(source, { ...options, days: 20 }))
    const [site] = all.flatMap((cells) => (cells.site === 'the district' ? [] : [String(cells.site)]))
    const one = cellsOf(dueReport(source, { ...options, days: 20, site: site ?? '' }))
    expect(one.filter((cells) => cells.site === site)).toEqual(all.filter((cells) => cells.site === site))
  })
})

function laterThan(path: string, date: string): boolean {
  const found = /\/(\d{4}-\d{2}-\d{2})-[^/]*$/.exec(path)
  return found?.[1] !== undefined && found[1] > date
}
