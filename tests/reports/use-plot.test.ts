import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { useReport } from '../../src/reports/use.js'
import { day, oakFiles } from '../ledger/small-site.js'

const beginning = (begins: string) => ({
  'district.yaml': `format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: ${begins}
coordinator: [{from: ${begins}, who: marsh}]
rulebooks: []
calendar: []
`,
  'products/gel/product.yaml': 'name: Invented Gel\nkind: pesticide\nregistration: 99999-11\n',
})

const applied = (date: string) => ({
  [`sites/oak/applications/${date}-okafor.yaml`]:
    'by: okafor\nstatus: done\nproduct: gel\npest: german-cockroach\nmethod: crack-and-crevice\nareas: {kitchen: {}}\namount: 1 g\n',
})

const on = (records: Readonly<Record<string, string>>, begins = '2024-01-01', more = {}) =>
  useReport(memorySource(oakFiles({}, { ...beginning(begins), ...records })), {
    asOf: day('2026-06-30'),
    asOfIsToday: false,
    ...more,
  })

describe('the picture of use over time', () => {
  it('has a bar for each month, a zero where nothing was used', () => {
    const [plot] =
      on({ ...applied('2026-05-04'), ...applied('2026-05-06'), ...applied('2026-06-30') }).plots ?? []
    expect(plot?.bars?.rows).toHaveLength(12)
    expect(plot?.bars?.rows.slice(-3)).toEqual([
      { name: '2026-04', values: [0, 0] },
      { name: '2026-05', values: [2, 0] },
      { name: '2026-06', values: [1, 0] },
    ])
    expect([plot?.kind, plot?.bars?.overTime, plot?.table]).toEqual(['bars', true, { id: 'over-time' }])
  })

  it('and its table know nothing of months before the records began', () => {
    const report = on(applied('2026-05-04'), '2026-04-15')
    expect(report.plots?.[0]?.bars?.rows.slice(-4).map(({ values }) => values[0])).toEqual([null, 0, 1, 0])
    const rows = report.tables.find(({ id }) => id === 'over-time')?.rows.slice(-4)
    expect(rows?.map(({ cells }) => [cells.when, cells.applications])).toEqual([
      ['2026-03', undefined],
      ['2026-04', 0],
      ['2026-05', 1],
      ['2026-06', 0],
    ])
  })

  it('is of years where the period is longer than two', () => {
    const [plot] = on(applied('2026-05-04'), '2020-01-01', { from: day('2022-01-01') }).plots ?? []
    expect(plot?.bars?.rows).toHaveLength(5)
    expect(plot?.bars?.overTime).toBe(false)
  })

  it.each([
    ['nothing was used', {}, {}],
    ['the period is short', applied('2026-05-04'), { from: day('2026-05-01') }],
  ])('is none where %s', (_, records, more) => {
    expect(on(records, '2024-01-01', more).plots).toBeUndefined()
  })
})
