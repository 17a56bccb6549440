import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'csv-parse/sync'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import { dayOf } from '../../../src/measure/calendar.js'
import { reportCsv } from '../../../src/output/report-csv.js'
import { safeText } from '../../../src/output/safe-text.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import type { Report } from '../../../src/types.js'
import { exportTables } from '../../../src/writing/export/tables.js'
import { newFolder } from '../../cli/run-doorsweep.js'
import { demoSource, exported } from './demo-export.js'
import type { Duck } from './duck.js'
import { duckOver, hasDuck } from './duck.js'

/** Names that try what a file or a spreadsheet could make of them. */
const awkward = [
  'Oak, "the old one"; wing',
  '=HYPERLINK("http://invalid.example","x")',
  '+1 555',
  '-2 + 3',
  '@sum',
  ' =1+1',
  'בית ספר אלון',
  'Oak \u202egnp.exe',
  "O'Neill; drop table sites",
  'Škola Dub 🐜 学校',
  'tab\there',
]

/** In YAML; a direction mark only as an escape, since a record that holds one as it is cannot be used. */
const inYaml = (name: string) => JSON.stringify(name).replaceAll('\u202e', '\\u202e')

const sitesNamed = awkward
  .map(
    (name, n) => `
=== sites/site-${n}/site.yaml
name: ${inYaml(name)}
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented, routine-visits: monthly}]
areas: {kitchen: {kind: kitchen, name: ${inYaml(name)}}}
`,
  )
  .join('')

describe.skipIf(!hasDuck)('CSV read back equals Parquet read back', () => {
  const ducks: Duck[] = []

  afterAll(() => {
    for (const duck of ducks) duck.close()
  })

  it.each([
    ['a demo of two schools and two years', demoSource(3, 2, 2), dayOf('2026-06-30') ?? 0],
    ['awkward names', memorySource(ledgerWith(sitesNamed)), dayOf('2026-03-20') ?? 0],
  ])('%s', async (_, source, asOf) => {
    const folder = newFolder()
    const read = async (format: 'csv' | 'parquet') => {
      const done = await exported(source, join(folder, format), { format, asOf, district: 'alder' })
      expect(done).not.toHaveProperty('refused')
      const duck = await duckOver(join(folder, format), format)
      ducks.push(duck)
      return { duck, done }
    }
    const csv = await read('csv')
    const parquet = await read('parquet')
    expect('rows' in csv.done && 'rows' in parquet.done && [...csv.done.rows]).toEqual(
      'rows' in parquet.done && [...parquet.done.rows],
    )
    for (const { name, columns } of exportTables) {
      const all = `SELECT * FROM ${name} ORDER BY ALL`
      const rows = await parquet.duck.ask(all)
      expect([name, await csv.duck.ask(all)]).toEqual([name, rows])
      expect([name, rows.length]).toEqual([name, 'rows' in csv.done && csv.done.rows.get(name)])
      // The same types too, whatever the file would let an engine guess.
      const types = `SELECT column_name, column_type FROM (DESCRIBE ${name})`
      const described = await parquet.duck.ask(types)
      expect([name, await csv.duck.ask(types)]).toEqual([name, described])
      const expected = columns.map((column) => column.name)
      expect(described.map(({ column_name: column }) => column).slice(0, expected.length)).toEqual(expected)
    }
  })

  it('keeps every awkward name as one cell, and no cell a formula', async () => {
    const folder = newFolder()
    const asOf = dayOf('2026-03-20') ?? 0
    await exported(memorySource(ledgerWith(sitesNamed)), join(folder, 'out'), { asOf, district: 'alder' })
    const duck = await duckOver(join(folder, 'out'), 'parquet')
    ducks.push(duck)
    const rows = await duck.ask("SELECT site, name FROM sites WHERE site LIKE 'site-%'")
    const byId = new Map(rows.map(({ site, name }) => [String(site), String(name)]))
    expect(byId.get('site-0')).toBe('Oak, "the old one"; wing')
    expect(byId.get('site-1')).toBe('\'=HYPERLINK("http://invalid.example","x")')
    expect(byId.get('site-6')).toBe('בית ספר אלון')
    expect(byId.get('site-7')).toBe('Oak \\u202egnp.exe')
    expect(byId.get('site-9')).toBe('Škola Dub 🐜 学校')
    expect(rows.filter(({ name }) => /^\s*[=+\-@]/.test(String(name)))).toEqual([])
  })
})

describe('CSV by itself', () => {
  let folder: string
  beforeAll(async () => {
    folder = join(newFolder(), 'out')
    const asOf = dayOf('2026-03-20') ?? 0
    await exported(memorySource(ledgerWith(sitesNamed)), folder, { format: 'csv', asOf, district: 'alder' })
  })

  it('has a header and one line a row, whatever is in a name', () => {
    const text = readFileSync(join(folder, 'areas/district=alder/part.csv'), 'utf8')
    const rows = parse(text, { columns: true }) as Record<string, string>[]
    // One area of each awkward site, two of the example's own.
    expect(rows.length).toBe(awkward.length + 2)
    expect(text.trimEnd().split('\n').length).toBe(rows.length + 1)
    expect(rows.map(({ name }) => name)).toEqual(expect.arrayContaining(["'+1 555", "'@sum", "' =1+1"]))
  })

  it('has a file for a table without a row, with its columns', () => {
    const year = readdirSync(join(folder, 'complaints/district=alder'))
    expect(year).toEqual(['year=2026'])
    const text = readFileSync(join(folder, 'complaints/district=alder/year=2026/part.csv'), 'utf8')
    expect(text.split('\n')[0]?.startsWith('site,complaint,came_in_on,')).toBe(true)
    expect(text.trim().split('\n').length).toBe(1)
  })

  it('makes text safe just as the CSV of a report does', () => {
    const said = [...awkward, 'two\nlines', '\u200f=1', 'plain']
    const report: Report = {
      report: 'x',
      title: 'x',
      headline: 'x',
      asOf: '2026-03-20',
      facts: [],
      cautions: [],
      notExamined: [],
      incomplete: false,
      tables: [
        {
          id: 'x',
          title: 'x',
          columns: [{ id: 'said', title: 'said' }],
          rows: said.map((text) => ({ cells: { said: text }, records: [] })),
          empty: '',
        },
      ],
    }
    const rows = parse(reportCsv(report), { columns: true }) as Record<string, string>[]
    expect(said.map(safeText)).toEqual(rows.map((row) => row.said))
  })
})
