import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { workTree } from '../../src/files/work-tree.js'
import { papersTable } from '../../src/reports/compliance-papers.js'
import { collectPapers } from '../../src/reports/compliance-papers-collect.js'
import { oakFiles } from '../ledger/small-site.js'
import type { Texts } from './compliance-facts.js'
import { act, applied, districtWith, factsOf, period, product, rowsOf } from './compliance-facts.js'

const year = period('2026-01-01', '2026-12-31')
const hashOf = (text: string) => createHash('sha256').update(text).digest('hex')

/** What is asked for by an invented law: both papers, and a registration in the state. */
const asked = districtWith(
  '2026-01-01',
  `parameters:
  label.at-hand: [{${act(1)}, value: "yes"}]
  sds.at-hand: [{${act(2)}, value: "yes"}]
  sds.age: [{${act(3)}, value: 3 years}]
registrations:
  in-state: [{${act(4)}, in-state: yes}]
`,
)
const label = (spans = 'from: 2026-01-05') =>
  `labels: [{${spans}, file: label.txt, says: {places: [indoors]}, sha256: ${hashOf('label')}}]`
const sheet = (facts = 'from: 2026-01-05, revised: 2025-06-01') =>
  `sds: [{${facts}, file: sds.txt, sections: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]}]`
const registered =
  'kind: pesticide\nregistration: 99999-11\nstates: {OR: [{from: 2026-01-01, until: 2026-06-30}]}'
const files = { 'products/gel/label.txt': 'label', 'products/gel/sds.txt': 'sheet' }
const gel = (...facts: string[]) => ({ ...product('gel', facts.join('\n')), ...files })

function pageOf(records: Texts, over = year) {
  const { facts, district } = factsOf({ ...asked, ...records }, collectPapers, over)
  const table = papersTable(facts, district, over, over.to)
  const rows = (...columns: string[]) => rowsOf(table, ...columns)
  return { table, rows, papers: rows('paper', 'outcome', 'why') }
}

describe('a product that was used', () => {
  it('with everything is shown, each part with its own outcome', () => {
    const page = pageOf({
      ...gel(registered, label(), sheet()),
      ...applied('2026-03-01'),
      ...applied('2026-06-30'),
    })
    expect(page.papers).toEqual([
      'label | shown | in force on 2 days of use; there and unchanged: label.txt; its facts are in data',
      'sheet | shown | in force on 2 days of use; there, no SHA-256 recorded: sds.txt; revised 2025-06-01, within 3 years; sixteen headings',
      'registration | shown | EPA number 99999-11; registered in OR',
    ])
    expect(page.rows('in-force', 'file', 'in-data', 'age', 'sections', 'number', 'state')).toEqual([
      'shown | shown | shown | – | – | – | –',
      'shown | shown | – | shown | shown | – | –',
      '– | – | – | – | – | shown | shown',
    ])
    expect(page.rows('uses', 'first-use', 'last-use', 'kept-at', 'clauses')[0]).toBe(
      '2 | 2026-03-01 | 2026-06-30 | – | Invented Pest Act, section 1',
    )
    expect(page.table.rows[0]?.records).toEqual([
      'products/gel/product.yaml',
      'sites/oak/applications/2026-03-01-okafor.yaml',
      'sites/oak/applications/2026-06-30-okafor.yaml',
    ])
  })

  it('is looked at on each day of use', () => {
    // The label is of 5 January, the use of 4 January before it; the state has it through 30 June.
    const page = pageOf({
      ...gel(registered, label(), sheet()),
      ...applied('2026-01-04'),
      ...applied('2026-07-01'),
    })
    expect(page.papers.map((row) => row.split(';')[0])).toEqual([
      'label | not shown | no label in force on 2026-01-04',
      'sheet | not shown | no sheet in force on 2026-01-04',
      'registration | not shown | not shown registered in OR on 2026-07-01',
    ])
  })

  it('with no papers and no number shows none of them', () => {
    const page = pageOf({ ...product('gel', 'kind: pesticide'), ...applied('2026-03-01') })
    expect(page.papers).toEqual([
      'label | not shown | no label in force on 2026-03-01',
      'sheet | not shown | no sheet in force on 2026-03-01',
      'registration | not shown | no registration number recorded; not shown registered in OR on 2026-03-01',
    ])
  })

  it('names the fields without which it cannot be checked', () => {
    const page = pageOf({
      ...gel(
        registered,
        'labels: [{from: 2026-01-05, file: label.txt}]',
        'sds: [{from: 2026-01-05, file: sds.txt}]',
      ),
      ...applied('2026-03-01'),
    })
    expect(page.papers.slice(0, 2)).toEqual([
      'label | cannot be checked | what the label says is not entered (`says`), so no use was held against it',
      'sheet | cannot be checked | its age: `revised` is absent; its sixteen headings: `sections` is absent',
    ])
  })

  it.each([
    // Three years from 2023-03-01 are over with 2026-03-01; in force and in the period, it is older on the day after.
    [
      'is old',
      'from: 2026-01-05, revised: 2023-03-01',
      'revised 2023-03-01, more than 3 years old on 2026-03-02',
    ],
    [
      'was old from the start',
      'from: 2026-01-05, revised: 2020-01-01',
      'revised 2020-01-01, more than 3 years old on 2026-01-05',
    ],
  ])('whose sheet %s', (_, facts, why) => {
    const page = pageOf({ ...gel(registered, label(), sheet(facts)), ...applied('2026-03-01') })
    expect(page.papers[1]).toBe(`sheet | not shown | ${why}`)
  })

  it('whose sheet lacks a heading', () => {
    const page = pageOf({
      ...gel(
        registered,
        label(),
        'sds: [{from: 2026-01-05, revised: 2025-06-01, file: sds.txt, sections: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 14, 15, 16]}]',
      ),
      ...applied('2026-03-01'),
    })
    expect(page.papers[1]).toBe('sheet | not shown | recorded without 12 Ecological information')
  })

  it('whose label file is changed or gone', () => {
    const of = { ...gel(registered, label(), sheet()), ...applied('2026-03-01') }
    expect(pageOf({ ...of, 'products/gel/label.txt': 'another' }).papers[0]).toBe(
      'label | not shown | not the file that was recorded: label.txt',
    )
    const { 'products/gel/label.txt': _, ...without } = of
    expect(pageOf(without).papers[0]).toBe('label | not shown | not in the ledger: label.txt')
  })

  it('whose label file cannot be read', () => {
    const source = memorySource(
      oakFiles({}, { ...asked, ...gel(registered, label(), sheet()), ...applied('2026-03-01') }),
    )
    const { facts, district } = factsOf(
      {
        ...source,
        sha256: (path) =>
          path.endsWith('label.txt') ? { refused: 'no-permission', detail: 'no' } : source.sha256(path),
      },
      collectPapers,
      year,
    )
    expect(rowsOf(papersTable(facts, district, year, year.to), 'outcome', 'why')[0]).toBe(
      'cannot be checked | could not be read: label.txt',
    )
  })
})

describe('a registration', () => {
  const registration = (facts: string, ...uses: string[]) =>
    pageOf({
      ...gel(facts, label(), sheet()),
      ...Object.assign({}, ...uses.map((day) => applied(day))),
    }).papers[2]

  it('that is none, or not of its kind', () => {
    const states = 'states: {OR: [{from: 2026-01-01}]}'
    expect(registration(`kind: pesticide\nregistration: 99999-EGN\n${states}`, '2026-03-01')).toBe(
      'registration | not shown | 99999-EGN is no registration number',
    )
    expect(registration(`kind: minimum-risk\nregistration: 99999-1\n${states}`, '2026-03-01')).toBe(
      'registration | not shown | a minimum-risk with the registration number 99999-1',
    )
    expect(registration(`kind: minimum-risk\n${states}`, '2026-03-01')).toContain('registration | shown')
    expect(registration('kind: caulk', '2026-03-01')).toBe(
      'registration | not applicable | no pesticide, none is asked for',
    )
  })

  it('for a special local need is good in its own state', () => {
    const need = (number: string) =>
      registration(`kind: pesticide\nspecial-local-need: ${number}`, '2026-03-01')
    expect(need('OR-240001')).toBe('registration | shown | under OR-240001')
    expect(need('WA-240001')).toBe(
      'registration | not shown | WA-240001 is good in WA only, and that is not shown to be here',
    )
  })

  it('that ended is held against each day of use', () => {
    const ended = `${registered}\ncancelled: {on: 2026-02-01, use-until: 2026-03-01}`
    expect(registration(ended, '2026-03-01')).toBe(
      'registration | shown | EPA number 99999-11; registered in OR; registration ended on 2026-02-01, no use after the last day for it',
    )
    expect(registration(ended, '2026-03-01', '2026-03-02')).toBe(
      'registration | not shown | registration ended on 2026-02-01, used after that, or after the last day for using it up, on 2026-03-02',
    )
  })
})

describe('a product that is only kept', () => {
  const stored = (date: string) => ({
    [`sites/oak/storage/${date}-lind.yaml`]:
      'by: lind\nplaces:\n  cupboard:\n    area: store\n    locked: yes\n    items: {one: {product: gel, amount: 2 g}}\n',
  })

  it('is looked at on the last day of the period', () => {
    const page = pageOf({
      ...gel(registered, label('from: 2026-01-05, until: 2026-11-30'), sheet()),
      ...stored('2026-03-01'),
    })
    expect(page.papers[0]).toBe('label | not shown | no label in force on 2026-12-31 (kept, not used)')
    expect(page.rows('uses', 'kept-at')[0]).toBe('0 | oak')
    // No use, so nothing asks where it is registered.
    expect(page.papers[2]).toBe('registration | shown | EPA number 99999-11')
  })

  it('after the period is not in it', () => {
    const of = { ...gel(registered, label(), sheet()), ...stored('2026-03-01') }
    expect(pageOf(of, period('2026-01-01', '2026-02-28')).papers).toEqual([])
    expect(pageOf(of, period('2024-01-01', '2024-12-31')).papers).toEqual([])
  })
})

describe('a product that is not in the register', () => {
  it('cannot be checked', () => {
    expect(pageOf(applied('2026-03-01', 'mystery')).papers).toEqual([
      'all | cannot be checked | products/mystery/product.yaml is absent',
    ])
    expect(pageOf({ ...product('gel', 'kind: nothing'), ...applied('2026-03-01') }).papers).toEqual([
      'all | cannot be checked | products/gel/product.yaml cannot be used',
    ])
  })
})

it('of the example district is as read in its files', () => {
  // Kept: gap seal, moth lure, plant soap. Used: foam, gel, rat bait (4 days), nematodes, lures, soap on two plants.
  // The label of the foam was changed, the sheet of the rat bait is in the van; `sections` is written on no sheet.
  const over = period('2025-08-01', '2026-06-30')
  const source = workTree(new URL('../../examples/district', import.meta.url).pathname)
  const { facts, district } = factsOf(source, collectPapers, over)
  const table = papersTable(facts, district, over, over.to)
  const outcomes = new Map<string, string[]>()
  for (const { cells } of table.rows)
    outcomes.set(String(cells.id), [...(outcomes.get(String(cells.id)) ?? []), String(cells.outcome)])
  expect(Object.fromEntries(outcomes)).toEqual({
    'gap-seal': ['not applicable', 'cannot be checked', 'not applicable'],
    'wasp-foam': ['not shown', 'cannot be checked', 'not applicable'],
    'moth-lure': ['not applicable', 'not applicable', 'not applicable'],
    'plant-soap': ['shown', 'cannot be checked', 'shown'],
    'rat-block': ['shown', 'not shown', 'shown'],
    'roach-gel': ['shown', 'cannot be checked', 'shown'],
    'soil-nematodes': ['shown', 'not applicable', 'not applicable'],
  })
  expect(
    rowsOf(table, 'id', 'paper', 'uses', 'kept-at').filter((row) => row.includes('| label |')),
  ).toContain('plant-soap | label | 2 | quarry-road')
})
