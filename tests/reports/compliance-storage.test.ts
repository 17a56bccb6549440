import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { collectStorage, storageTable } from '../../src/reports/compliance-storage.js'
import type { Texts } from './compliance-facts.js'
import { applied, districtWith, factsOf, period, product, rowsOf } from './compliance-facts.js'

const year = period('2026-01-01', '2026-12-31')
const register = {
  ...districtWith('2026-01-01', ''),
  ...product('gel', 'kind: pesticide\nregistration: 99999-11'),
}
const stored = (date: string, place: string, items: string): Texts => ({
  [`sites/oak/storage/${date}-lind.yaml`]: `by: lind\nplaces:\n  cupboard: {area: store, ${place}, items: {${items}}}\n`,
})

function rows(files: Texts, over = year, ...columns: string[]) {
  const { facts, district } = factsOf({ ...register, ...files }, collectStorage, over)
  const table = storageTable(facts, district, over, over.to)
  return rowsOf(table, ...(columns.length > 0 ? columns : ['where', 'outcome', 'why']))
}

const gel = 'one: {product: gel, amount: 2 g}'

describe('a storage record', () => {
  it('shows what is locked and ventilated, and what is kept', () => {
    const files = stored(
      '2026-03-01',
      'locked: yes, ventilated: yes',
      `${gel}, old: {product: gel, disposed: collected}`,
    )
    expect(rows(files)).toEqual([
      'store | shown | 2026-03-01: locked; ventilated; 1 item; 1 item disposed of',
    ])
    expect(rows(files, year, 'id', 'day', 'place', 'locked', 'kept', 'disposed')).toEqual([
      'oak | 2026-03-01 | cupboard | yes | Invented gel | Invented gel',
    ])
  })

  it.each([
    ['locked: no, ventilated: yes', gel, 'not shown', 'not locked; ventilated; 1 item'],
    ['locked: yes, ventilated: no', gel, 'not shown', 'locked; not ventilated; 1 item'],
    ['locked: yes', gel, 'cannot be checked', 'locked; `ventilated` is absent; 1 item'],
    ['locked: yes, ventilated: yes', '', 'shown', 'locked; ventilated; nothing kept'],
    [
      'locked: yes, ventilated: yes',
      'can: {what: half a can}',
      'cannot be checked',
      'locked; ventilated; no product of the register: half a can; 1 item',
    ],
    [
      'locked: yes, ventilated: yes',
      'can: {what: half a can, unauthorized: yes}',
      'not shown',
      'locked; ventilated; brought in without leave: half a can; 1 item',
    ],
    [
      'locked: yes, ventilated: yes',
      'can: {what: half a can, unauthorized: yes, disposed: collected}',
      'shown',
      'locked; ventilated; nothing kept; 1 item disposed of',
    ],
  ])('%s with {%s} is %s', (place, items, outcome, why) => {
    expect(rows(stored('2026-03-01', place, items))).toEqual([`store | ${outcome} | 2026-03-01: ${why}`])
  })
})

it('what is not shown is never among the rows that are left out for people', () => {
  // Of 45 records the last three are of an open cupboard; a person sees those three first, and 40 rows in all.
  const days = Array.from({ length: 45 }, (_, n) =>
    n < 31 ? `2026-01-${String(n + 1).padStart(2, '0')}` : `2026-03-${n - 20}`,
  )
  const files = Object.assign(
    {},
    ...days.map((on, n) => stored(on, `locked: ${n < 42 ? 'yes' : 'no'}, ventilated: yes`, gel)),
  )
  const { facts, district } = factsOf({ ...register, ...files }, collectStorage, year)
  const table = storageTable(facts, district, year, year.to)
  expect([table.rows.length, table.shownToPeople]).toEqual([45, 40])
  expect(rowsOf(table, 'day', 'outcome').slice(0, 4)).toEqual([
    '2026-03-22 | not shown',
    '2026-03-23 | not shown',
    '2026-03-24 | not shown',
    '2026-01-01 | shown',
  ])
})

describe('a site without a storage record in the period', () => {
  it('that keeps products by an earlier one does not show them', () => {
    const files = stored('2026-03-01', 'locked: yes', gel)
    expect(rows(files, period('2026-04-01', '2026-12-31'))).toEqual([
      '– | not shown | no storage record in the period; that of 2026-03-01 leaves 1 item here',
    ])
  })

  it('where nothing was kept', () => {
    const files = stored('2026-03-01', 'locked: yes', 'old: {product: gel, disposed: collected}')
    const spring = period('2026-04-01', '2026-12-31')
    expect(rows(files, spring)).toEqual([
      '– | not applicable | nothing was kept here by the storage record of 2026-03-01',
    ])
    expect(rows({ ...files, ...applied('2026-05-01') }, spring)).toEqual([
      '– | cannot be checked | nothing was kept here by the storage record of 2026-03-01, and none tells of the period; products were used here once',
    ])
  })

  it('that never had one tells nothing', () => {
    expect(rows({})).toEqual([
      '– | cannot be checked | no storage record tells whether anything is kept here',
    ])
    expect(rows({ ...applied('2026-03-01'), ...applied('2026-03-02') })).toEqual([
      '– | cannot be checked | no storage record tells whether anything is kept here; products were used here 2 times',
    ])
  })

  it('whose records begin later is not judged', () => {
    expect(rows({}, period('2025-01-01', '2025-12-31'))).toEqual([
      '– | not applicable | the records begin here on 2026-01-01, after the period',
    ])
  })
})

it('of the example district is as read in its files', () => {
  const over = period('2025-08-01', '2026-06-30')
  const { facts, district } = factsOf(
    workTree(new URL('../../examples/district', import.meta.url).pathname),
    collectStorage,
    over,
  )
  // Seal and lures stay at Ottermere, the spray went; lures and soap at Quarry Road; Tamsin Hill has no record.
  expect(rowsOf(storageTable(facts, district, over, over.to), 'id', 'day', 'outcome', 'kept')).toEqual([
    'tamsin-hill | – | cannot be checked | –',
    'ottermere | 2025-10-21 | shown | Invented Gap Seal; Invented Moth Lure',
    'quarry-road | 2026-04-15 | shown | Invented Moth Lure; Invented Plant Soap',
  ])
})
