import { describe, expect, it } from 'vitest'
import {
  oakContract,
  oakSite,
  onlyRow,
  routineOn,
  rowsOf,
  siteWith,
  terms,
  visitsInShort,
} from './contract-ledgers.js'

const district = (calendar: string) => `
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: []
calendar: ${calendar}
`

describe('visits due by the month', () => {
  const report = oakContract(
    routineOn(
      '2026-01-12',
      // 4 March lies in the grace of February, which has no other; March has the 20th.
      '2026-03-04',
      '2026-03-20',
      // April has none by 5 May. May has two, so that the first of them can be April's.
      '2026-05-08',
      '2026-05-25',
      // June has none by 5 July, and July needs its only one for itself.
      '2026-07-10',
      // August asks for one of three.
      '2026-08-03',
      '2026-08-10',
      '2026-08-11',
    ),
    { [oakSite]: siteWith(terms('routine-visits: monthly, grace: 5 days')) },
    { asOf: '2026-08-31' },
  )

  it('are in time in their month or its grace, late after it, and one visit counts for one month', () => {
    expect(visitsInShort(report)).toEqual([
      '2026-01, by 2026-02-05: 2026-01-12, made in time',
      '2026-02, by 2026-03-05: 2026-03-04, made in time',
      '2026-03, by 2026-04-05: 2026-03-20, made in time',
      '2026-04, by 2026-05-05: 2026-05-08, made late by 3',
      '2026-05, by 2026-06-05: 2026-05-25, made in time',
      '2026-06, by 2026-07-05: none, no record',
      '2026-07, by 2026-08-05: 2026-07-10, made in time',
      '2026-08, by 2026-09-05: 2026-08-03, made in time',
    ])
  })

  it('are counted, with those beyond what was due', () => {
    expect(onlyRow(report, 'visits')).toMatchObject({
      site: 'oak',
      contractor: 'Invented Pest Services',
      asked: 'monthly, 5 days of grace',
      due: 8,
      'in-time': 6,
      late: 1,
      'no-record': 1,
      'not-yet-due': 0,
      'days-late-median': 3,
      'days-late-worst': 3,
      beyond: 2,
    })
    expect(report.headline).toBe(
      'Of 8 routine visits due, 6 are on record in time, 1 late and 1 has no record; no complaint was received.',
    )
  })

  it('name the visit behind each, and the next one where there is none', () => {
    const rows = rowsOf(report, 'each-visit')
    expect(rows[3]?.records).toEqual([oakSite, 'sites/oak/visits/2026-05-08-okafor.yaml'])
    expect(rows[5]?.cells['next-visit']).toBe('2026-07-10')
    expect(rowsOf(report, 'visits')[0]?.records).toHaveLength(10)
  })
})

describe('visits due every so many days', () => {
  const site = { [oakSite]: siteWith(terms('routine-visits: every 14 days, grace: 2 days')) }

  it('count from the last one; a long gap holds as many as were due in it', () => {
    const report = oakContract(
      // 8 January is not needed: without it the 15th, the 14th day, would be in time all the same.
      // From the 15th on: due on the 29th, by the 31st. From 2 February on: due on the 16th, 2 and 16 March.
      routineOn('2026-01-08', '2026-01-15', '2026-02-02', '2026-03-20'),
      site,
      { asOf: '2026-03-31' },
    )
    expect(visitsInShort(report)).toEqual([
      '2026-01-01, by 2026-01-17: 2026-01-15, made in time',
      '2026-01-15, by 2026-01-31: 2026-02-02, made late by 2',
      '2026-02-02, by 2026-02-18: none, no record',
      '2026-02-16, by 2026-03-04: none, no record',
      '2026-03-02, by 2026-03-18: 2026-03-20, made late by 2',
      '2026-03-20, by 2026-04-05: none, not yet due',
    ])
    expect(onlyRow(report, 'visits')).toMatchObject({
      due: 5,
      'in-time': 1,
      late: 2,
      'no-record': 2,
      'not-yet-due': 1,
      beyond: 1,
      'days-late-shown': '2 (2)',
    })
  })

  it('are in time in the grace of an earlier one where grace is longer than the interval', () => {
    // Weekly with 10 days of grace, from 1 January: due on the 8th by the 18th, on the 15th by the 25th.
    const report = oakContract(
      routineOn('2026-01-24'),
      { [oakSite]: siteWith(terms('routine-visits: weekly, grace: 10 days')) },
      { asOf: '2026-01-25' },
    )
    expect(visitsInShort(report)).toEqual([
      '2026-01-01, by 2026-01-18: none, no record',
      '2026-01-08, by 2026-01-25: 2026-01-24, made in time',
      '2026-01-24, by 2026-02-10: none, not yet due',
    ])
  })

  it('are none twice on one day', () => {
    const report = oakContract(
      { ...routineOn('2026-01-15'), '2026-01-15-reyes': 'purpose: routine\nby: reyes\n' },
      site,
      { asOf: '2026-01-16' },
    )
    expect(onlyRow(report, 'visits')).toMatchObject({ due: 1, 'in-time': 1, beyond: 1 })
  })
})

describe('school holidays', () => {
  // Term ends on 12 June and begins again on 1 September, so that July and August are not in session.
  const calendar = district('[{from: 2026-01-05, until: 2026-06-12}, {from: 2026-09-01, until: 2026-12-18}]')
  const due = (text: string) =>
    onlyRow(
      oakContract(
        {},
        { 'district.yaml': calendar, [oakSite]: siteWith(terms(text)) },
        { asOf: '2026-09-30' },
      ),
      'visits',
    )

  it('ask for no visit, unless the contract does', () => {
    // January to June; September has until the last of the month.
    expect(due('routine-visits: monthly')).toMatchObject({ due: 6, 'no-record': 6, 'not-yet-due': 1 })
    expect(due('routine-visits: monthly, in-recess: yes')).toMatchObject({
      asked: 'monthly, in recess too',
      due: 8,
      'not-yet-due': 1,
    })
  })

  it('move a due day to the next day of school', () => {
    const report = oakContract(
      routineOn('2026-06-10', '2026-09-01'),
      { 'district.yaml': calendar, [oakSite]: siteWith(terms('routine-visits: every 30 days')) },
      { asOf: '2026-09-02', from: '2026-06-01' },
    )
    // Thirty days from 10 June is 10 July, in the recess: 1 September is in time.
    expect(visitsInShort(report).slice(-2)).toEqual([
      '2026-06-10, by 2026-09-01: 2026-09-01, made in time',
      '2026-09-01, by 2026-10-01: none, not yet due',
    ])
  })
})

describe('contracts that change', () => {
  const changing = `
  - {from: 2026-01-01, until: 2026-03-31, contractor: First Firm, routine-visits: monthly, grace: 5 days}
  - {from: 2026-05-01, contractor: Second Firm, routine-visits: monthly}`

  it('have a row each, and so have the days without one', () => {
    const report = oakContract(
      routineOn('2026-01-10', '2026-02-10', '2026-04-15', '2026-05-10'),
      { [oakSite]: siteWith(changing) },
      { asOf: '2026-05-31' },
    )
    const rows = rowsOf(report, 'visits').map(({ cells }) => cells)
    expect(rows).toHaveLength(3)
    // Whether March still had its five days of grace when the contract was over cannot be told.
    expect(rows.find(({ contractor }) => contractor === 'First Firm')).toMatchObject({
      'contract-since': '2026-01-01',
      due: 2,
      'in-time': 2,
      'cannot-be-told': 1,
    })
    expect(rows.find(({ contractor }) => contractor === null)).toMatchObject({
      asked: 'no contract states how often',
      due: null,
      beyond: 1,
    })
    expect(rows.find(({ contractor }) => contractor === 'Second Firm')).toMatchObject({
      due: 1,
      'in-time': 1,
    })
    expect(report.headline).toMatch(
      /^All 3 routine visits due are on record in time; of 1 more it cannot be told;/,
    )
  })

  it('without any contract nothing is late', () => {
    const report = oakContract({}, { [oakSite]: siteWith('[]') }, { asOf: '2026-05-31' })
    expect(onlyRow(report, 'visits')).toMatchObject({
      asked: 'no contract states how often',
      due: null,
      late: 0,
    })
    expect(visitsInShort(report)).toEqual([])
    expect(report.headline).toBe(
      'No contract states how often routine visits are due, so none can be called late; no complaint was received.',
    )
  })

  it('hold no longer than the site is open, and no earlier than it begins', () => {
    const report = oakContract(
      routineOn('2026-03-20'),
      { [oakSite]: siteWith(terms('routine-visits: monthly'), 'from: 2026-03-10\nuntil: 2026-05-15\n') },
      { asOf: '2026-08-31' },
    )
    // May is cut short by the closing: by its last day the site was closed.
    expect(visitsInShort(report)).toEqual([
      '2026-03, by 2026-03-31: 2026-03-20, made in time',
      '2026-04, by 2026-04-30: none, no record',
      '2026-05, by 2026-05-31: none, cannot be told',
    ])
    expect(onlyRow(report, 'visits')).toMatchObject({ due: 2, 'cannot-be-told': 1 })
  })
})

describe('the period', () => {
  const visits = routineOn('2026-01-12', '2026-03-20')
  const site = { [oakSite]: siteWith(terms('routine-visits: monthly')) }

  it('has a visit on its day if in time, else on the first day on which it was late', () => {
    const within = (from: string, to: string) =>
      visitsInShort(oakContract(visits, site, { asOf: '2026-03-31', from, to }))
    // February was late from 1 March on.
    expect(within('2026-02-01', '2026-02-28')).toEqual([])
    expect(within('2026-03-01', '2026-03-31')).toEqual([
      '2026-02, by 2026-02-28: none, no record',
      '2026-03, by 2026-03-31: 2026-03-20, made in time',
    ])
  })

  it('does not call missing what still has time on the as-of day', () => {
    expect(visitsInShort(oakContract({}, site, { asOf: '2026-01-31' }))).toEqual([
      '2026-01, by 2026-01-31: none, not yet due',
    ])
    expect(visitsInShort(oakContract({}, site, { asOf: '2026-02-01' }))).toEqual([
      '2026-01, by 2026-01-31: none, no record',
      '2026-02, by 2026-02-28: none, not yet due',
    ])
  })

  it('counts a routine visit whoever made it', () => {
    const report = oakContract({ '2026-01-12-lind': 'purpose: routine\nby: lind\n' }, site, {
      asOf: '2026-01-31',
    })
    expect(rowsOf(report, 'each-visit')[0]?.cells).toMatchObject({ outcome: 'made in time', by: 'lind' })
  })
})
