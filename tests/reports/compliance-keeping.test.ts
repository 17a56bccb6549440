import { describe, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { collectKeeping, keepingCautions, keepingTable } from '../../src/reports/compliance-keeping.js'
import type { Texts } from './compliance-facts.js'
import { act, applied, districtWith, factsOf, period, product, rowsOf } from './compliance-facts.js'

const gel = product('gel', 'kind: pesticide\nregistration: 99999-11')
const keeping = (what: string, keep: string, more = '') =>
  `keeping:\n  kept: [{${act(9)}, what: ${what}, keep: ${keep}${more}}]\n`

function rows(files: Texts, asOf = '2026-12-31', ...columns: string[]) {
  const over = period('2026-01-01', asOf)
  const { facts, district } = factsOf({ ...gel, ...files }, collectKeeping, over)
  const table = keepingTable(facts, district, over, over.to)
  return rowsOf(table, ...(columns.length > 0 ? columns : ['what', 'outcome', 'why']))
}

const twoYears = keeping('applications', '2 years')

describe('a duty to keep records', () => {
  it('is shown by what is held from the oldest day on', () => {
    // As of 2026-12-31 two years reach back to 2024-12-31; the use of 2024-12-30 need no longer be kept.
    const files = {
      ...districtWith('2024-01-01', twoYears),
      ...applied('2024-12-30'),
      ...applied('2024-12-31'),
      ...applied('2026-03-01'),
    }
    expect(rows(files)).toEqual([
      'applications | shown | 2 years (own: kept), so since 2024-12-31: 2 records held, the oldest of 2024-12-31',
    ])
    expect(rows(files, '2026-12-31', 'since', 'held', 'oldest', 'keep', 'clause')).toEqual([
      '2024-12-31 | 2 | 2024-12-31 | 2 years | Invented Pest Act, section 9',
    ])
  })

  it('counts only the uses it holds for', () => {
    const only = `uses:\n  restricted: [{${act(1)}, any: [{restricted-use: "yes"}]}]\n${keeping('applications', '2 years', ', holds-for: [restricted]')}`
    expect(rows({ ...districtWith('2024-01-01', only), ...applied('2026-03-01') })).toEqual([
      'applications | not applicable | 2 years (own: kept), so since 2024-12-31: no record is held that it is about',
    ])
  })

  it('tells nothing of what a site holds that was not looked at', () => {
    const over = period('2026-01-01', '2026-12-31')
    const elm = {
      'sites/elm/site.yaml':
        'name: Elm School\nsite-manager: [{from: 2024-01-01, who: lind}]\ncomplaint-log: front office\ncontract: []\nareas: {hall: {kind: dining}}\n',
    }
    const { facts, district } = factsOf(
      { ...districtWith('2024-01-01', twoYears), ...elm },
      collectKeeping,
      over,
    )
    const page = (of: typeof facts) => rowsOf(keepingTable(of, district, over, over.to), 'outcome', 'why')
    expect(page(facts)).toEqual([
      'not applicable | 2 years (own: kept), so since 2024-12-31: no record is held that it is about',
    ])
    expect(page(facts.slice(1))).toEqual([
      'cannot be checked | 2 years (own: kept), so since 2024-12-31: no record is held that it is about at 1 of 2 sites looked at',
    ])
  })

  it('reaches back before the records begin, and says that nothing is told of that', () => {
    expect(rows({ ...districtWith('2026-01-01', twoYears), ...applied('2026-03-01') })).toEqual([
      'applications | cannot be checked | 2 years (own: kept), so since 2024-12-31: 1 record held, the oldest of 2026-03-01; the ledger begins on 2026-01-01 (`records-begin`) and tells nothing of the time before',
    ])
  })

  it('of notices counts notices', () => {
    const notice = (date: string) => ({
      [`sites/oak/notices/${date}-lind.yaml`]:
        'by: lind\napplication: 2026-03-04-okafor\nsent: {to: all parents, how: letter}\n',
    })
    const files = {
      ...districtWith('2024-01-01', keeping('notices', '1 year')),
      ...notice('2025-12-30'),
      ...notice('2025-12-31'),
      ...notice('2026-03-01'),
    }
    expect(rows(files)).toEqual([
      'notices | shown | 1 year (own: kept), so since 2025-12-31: 2 records held, the oldest of 2025-12-31',
    ])
  })

  it('of sheets looks whether their files are there', () => {
    const sheets = keeping('sds', '2 years')
    const files = {
      ...districtWith('2024-01-01', sheets),
      ...product(
        'gel',
        'kind: pesticide\nregistration: 99999-11\nsds: [{from: 2024-01-05, until: 2024-12-30, file: old.txt}, {from: 2024-12-31, file: new.txt}]',
      ),
    }
    // The first sheet was last in force on the day before the oldest that counts.
    expect(rows({ ...files, 'products/gel/new.txt': 'sheet' })).toEqual([
      'safety data sheets | shown | 2 years (own: kept), so since 2024-12-31: 1 sheet held, the oldest of 2024-12-31',
    ])
    expect(rows(files)).toEqual([
      'safety data sheets | not shown | 2 years (own: kept), so since 2024-12-31: not in the ledger: gel/new.txt; no sheet is held that it is about',
    ])
  })

  it('that there is none of leaves no row', () => {
    expect(rows(districtWith('2026-01-01', ''))).toEqual([])
  })
})

describe('records that were discarded', () => {
  const discarded = (before: string, on = '2026-03-05') =>
    `discarded: [{on: ${on}, before: ${before}, what: applications, by: marsh}]\n`
  const with_ = (before: string, on?: string) =>
    rows({
      ...districtWith('2024-01-01', twoYears, discarded(before, on)),
      ...applied('2026-03-01'),
    })

  it('too early are not shown, in the row of the duty and in their own', () => {
    // The youngest is of 2024-03-05 and kept through 2026-03-05: until 2026-03-06.
    expect(with_('2024-03-06')).toEqual([
      'applications | not shown | 2 years (own: kept), so since 2024-12-31: discarded too early on 2026-03-05; 1 record held, the oldest of 2026-03-01',
      'applications | not shown | discarded on 2026-03-05, of events before 2024-03-06: the youngest, of 2024-03-05, would have been kept until 2026-03-06 (own)',
    ])
  })

  it('a day older were over', () => {
    expect(with_('2024-03-05')[1]).toBe(
      'applications | shown | discarded on 2026-03-05, of events before 2024-03-05: their time was over by every rulebook in force',
    )
  })

  it('before the ledger begins, or after the as-of day', () => {
    expect(with_('2023-01-01', '2023-12-31')[1]).toBe(
      'applications | cannot be checked | discarded on 2023-12-31, of events before 2023-01-01: they were discarded before the ledger begins (`records-begin`)',
    )
    expect(with_('2024-03-06', '2027-01-01')).toHaveLength(1)
  })

  it('cannot be told where they were only deleted, and the report says so', () => {
    expect(keepingCautions.join(' ')).toContain('not records deleted from it, in git or otherwise')
  })
})

it('of the example district is as read in its files', () => {
  const over = period('2025-08-01', '2026-06-30')
  const { facts, district } = factsOf(
    workTree(new URL('../../examples/district', import.meta.url).pathname),
    collectKeeping,
    over,
  )
  // California exempts bait stations, gel in cracks and minimum risk, and nothing else was used. Of seven sheets that
  // of the rat bait is not there.
  expect(rowsOf(keepingTable(facts, district, over, over.to), 'duty', 'since', 'outcome', 'held')).toEqual([
    'us-federal: restricted-use-statute | 2024-06-30 | cannot be checked | 0',
    'us-federal: restricted-use-commercial | 2024-06-30 | cannot be checked | 0',
    'us-federal: sds | 1996-06-30 | not shown | 6',
    'california: applications | 2022-06-30 | cannot be checked | 0',
  ])
})
