import type { Cell, Column, Plot, Report, Row, Table } from '../../types.js'
import type { YearFacts } from './facts.js'

/** Rows of a table on the page; the command beside it shows the others. */
const rowsOnPage = 12

interface Wanted {
  readonly table: string
  /** Columns, by id; of one that shows a number with its interval to people, the numbers for machines come along. */
  readonly columns: readonly string[]
  readonly title?: string
  readonly only?: (row: Row) => boolean
  readonly empty?: string
}

/** The table of a report, whole. */
export function tableOf(report: Report, id: string): Table | undefined {
  return report.tables.find((table) => table.id === id)
}

export function rowsOf(report: Report, id: string): readonly Row[] {
  return tableOf(report, id)?.rows ?? []
}

export function sumOf(rows: readonly Row[], column: string): number {
  return rows.reduce((sum, { cells }) => sum + numberIn(cells[column]), 0)
}

export function numberIn(cell: Cell | undefined): number {
  return typeof cell === 'number' && Number.isFinite(cell) ? cell : 0
}

/**
 * Some columns of a table of a report: only those named, so that nothing gets onto a page that may be published because
 * a report has learnt to tell it. Text loses the names of people; numbers stay as they are. None where the report has no
 * such table, as one of all sites where one site is asked for.
 */
export function pick(
  facts: YearFacts,
  { report, ...wanted }: Wanted & { readonly report: keyof YearFacts['reports'] },
): Table[] {
  return pickFrom(facts, facts.reports[report], wanted)
}

/** The same of a report that is not one of every review. */
export function pickFrom(facts: YearFacts, report: Report, wanted: Wanted): Table[] {
  const table = tableOf(report, wanted.table)
  if (!table) return []
  const columns = columnsOf(table, wanted.columns)
  const rows = wanted.only === undefined ? table.rows : table.rows.filter(wanted.only)
  return [
    {
      id: `${report.report}-${table.id}`,
      title: wanted.title ?? table.title,
      columns,
      rows: rows.map((row) => shownRow(facts, columns, row)),
      shownToPeople: Math.min(table.shownToPeople ?? rowsOnPage, rowsOnPage),
      empty: wanted.empty ?? table.empty,
      ...(table.for === undefined ? {} : { for: table.for }),
    },
  ]
}

function columnsOf({ columns }: Table, wanted: readonly string[]): Column[] {
  const all = new Set(
    wanted.flatMap((id) => {
      const bare = id.replace(/-shown$/, '')
      return bare === id ? [id] : [id, bare, ...['low', 'high', 'count', 'of'].map((end) => `${bare}-${end}`)]
    }),
  )
  return columns.filter(({ id }) => all.has(id))
}

function shownRow(facts: YearFacts, columns: readonly Column[], { cells, records }: Row): Row {
  return {
    cells: Object.fromEntries(
      columns.map(({ id }) => {
        const cell = cells[id] ?? null
        return [id, typeof cell === 'string' && !isName.has(id) ? facts.shown(cell) : cell]
      }),
    ),
    // Whole, so that they can be counted; the page shows none unless names are asked for.
    records,
  }
}

/** Cells that hold the name of a site, area or word of ours, where a word may be somebody's name too. */
const isName: ReadonlySet<string> = new Set([
  'site',
  'area',
  'pest',
  'answer',
  'owner',
  'outcome',
  'gives',
  'by',
  'which',
  'section',
  'rulebook',
  'need',
  'clause',
  'sites-shown',
  'sites',
])

/**
 * The pictures of a report, each tied to the table here in which its numbers stand. Where that table has only the rows
 * that are drawn, without the cells they share, the picture is of the whole of it.
 */
export function plotsOf(
  { reports }: YearFacts,
  report: keyof YearFacts['reports'],
  tables: readonly Table[],
): Plot[] {
  return (reports[report].plots ?? []).map(({ table, ...plot }) => {
    const own = table === undefined ? undefined : tables.find(({ id }) => id === `${report}-${table.id}`)
    if (!own) return { ...plot, id: `${report}-${plot.id}` }
    const has = (column: string) => own.columns.some(({ id }) => id === column)
    const isPart = Object.keys(table?.rows ?? {}).every(has)
    const rows = isPart && table?.rows !== undefined ? { rows: table.rows } : {}
    return { ...plot, id: `${report}-${plot.id}`, table: { id: own.id, ...rows } }
  })
}
