import { describe, expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import { readLedger } from '../../../src/ledger/read-ledger.js'
import type { SiteView } from '../../../src/ledger/site-view.js'
import { dayOf } from '../../../src/measure/calendar.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { applicationRows } from '../../../src/writing/export/application-rows.js'
import { catchRows, readingRows } from '../../../src/writing/export/catch-rows.js'
import { areaRows, deviceRows, siteRow } from '../../../src/writing/export/reference-rows.js'
import { complaintRows, conditionRows } from '../../../src/writing/export/standing-rows.js'
import type { ExportRow } from '../../../src/writing/export/table-words.js'
import { exportTables, tableNamed } from '../../../src/writing/export/tables.js'
import { visitRows } from '../../../src/writing/export/visit-rows.js'
import { asOf as demoAsOf, demoSource } from './demo-export.js'

const day = (text: string) => dayOf(text) ?? 0
const ever = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY }

function oak(overlay: string, asOf = '2026-04-20'): SiteView {
  let found: SiteView | undefined
  const read = readLedger(
    memorySource(ledgerWith(overlay)),
    { asOf: day(asOf), asOfIsToday: false },
    (view) => {
      if (view.id === 'oak') found = view
    },
  )
  expect(read.notChecked).toEqual([])
  return found as SiteView
}

const visit = (date: string, body: string) => `
=== sites/oak/visits/${date}-okafor.yaml
purpose: trap-check
by: okafor
${body}`

const pick = (rows: readonly ExportRow[], ...names: string[]) =>
  rows.map((row) => names.map((name) => row[name]))

describe('a reading and what it says of a pest', () => {
  // K1 was set on 5 March. Ten nights on: nothing. Five nights on: two nymphs. Then it is gone; a new one after that.
  const view = oak(
    visit('2026-03-15', 'readings: {none: [K1]}\n') +
      visit('2026-03-20', 'readings: {K1: {german-cockroach: {nymphs: 2, egg-cases: 3}}}\n') +
      visit('2026-03-25', 'readings: {K1: {no-access: cabinet in front}}\n') +
      visit('2026-03-30', 'readings: {K1: {german-cockroach: 5, house-mouse: 1}}\n') +
      visit('2026-04-04', 'readings: {K1: {unusable: missing, renewed: yes}}\n') +
      visit('2026-04-14', 'readings: {none: [K1]}\n'),
  )
  const readings = [...readingRows(view, ever)]
  const catches = [...catchRows(view, ever)]

  it('has effort where it tells something, and none, not 0, where it does not', () => {
    expect(pick(readings, 'visit', 'usable', 'why_not', 'trap_nights', 'renewed')).toEqual([
      ['2026-03-15-okafor', true, null, 10, false],
      ['2026-03-20-okafor', true, null, 5, false],
      ['2026-03-25-okafor', false, 'no access', null, false],
      // The interval ran on while nobody could reach it: 20 to 30 March.
      ['2026-03-30-okafor', true, null, 10, false],
      ['2026-04-04-okafor', false, 'missing', null, true],
      ['2026-04-14-okafor', true, null, 10, false],
    ])
  })

  it('writes a zero for what the device is for, and nothing for what was not read', () => {
    const roaches = catches.filter(({ pest }) => pest === 'german-cockroach')
    expect(pick(roaches, 'visit', 'on_device', 'caught', 'in_rates', 'trap_nights')).toEqual([
      ['2026-03-15-okafor', 0, 0, true, 10],
      ['2026-03-20-okafor', 2, 2, true, 5],
      // Three more than the two of before; egg cases are no animals.
      ['2026-03-30-okafor', 5, 3, true, 10],
      ['2026-04-14-okafor', 0, 0, true, 10],
    ])
  })

  it('tells a pest the device is not for only where it is named, and keeps it out of the rates', () => {
    const mice = catches.filter(({ pest }) => pest === 'house-mouse')
    expect(pick(mice, 'visit', 'caught', 'is_for', 'in_rates', 'trap_nights')).toEqual([
      ['2026-03-30-okafor', 1, false, false, null],
    ])
  })

  it('leaves the catch empty where a count fell without a renewal', () => {
    const fell = oak(
      visit('2026-03-15', 'readings: {K1: {german-cockroach: 4}}\n') +
        visit('2026-03-20', 'readings: {K1: {german-cockroach: 1}}\n'),
    )
    const rows = [...catchRows(fell, ever)].filter(({ pest }) => pest === 'german-cockroach')
    expect(pick(rows, 'on_device', 'caught', 'in_rates', 'trap_nights')).toEqual([
      [4, 4, true, 10],
      [1, null, false, null],
    ])
  })

  it('counts a second life of a device apart', () => {
    const twice = oak(
      visit('2026-03-15', 'readings: {none: [K1]}\ntaken-up: {K1: room closed}\n') +
        visit('2026-03-20', 'set: {K1: {kind: snap-trap, area: room-1, traps: 2}}\n') +
        visit('2026-03-22', 'readings: {none: [K1]}\n'),
    )
    expect(pick(deviceRows(twice), 'device', 'life', 'kind', 'traps', 'area', 'taken_up_on')).toEqual([
      ['K1', 1, 'sticky-trap', 1, 'kitchen', day('2026-03-15')],
      ['K1', 2, 'snap-trap', 2, 'room-1', null],
    ])
    // Two nights of two traps.
    expect(pick([...readingRows(twice, ever)], 'life', 'area_kind', 'trap_nights')).toEqual([
      [1, 'kitchen', 10],
      [2, 'classroom', 4],
    ])
  })

  it('keeps to the days asked for, with the effort of the whole interval', () => {
    const asked = [...readingRows(view, { from: day('2026-03-20'), to: day('2026-03-29') })]
    expect(pick(asked, 'visit', 'trap_nights')).toEqual([
      ['2026-03-20-okafor', 5],
      ['2026-03-25-okafor', null],
    ])
  })
})

describe('a use of a pesticide', () => {
  const application = (date: string, body: string) => `
=== sites/oak/applications/${date}-okafor.yaml
status: done
by: okafor
pest: german-cockroach
method: crack-and-crevice
time: 16:00 to 16:20
${body}`

  it('has its amount and active ingredient, or empty cells where nobody wrote them', () => {
    const view = oak(
      application('2026-03-16', 'product: bait-a\namount: 2 oz\nareas: {kitchen: {}}\n') +
        application('2026-03-17', 'product: bait-a\nareas: {kitchen: {}, room-1: {}}\n') +
        application('2026-03-18', 'product: spray-a\namount: 1 fl oz\nareas: {room-1: {}}\n'),
    )
    const { applications, ingredients } = applicationRows(view, ever)
    expect(pick(applications, 'product', 'weight_g', 'volume_ml', 'area_kind', 'is_whole')).toEqual([
      // Two ounces of 28.349523125 g, the exact factor; a fluid ounce of 29.5735295625 mL.
      ['bait-a', 56.69904625, null, 'kitchen', true],
      ['bait-a', null, null, null, false],
      ['spray-a', null, 29.5735295625, 'classroom', true],
    ])
    expect(pick(ingredients, 'ingredient', 'active_g', 'is_whole', 'why_not')).toEqual([
      // 5 % of it by weight; a percentage tells nothing of a volume without a density.
      ['boric-acid', 2.8349523125, true, null],
      ['boric-acid', null, false, 'no amount recorded'],
      [
        'deltamethrin',
        null,
        false,
        'a volume of a product whose strength is in %, and no density in the register',
      ],
    ])
  })

  it('has a row of a product that is in no register, without saying what it is', () => {
    const view = oak(application('2026-03-16', 'product: unheard-of\namount: 2 oz\nareas: {kitchen: {}}\n'))
    const { applications, ingredients } = applicationRows(view, ever)
    expect(pick(applications, 'product', 'is_pesticide', 'weight_g', 'is_whole')).toEqual([
      ['unheard-of', null, null, null],
    ])
    expect(ingredients).toEqual([])
  })

  it('has bait put into a device, and names the second of one visit apart', () => {
    const view = oak(
      visit(
        '2026-03-10',
        'set: {S1: {kind: bait-station, area: kitchen, product: bait-a, bait-added: 5 g}}\n',
      ) +
        visit(
          '2026-03-20',
          `readings: {S1: {bait-taken: all, product: bait-a, bait-added: 3 g}}
taken-up: {S1: moved to another room}
set: {S1: {kind: bait-station, area: room-1, product: bait-a, bait-added: 4 g}}
`,
        ),
    )
    const rows = applicationRows(view, ever).applications
    expect(pick(rows, 'application', 'how', 'areas', 'weight_g')).toEqual([
      ['2026-03-10-okafor/S1', 'bait in a device', 'kitchen', 5],
      ['2026-03-20-okafor/S1', 'bait in a device', 'kitchen', 3],
      ['2026-03-20-okafor/S1#2', 'bait in a device', 'room-1', 4],
    ])
  })
})

describe('what stands for a while', () => {
  const view = oak(
    visit(
      '2026-03-10',
      'conditions: {drip: {new: drip, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-20}}\n',
    ) +
      visit('2026-03-25', 'conditions: {drip: {fixed: new washer}}\n') +
      visit('2026-04-10', 'conditions: {drip: {still: dripping again}}\n') +
      `
=== sites/oak/complaints/2026-03-08-lind.yaml
by: lind
from: pupil
area: kitchen
pest: house-mouse
says: a pupil named Someone Invented saw it
=== sites/oak/complaints/2026-03-12-lind.yaml
by: lind
from: staff
says: a noise
withdrawn: it was the fan
` +
      visit('2026-03-11', 'answers: {2026-03-08-lind: nothing seen}\n'),
  )

  it('is a condition, each time it came back a row of its own', () => {
    const rows = conditionRows(view, ever)
    expect(
      pick(
        rows,
        'times_back',
        'found_on',
        'put_right_on',
        'days_followed',
        'is_put_right',
        'is_open',
        'came_back',
      ),
    ).toEqual([
      [0, day('2026-03-10'), day('2026-03-25'), 15, true, false, true],
      // Followed to 20 April, the as-of day.
      [1, day('2026-04-10'), null, 10, false, true, false],
    ])
    // Put right five days after its day.
    expect(rows[0]?.in_time).toBe(false)
  })

  it('is told of days on which it was open, also where it was found before them', () => {
    const between = (from: string, to: string) =>
      conditionRows(view, { from: day(from), to: day(to) }).map(({ times_back: back }) => back)
    expect(between('2026-03-15', '2026-03-20')).toEqual([0])
    expect(between('2026-03-26', '2026-04-09')).toEqual([])
    expect(between('2026-04-11', '2026-04-12')).toEqual([1])
  })

  it('is a complaint, without a word of it', () => {
    const rows = complaintRows(view, ever)
    expect(
      pick(rows, 'complaint', 'made_by', 'days_followed', 'is_answered', 'is_withdrawn', 'is_open'),
    ).toEqual([
      ['2026-03-08-lind', 'pupil', 3, true, false, false],
      ['2026-03-12-lind', 'staff', null, false, true, false],
    ])
    expect(JSON.stringify(rows)).not.toMatch(/Someone|noise|fan/)
  })
})

describe('the tables', () => {
  const rowsOf = (view: SiteView): [string, readonly ExportRow[]][] => {
    const { applications, ingredients } = applicationRows(view, ever)
    return [
      ['sites', [siteRow(view)]],
      ['areas', areaRows(view)],
      ['devices', deviceRows(view)],
      ['visits', visitRows(view, ever)],
      ['readings', [...readingRows(view, ever)]],
      ['catches', [...catchRows(view, ever)]],
      ['applications', applications],
      ['active_ingredients', ingredients],
      ['conditions', conditionRows(view, ever)],
      ['complaints', complaintRows(view, ever)],
    ]
  }
  const views: SiteView[] = []
  readLedger(demoSource(2, 3, 2), { asOf: demoAsOf, asOfIsToday: false }, (view) => views.push(view))

  it.each(rowsOf(views[0] as SiteView).map(([name]) => name))(
    '%s has its columns, its types and its key',
    (name) => {
      const table = tableNamed(name)
      const rows = views.flatMap((view) => rowsOf(view).find(([one]) => one === name)?.[1] ?? [])
      expect(rows.length).toBeGreaterThan(0)
      const names = table.columns.map((column) => column.name).sort()
      const types = { text: 'string', day: 'number', whole: 'number', number: 'number', 'yes-no': 'boolean' }
      const keys = new Set<string>()
      for (const row of rows) {
        expect(Object.keys(row).sort()).toEqual(names)
        keys.add(JSON.stringify(table.key.map((column) => row[column])))
        for (const { name: column, type, empty } of table.columns) {
          const cell = row[column]
          if (cell === null) expect([column, empty]).toEqual([column, expect.any(String)])
          else expect([column, typeof cell]).toEqual([column, types[type]])
          if (type === 'day' || type === 'whole')
            expect(cell === null || Number.isSafeInteger(cell)).toBe(true)
        }
      }
      expect(keys.size).toBe(rows.length)
    },
  )

  it('are each filed by a day that is never empty, and have a key of their own columns', () => {
    for (const { name, columns, key, yearOf } of exportTables) {
      const names = columns.map((column) => column.name)
      expect([name, new Set(names).size]).toEqual([name, names.length])
      expect(names).toEqual(expect.arrayContaining([...key]))
      expect(names.every((column) => /^[a-z][a-z0-9_]*$/.test(column))).toBe(true)
      if (yearOf !== undefined)
        expect(columns.find((column) => column.name === yearOf)).toMatchObject({ type: 'day' })
      expect(columns.find((column) => column.name === yearOf)?.empty).toBeUndefined()
    }
  })
})
