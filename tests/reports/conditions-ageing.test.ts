import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { conditionsReport } from '../../src/reports/conditions.js'
import { day, oakFiles } from '../ledger/small-site.js'

const fault = (owner: string, kind: string) =>
  `{new: drip, area: kitchen, kind: ${kind}, gives: water${owner === '' ? '' : `, owner: ${owner}`}}`

/** Found on days 0, 30, 31, 90, 91, 365 and 366 before 2026-06-30. */
const visits = {
  '2026-06-30': `conditions: {a: ${fault('maintenance', 'moisture')}}`,
  '2026-05-31': `conditions: {b: ${fault('maintenance', 'moisture')}}`,
  '2026-05-30': `conditions: {c: ${fault('maintenance', 'structural')}}`,
  '2026-04-01': `conditions: {d: ${fault('kitchen', 'moisture')}}`,
  '2026-03-31': `conditions: {e: ${fault('maintenance', 'moisture')}}`,
  '2025-06-30': `conditions: {f: ${fault('', 'moisture')}}`,
  '2025-06-29': `conditions: {g: ${fault('maintenance', 'moisture')}}`,
}
const begun = {
  'district.yaml': `format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: 2025-01-01
coordinator: [{from: 2025-01-01, who: marsh}]
rulebooks: []
calendar: []
`,
}

const on = (records: Readonly<Record<string, string>>, more = {}) =>
  conditionsReport(memorySource(oakFiles(records, begun)), {
    asOf: day('2026-06-30'),
    asOfIsToday: false,
    ...more,
  })

describe('how long open conditions have waited', () => {
  const report = on(visits)
  const plot = (by: string) => report.plots?.find(({ id }) => id === `open-by-${by}`)

  it('is drawn by owner and by kind of fault, the one with most first', () => {
    // Up to 30 days: 0 and 30. To 90: 31 and 90. To 180: 91. To 365: 365. Over: 366.
    expect(plot('owner')?.bars?.rows).toEqual([
      { name: 'maintenance', values: [2, 1, 1, 0, 1] },
      { name: 'kitchen', values: [0, 1, 0, 0, 0] },
      { name: 'nobody named', values: [0, 0, 0, 1, 0] },
    ])
    expect(plot('kind')?.bars?.rows).toEqual([
      { name: 'moisture', values: [2, 1, 1, 1, 1] },
      { name: 'structural', values: [0, 1, 0, 0, 0] },
    ])
  })

  it('stands in a table with the records behind it', () => {
    const table = report.tables.find(({ id }) => id === plot('owner')?.table?.id)
    const rows = table?.rows.filter(({ cells }) => cells.by === 'owner' && cells.site === 'all sites')
    expect(
      rows?.map(({ cells }) => [cells.which, cells.open, cells['to-30'], cells.longer, cells.oldest]),
    ).toEqual([
      ['maintenance', 5, 2, 1, '2025-06-29'],
      ['kitchen', 1, 0, 0, '2026-04-01'],
      ['nobody named', 1, 0, 0, '2025-06-30'],
    ])
    expect(rows?.[1]?.records).toEqual(['sites/oak/visits/2026-04-01-okafor.yaml'])
  })

  it('of one site has the rows of that site', () => {
    const oak = on(visits, { site: 'oak' })
    expect(oak.plots?.find(({ id }) => id === 'open-by-owner')?.table?.rows).toEqual({
      site: 'oak',
      by: 'owner',
    })
    expect(
      new Set(oak.tables.find(({ id }) => id === 'ageing')?.rows.map(({ cells }) => cells.site)),
    ).toEqual(new Set(['oak']))
  })

  it('is not drawn of fewer than three', () => {
    const { '2026-06-30': a, '2026-05-31': b } = visits
    expect(on({ '2026-06-30': a, '2026-05-31': b }).plots?.map(({ id }) => id)).toEqual(['open-by-month'])
  })
})
