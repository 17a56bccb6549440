import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { parseQuantity } from '../../src/measure/quantities.js'
import { openingTable, spacingTable } from '../../src/records/placing.js'
import { pestTable } from '../../src/records/tables.js'
import { layoutOpeningsReport } from '../../src/reports/layout-openings.js'
import { layoutRunsReport } from '../../src/reports/layout-runs.js'
import type { StretchAsked } from '../../src/reports/layout-stretch.js'
import { layoutStretchReport } from '../../src/reports/layout-stretch.js'
import type { Report } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

const asOf = day('2026-12-31')
const length = (text: string) => {
  const quantity = parseQuantity(text)
  if (!quantity) throw new Error(text)
  return quantity
}
const stretch = (asked: Omit<StretchAsked, 'asOf'>): Report => {
  const report = layoutStretchReport({ asOf, ...asked })
  if (typeof report === 'string') throw new Error(report)
  return report
}
const places = (report: Report) => report.tables[0]?.rows.map(({ cells }) => cells.at)

describe('a wall', () => {
  it('of 60 ft takes five mouse traps, 15 ft apart: no more than 15 ft (common practice, no source)', () => {
    const report = stretch({ pest: 'house-mouse', wall: length('60 ft') })
    expect(report.headline).toBe('5 devices (snap trap) along this wall, 15 ft apart.')
    expect(places(report)).toEqual([0, 15, 30, 45, 60])
  })

  it('of 100 ft takes five rat devices, 25 ft apart: at most 30 ft (from memory, extension and CDC manuals)', () => {
    expect(places(stretch({ pest: 'norway-rat', wall: length('100 ft') }))).toEqual([0, 25, 50, 75, 100])
  })

  it('in metres is told in metres: 15 ft are 4.572 m, so 9 m are two stretches of 4.5 m', () => {
    expect(places(stretch({ pest: 'house-mouse', wall: length('9 m') }))).toEqual([0, 4.5, 9])
  })

  it('takes as many more as a closer distance asks', () => {
    const report = stretch({ pest: 'house-mouse', wall: length('60 ft'), atMost: length('8 ft') })
    // 60 / 8 is 7.5: eight stretches of 7.5 ft, nine traps.
    expect(report.headline).toContain('9 devices')
    expect(report.facts.map(({ value }) => value).join(' ')).toContain('8 ft (as asked)')
  })

  it.each([
    [{ pest: 'bat', wall: length('60 ft') }, 'nothing known of the pest'],
    [{ pest: 'house-mouse', kind: 'light-trap', wall: length('60 ft') }, 'kind does not fit the pest'],
    [{ pest: 'house-mouse', wall: length('900000 ft') }, 'too long'],
  ] as const)('%j: %s', (asked, why) => {
    expect(layoutStretchReport({ asOf, ...asked })).toBe(why)
  })
})

it('a room of 30 by 24 ft is 108 ft around and takes eight mouse traps, 13.5 ft apart', () => {
  const report = stretch({ pest: 'house-mouse', room: [length('30 ft'), length('24 ft')] })
  expect(report.headline).toBe('8 devices (snap trap) around this room, 13.5 ft apart.')
})

describe('an opening', () => {
  const passing = (width: string) =>
    layoutOpeningsReport({ asOf, width: length(width) })
      .tables[0]?.rows.filter(({ cells }) => cells.passes === 'yes')
      .map(({ cells }) => cells.pest)

  it('lets a mouse through above 1/4 in and a rat above 1/2 in (ICWDM, rodent exclusion methods)', () => {
    expect(passing('0.25 in')).not.toContain('house mouse')
    expect(passing('0.26 in')).toContain('house mouse')
    expect(passing('0.5 in')).not.toContain('Norway rat, roof rat, rat, kind not told')
    expect(passing('0.51 in')).toContain('Norway rat, roof rat, rat, kind not told')
    // 1/2 in is 12.7 mm.
    expect(passing('12.7 mm')).toEqual(passing('0.5 in'))
  })

  it('of a pest says what stops it', () => {
    const report = layoutOpeningsReport({ asOf, pest: 'house-mouse' })
    expect(report.tables[0]?.rows.map(({ cells }) => cells.stops)).toEqual([
      'woven or welded hardware cloth of 1/4 in, sheet metal, mortar; a door sweep down to the floor',
    ])
    expect(layoutOpeningsReport({ asOf, pest: 'silverfish' }).headline).toBe(
      'Nothing is known of what lets the silverfish in.',
    )
  })
})

describe('the runs of a site', () => {
  const site = (runs: string, more = '') => `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen}}
runs: ${runs}
${more}`
  const set = (...ids: string[]) =>
    `set: {${ids.map((id) => `${id}: {kind: snap-trap, area: kitchen}`).join(', ')}}`
  const report = (runs: string, ids: string[], rulebook = '[{rulebook: practice, from: 2026-01-01}]') =>
    layoutRunsReport(
      memorySource(
        oakFiles(
          { '2026-02-01': set(...ids) },
          {
            'sites/oak/site.yaml': site(runs),
            'district.yaml': `format: 1\nname: Example District\ntime-zone: UTC\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: ${rulebook}\ncalendar: []\n`,
          },
        ),
      ),
      'oak',
      { asOf, asOfIsToday: false },
    )

  it('leave open what lies between neighbours further apart than asked: 31 ft takes two more, 15 ft none', () => {
    const found = report('{north: {devices: [A, B, C], spacing: [31 ft, 15 ft]}}', ['A', 'B', 'C'])
    expect(found.headline).toBe('2 more devices would close the one gap in the runs, first between A and B.')
    expect(found.tables[0]?.rows.map(({ cells }) => [cells.from, cells.to, cells.apart, cells.more])).toEqual(
      [
        ['A', 'B', 31, 2],
        ['B', 'C', 15, 0],
      ],
    )
  })

  it('count the distance over a device that no longer stands', () => {
    // B was never set: A to C is 30 ft, one more would do.
    const found = report('{north: {devices: [A, B, C], spacing: [15 ft, 15 ft]}}', ['A', 'C'])
    expect(found.tables[0]?.rows.map(({ cells }) => [cells.apart, cells.more])).toEqual([[30, 1]])
  })

  it('whose distances are not known are said to be so, and no limit is made up', () => {
    const unknown = report('{north: {devices: [A, B]}}', ['A', 'B'])
    expect(unknown.notExamined.join(' ')).toContain('how far apart they stand is not known')
    expect(unknown.tables[0]?.rows[0]?.cells.more).toBeNull()
    const noRule = report('{north: {devices: [A, B], spacing: [90 ft]}}', ['A', 'B'], '[]')
    expect(noRule.tables[0]?.rows[0]?.cells).toMatchObject({ limit: null, more: null })
  })
})

describe('the tables', () => {
  it('name pests that there are, each with a source, in lengths that can be read', () => {
    for (const { pests, source, 'at-most': most } of spacingTable().values()) {
      for (const pest of pests ?? []) expect(pestTable().has(pest)).toBe(true)
      expect([source.length > 10, parseQuantity(most)?.dimension]).toEqual([true, 'length'])
    }
    for (const row of openingTable().values()) {
      for (const pest of row.pests) expect(pestTable().has(pest)).toBe(true)
      const width = parseQuantity(row['admits-above'] ?? row['admits-from'] ?? '')
      expect([row.source.length > 10, width?.dimension]).toEqual([true, 'length'])
    }
  })
})
