import { describe, expect, it } from 'vitest'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { machineTables, reportJson } from '../../src/output/report-json.js'
import { reportMarkdown } from '../../src/output/report-markdown.js'
import { reportText } from '../../src/output/report-text.js'
import type { Report } from '../../src/types.js'
import { oakFiles } from '../ledger/small-site.js'
import type { Asked } from './contract-ledgers.js'
import {
  contractOf,
  oakContract,
  oakSite,
  onlyRow,
  routine,
  routineOn,
  rowsOf,
  siteWith,
  terms,
  visitsInShort,
} from './contract-ledgers.js'

const complaint = (more = '') => `by: lind\nfrom: staff\narea: room-1\nsays: droppings in a drawer\n${more}`
const answering = (id: string) => `answers: {${id}: traps set}\n`
const board = '{kind: sticky-trap, area: kitchen}'

/** A report in every format, after a look that nothing in it is no number. */
function printed(report: Report): string {
  const text = [
    reportJson(report),
    ...machineTables(report).map(({ id }) => reportCsv(report, id)),
    reportText(report, { paint: plainPainter, showWork: true }),
    reportMarkdown(report, { showWork: false }),
  ].join('\n')
  expect(text).not.toMatch(/NaN|Infinity|undefined|\[object/)
  return text
}

describe('complaints', () => {
  const site = { [oakSite]: siteWith(terms('routine-visits: monthly, complaint-days: 3')) }
  const complaints = {
    'sites/oak/complaints/2026-03-01-lind.yaml': complaint(),
    'sites/oak/complaints/2026-03-10-lind.yaml': complaint(),
    'sites/oak/complaints/2026-03-15-lind.yaml': complaint(),
    'sites/oak/complaints/2026-03-16-lind.yaml': complaint('withdrawn: it was a toy\n'),
    'sites/oak/complaints/2026-03-30-lind.yaml': complaint(),
  }
  const report = oakContract(
    { '2026-03-02': answering('2026-03-01-lind'), '2026-03-20': answering('2026-03-10-lind') },
    { ...site, ...complaints },
    { asOf: '2026-03-31' },
  )

  it('are answered in time, late, not at all, or still have time', () => {
    expect(
      rowsOf(report, 'each-complaint').map(({ cells }) => [
        cells.received,
        cells.outcome,
        cells['days-late'],
      ]),
    ).toEqual([
      ['2026-03-01', 'answered in time', null],
      ['2026-03-10', 'answered late', 7],
      ['2026-03-15', 'no record', null],
      ['2026-03-30', 'not yet due', null],
    ])
    expect(onlyRow(report, 'complaints')).toMatchObject({
      asked: '3 days',
      received: 4,
      'in-time': 1,
      late: 1,
      'no-record': 1,
      'not-yet-due': 1,
    })
  })

  it('have a median that counts the open ones, and a share of those whose time is up', () => {
    // Answered after 1 and 10 days; followed unanswered for 16 and for 1. After one day 3/4 are open; at ten days one
    // of two still followed is answered, so that 3/8 are open: half are answered within 10 days.
    const cells = onlyRow(report, 'complaints')
    expect(cells['days-to-answer']).toBe(10)
    expect(cells.followed).toBe(4)
    // 1 of 3. Wilson: centre (1 + 1.92073)/6.84146 = 0.42692, half width 1.95996 · √(2/3 + 0.96036)/6.84146 = 0.36542.
    expect(cells['share-in-time']).toBeCloseTo(100 / 3, 10)
    expect(cells['share-in-time-low']).toBeCloseTo(6.15, 1)
    expect(cells['share-in-time-high']).toBeCloseTo(79.23, 1)
    expect(cells['share-in-time-of']).toBe(3)
    expect(report.headline).toContain('of 4 complaints half were answered within 10 days')
    expect(report.headline).toMatch(/ and 1 of 3 in time\.$/)
  })

  it('name the complaint and the visit that answers it', () => {
    expect(rowsOf(report, 'each-complaint')[1]?.records).toEqual([
      'sites/oak/complaints/2026-03-10-lind.yaml',
      'sites/oak/visits/2026-03-20-okafor.yaml',
    ])
  })

  it('are asked for by whoever says how soon, and cannot be judged where nobody does', () => {
    const asked = (district: string, rulebooks: string) =>
      onlyRow(
        oakContract(
          {},
          {
            ...complaints,
            'district.yaml': `format: 1\nname: Example District\ntime-zone: UTC\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: ${rulebooks}\ncalendar: []\n${district}`,
          },
          { asOf: '2026-03-31' },
        ),
        'complaints',
      )
    expect(asked('unanswered-complaint-days: 5\n', '[]')).toMatchObject({ asked: '5 days (district)' })
    // Common practice asks within 14 days: the complaint of 15 March had until the 29th, that of the 30th has time.
    expect(asked('', '[{from: 2026-01-01, rulebook: practice}]')).toMatchObject({
      asked: '14 days (rulebook)',
      'no-record': 3,
      'not-yet-due': 1,
    })
    expect(asked('', '[]')).toMatchObject({
      asked: 'nothing says how soon',
      'cannot-be-told': 4,
      'no-record': 0,
      'share-in-time': null,
      'share-method': 'cannot tell: the time of none of them is up',
    })
  })

  it('answered before they came in tell nothing', () => {
    const early = oakContract(
      { '2026-02-27': answering('2026-03-01-lind') },
      { ...site, 'sites/oak/complaints/2026-03-01-lind.yaml': complaint() },
      { asOf: '2026-03-31' },
    )
    expect(onlyRow(early, 'each-complaint')).toMatchObject({
      outcome: 'cannot be told',
      why: 'its answer is dated before it',
    })
    expect(onlyRow(early, 'complaints')).toMatchObject({
      'cannot-be-told': 1,
      followed: 0,
      'days-to-answer': null,
    })
    printed(early)
  })
})

describe('checks of devices', () => {
  const everyTwoWeeks = {
    [oakSite]: siteWith(terms('routine-visits: monthly, checks: {sticky-trap: 2 weeks}')),
  }

  it('are late after their interval; one that could not be reached is no check', () => {
    const report = oakContract(
      {
        '2026-03-01': `set: {K1: ${board}}`,
        '2026-03-10': 'readings: {none: [K1]}',
        // Due by the 24th, read on the 30th.
        '2026-03-30': 'readings: {none: [K1]}',
        '2026-04-05': 'readings: {K1: {no-access: locked}}',
        '2026-04-08': 'readings: {none: [K1]}',
        // Due by the 22nd.
      },
      everyTwoWeeks,
      { asOf: '2026-04-30' },
    )
    const cells = onlyRow(report, 'device-checks')
    expect(cells).toMatchObject({
      'asked-by': 'contract',
      interval: '2 weeks',
      due: 4,
      'in-time': 2,
      late: 1,
      'no-record': 1,
      'no-access': 1,
      'days-late-worst': 6,
      'share-in-time': 50,
      'share-in-time-count': 2,
      'share-in-time-of': 4,
    })
    // Four days on which one check was due, 2 of 4: Σ(x − 1/2)² = 1, variance 4/3 · 1/16 over 1/16: design effect 4/3.
    // t of 3 is 3.182446, (t/z)² = 2.636463; 4/(4/3 · 2.636463) = 1.137889 effective checks. Wilson of a half:
    // half width 1.959964 · √(1.137889/4 + 0.960365)/(1.137889 + 3.841459) = 0.43922.
    expect(cells['share-in-time-low']).toBeCloseTo(50 - 43.92, 1)
    expect(cells['share-in-time-high']).toBeCloseTo(50 + 43.92, 1)
    expect(
      rowsOf(report, 'late-checks').map(({ cells: late }) => [late['last-day'], late.read, late.outcome]),
    ).toEqual([
      ['2026-03-24', '2026-03-30', 'read late'],
      ['2026-04-22', null, 'no record'],
    ])
    printed(report)
  })

  it('are one for each month where the contract says monthly, however often someone looks', () => {
    const report = oakContract(
      {
        '2026-01-05': `set: {K1: ${board}}`,
        '2026-02-03': 'readings: {none: [K1]}',
        '2026-02-20': 'readings: {none: [K1]}',
        '2026-03-02': 'readings: {none: [K1]}',
      },
      { [oakSite]: siteWith(terms('routine-visits: monthly, checks: {sticky-trap: monthly}')) },
      { asOf: '2026-03-31' },
    )
    expect(onlyRow(report, 'device-checks')).toMatchObject({
      due: 2,
      'in-time': 2,
      late: 0,
      'not-yet-due': 1,
    })
  })

  it('are not asked of a device that was renewed, picked up or taken up before', () => {
    const report = oakContract(
      {
        '2026-03-01': `set: {K1: ${board}, K2: ${board}, K3: ${board}}`,
        '2026-03-05':
          'picked-up: [K1]\ntaken-up: {K2: no longer needed}\nreadings: {K3: {unusable: wet, renewed: yes}}',
      },
      everyTwoWeeks,
      { asOf: '2026-03-10' },
    )
    expect(onlyRow(report, 'device-checks')).toMatchObject({ due: 1, 'in-time': 1, 'not-yet-due': 1 })
  })

  it('say whether the contract, a plan or a rulebook asks for them', () => {
    const report = oakContract(
      {
        ...routineOn('2026-01-05', '2026-02-05'),
        '2026-01-05-reyes': `set: {K1: ${board}, G1: {kind: glue-board, area: kitchen}}`,
        '2026-01-06-reyes': 'readings: {none: [G1]}',
        '2026-01-20-reyes': 'readings: {none: [K1]}\ntaken-up: {G1: no longer needed}',
      },
      {
        'district.yaml':
          'format: 1\nname: Example District\ntime-zone: UTC\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: [{from: 2026-01-01, rulebook: practice}]\ncalendar: []\n',
        [oakSite]: siteWith(terms('routine-visits: monthly, checks: {sticky-trap: monthly}')),
      },
      { asOf: '2026-03-01' },
    )
    // The rulebook asks for a look at glue boards within a day.
    expect(rowsOf(report, 'device-checks').map(({ cells }) => [cells['asked-by'], cells.interval])).toEqual([
      ['contract', 'monthly'],
      ['rulebook', '1 day'],
    ])
  })

  it('that waited for a routine visit are late, and `check` tells them as that visit', () => {
    const report = oakContract(
      { ...routineOn('2026-01-05'), '2026-01-05-reyes': `set: {K1: ${board}}` },
      { [oakSite]: siteWith(terms('routine-visits: monthly, checks: {sticky-trap: monthly}')) },
      { asOf: '2026-03-15' },
    )
    expect(onlyRow(report, 'late-checks')).toMatchObject({
      'last-day': '2026-02-28',
      'told-by': 'visit-overdue',
    })
    expect(onlyRow(report, 'device-checks')).toMatchObject({ 'no-record': 1, 'told-elsewhere': 1 })
  })
})

describe('what routine visits leave open', () => {
  it('is counted by what the visits say', () => {
    const report = oakContract(
      {
        '2026-01-10': `${routine('inspected: [kitchen]\nno-entry: {room-1: no key}\n')}set: {K1: ${board}}`,
        '2026-02-10':
          'purpose: routine\nby: okafor\ncomplaint-log: locked away\ninspected: [kitchen, room-1]',
        '2026-02-11': 'readings: {K1: {unusable: missing}}',
      },
      { [oakSite]: siteWith(terms('routine-visits: monthly')) },
      { asOf: '2026-02-28' },
    )
    expect(onlyRow(report, 'on-visits')).toMatchObject({
      'routine-visit': 2,
      'area-not-entered': 1,
      'log-not-read': 1,
      'manager-not-told': 1,
    })
    expect(rowsOf(report, 'on-visits')[0]?.records).toContain('sites/oak/visits/2026-01-10-okafor.yaml')
  })
})

describe('what the contract itself says', () => {
  it('stands in the report', () => {
    const report = oakContract(
      {},
      {
        [oakSite]: siteWith(
          '[{from: 2026-01-01, until: 2026-12-31, contractor: Invented Pest Services, routine-visits: weekly, grace: 1 day, complaint-days: 2, checks: {snap-trap: 1 day, bait-station: monthly}, file: contract.txt}]',
        ),
        'sites/oak/contract.txt': 'Invented terms.\n',
      },
      { asOf: '2026-01-31' },
    )
    expect(onlyRow(report, 'contracts')).toMatchObject({
      sites: 'oak',
      contractor: 'Invented Pest Services',
      since: '2026-01-01',
      until: '2026-12-31',
      visits: 'weekly, 1 day of grace',
      'complaint-days': 2,
      checks: 'bait-station monthly, snap-trap 1 day',
      file: 'contract.txt',
    })
  })
})

/** Oak, and Elm with another contract and a visit of its own. */
function twoSites(): Map<string, string> {
  const files = oakFiles(routineOn('2026-01-12', '2026-02-12'), {
    [oakSite]: siteWith(terms('routine-visits: monthly')),
    'sites/elm/site.yaml': siteWith(terms('routine-visits: monthly, complaint-days: 2')),
    'sites/elm/visits/2026-02-03-reyes.yaml': `purpose: routine\nby: reyes\nset: {K1: ${board}}\n`,
    'sites/elm/complaints/2026-02-20-lind.yaml': complaint(),
  })
  return files
}

describe('a filter', () => {
  const all = contractOf(twoSites(), { asOf: '2026-03-10' })
  const elm = contractOf(twoSites(), { asOf: '2026-03-10', site: 'elm' })

  it('only hides rows', () => {
    for (const table of [
      'visits',
      'complaints',
      'device-checks',
      'on-visits',
      'each-visit',
      'each-complaint',
    ])
      expect(rowsOf(elm, table), table).toEqual(
        rowsOf(all, table).filter(({ cells }) => cells.site === 'elm'),
      )
  })

  it('leaves out the row of all sites, and says of which site it speaks', () => {
    expect(all.tables.map(({ id }) => id)).toContain('district')
    expect(elm.tables.map(({ id }) => id)).not.toContain('district')
    // January has no visit at Elm.
    expect(elm.headline).toBe(
      'Of 2 routine visits due at elm, 1 is on record in time and 1 has no record; of 1 complaint fewer than half were answered so far, none in time.',
    )
    expect(all.headline).toMatch(/^Of 4 routine visits due, 3 are on record in time and 1 has no record;/)
  })
})

describe('the order of files', () => {
  it('does not matter', () => {
    const files = [...twoSites()]
    const asked: Asked = { asOf: '2026-03-10' }
    expect(printed(contractOf(new Map(files.reverse()), asked))).toBe(printed(contractOf(twoSites(), asked)))
  })
})

describe('an exception', () => {
  it('is named: what it excuses is counted all the same', () => {
    const exception = (from: string) =>
      `rule: visit-overdue\nsite: oak\nby: marsh\nwhy: the building was being rebuilt\nfrom: ${from}\nuntil: 2026-02-28\n`
    const report = (from: string, asked: Asked) =>
      oakContract({}, { 'exceptions/rebuilding.yaml': exception(from) }, asked)
    expect(report('2026-01-01', { asOf: '2026-02-10' }).cautions).toContain(
      'exceptions/rebuilding.yaml excuses `visit-overdue` at oak from 2026-01-01 to 2026-02-28; what it excuses is counted here all the same.',
    )
    expect(report('2026-01-01', { asOf: '2026-04-30', from: '2026-03-01' }).cautions.join()).not.toContain(
      'excuses',
    )
  })
})

describe('what cannot be told', () => {
  it('is said of an empty ledger', () => {
    const report = contractOf(new Map(), { asOf: '2026-03-10' })
    expect(report.incomplete).toBe(true)
    expect(report.headline).toBe('The records answer for no site in this period, so nothing can be said.')
    printed(report)
  })

  it('is said of a ledger without sites, and of a period before the records', () => {
    const district = oakFiles({})
    district.delete(oakSite)
    expect(contractOf(district, { asOf: '2026-03-10' }).headline).toMatch(/so nothing can be said\.$/)
    const before = oakContract({}, {}, { asOf: '2026-03-10', from: '2025-01-01', to: '2025-12-31' })
    expect(before.headline).toMatch(/so nothing can be said\.$/)
    expect(before.notExamined).toContain('oak: the records do not answer for it in this period.')
    printed(before)
  })

  it('is said of a site that cannot be read', () => {
    const files = twoSites()
    files.set('sites/elm/visits/2026-02-03-reyes.yaml', 'purpose: [')
    const report = contractOf(files, { asOf: '2026-03-10' })
    expect(report.incomplete).toBe(true)
    expect(report.notExamined.join('\n')).toContain('sites/elm')
    expect(rowsOf(report, 'visits').map(({ cells }) => cells.site)).toEqual(['oak'])
  })

  it('is what seems to be missing where a key is not known, as in `check`', () => {
    const files = oakFiles(
      {
        // The log may have been read: the key that says so is misspelt.
        '2026-01-12': `purpose: routine\nby: okafor\nsite-manager: lind\ncomplant-log: read\nset: {K1: ${board}}`,
      },
      {
        [oakSite]: siteWith(
          terms('routine-visits: monthly, complaint-days: 3, checks: {sticky-trap: 2 weeks}'),
        ),
        'sites/oak/complaints/2026-01-10-lind.yaml': complaint('withdrawen: it was a toy\n'),
      },
    )
    const report = contractOf(files, { asOf: '2026-02-27' })
    expect(onlyRow(report, 'on-visits')).toMatchObject({ 'routine-visit': 1, 'log-not-read': 0 })
    expect(onlyRow(report, 'complaints')).toMatchObject({ 'no-record': 0, 'cannot-be-told': 1, followed: 0 })
    // K1 was due by the 26th; the visit that set it has the unknown key.
    expect(rowsOf(report, 'late-checks')).toEqual([])
    expect(report.notExamined).toContain(
      'sites/oak/visits/2026-01-12-okafor.yaml: a key in it is not known, so what else seems to be missing there is not told.',
    )
    files.set(oakSite, `${siteWith(terms('routine-visits: monthly'))}closed-on: 2026-01-31\n`)
    expect(visitsInShort(contractOf(files, { asOf: '2026-04-30' }))).toEqual([
      '2026-01, by 2026-01-31: 2026-01-12, made in time',
      '2026-02, by 2026-02-28: none, cannot be told',
      '2026-03, by 2026-03-31: none, cannot be told',
      '2026-04, by 2026-04-30: none, not yet due',
    ])
    printed(report)
  })

  it('is said where the period asked for ends after the as-of day', () => {
    const report = oakContract({}, {}, { asOf: '2026-03-10', to: '2026-12-31' })
    expect(report.period?.to).toBe('2026-03-10')
    expect(report.cautions.join('\n')).toContain('ends after the as-of day')
  })

  it('is not a number that is none, whatever the terms', () => {
    const huge = oakContract(
      routineOn('2026-01-12'),
      {
        [oakSite]: siteWith(
          terms('routine-visits: every 1000000 days, grace: 1000000 days, complaint-days: 1000000'),
        ),
        'sites/oak/complaints/2026-02-20-lind.yaml': complaint(),
      },
      { asOf: '2026-03-10' },
    )
    // A visit on 12 January is in time for what is due in a million days.
    expect(visitsInShort(huge)[0]).toMatch(/: 2026-01-12, made in time$/)
    expect(onlyRow(huge, 'complaints')).toMatchObject({ 'not-yet-due': 1, 'share-in-time': null })
    printed(huge)
  })

  it('is not an event on the very last day of the record', () => {
    const report = oakContract(
      routineOn('2026-01-31'),
      {
        [oakSite]: siteWith(terms('routine-visits: monthly, complaint-days: 0')),
        'sites/oak/complaints/2026-01-31-lind.yaml': complaint(),
      },
      { asOf: '2026-01-31' },
    )
    expect(visitsInShort(report)).toEqual(['2026-01, by 2026-01-31: 2026-01-31, made in time'])
    expect(onlyRow(report, 'complaints')).toMatchObject({ 'not-yet-due': 1, 'no-record': 0 })
    printed(report)
  })
})
