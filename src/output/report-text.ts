import Table from 'cli-table3'
import type { Cell, Column, Report, Table as ReportTable, Row } from '../types.js'
import { clean } from './clean.js'
import type { Painter } from './painter.js'

export interface TextOptions {
  readonly paint: Painter
  /** Also the columns and records behind each row. */
  readonly showWork: boolean
}

/** A report for a terminal. Tables are as wide as they need to be: nothing is cut. */
export function reportText(report: Report, options: TextOptions): string {
  const lines = [options.paint.strong(clean(report.title)), subtitle(report), '', clean(report.headline), '']
  for (const { label, value } of report.facts) lines.push(`${label}: ${clean(value)}`)
  if (report.facts.length > 0) lines.push('')
  for (const table of report.tables)
    lines.push(options.paint.strong(table.title), ...tableLines(table, options), '')
  for (const caution of report.cautions) lines.push(options.paint.faint(`* ${caution}`))
  for (const line of report.notExamined) lines.push(`not examined: ${clean(line)}`)
  return `${lines.join('\n').trimEnd()}\n`
}

export function subtitle(report: Report): string {
  return report.period
    ? `${report.period.from} to ${report.period.to}, as of ${report.asOf}`
    : `as of ${report.asOf}`
}

/** The columns a person sees; the work behind a number only when asked for. */
export function columnsShown(table: ReportTable, showWork: boolean): readonly Column[] {
  const columns = table.columns.filter((column) => showWork || column.for !== 'work')
  return showWork ? [...columns, { id: recordsColumn, title: 'records' }] : columns
}

export function rowsShown(table: ReportTable, showWork: boolean): readonly Row[] {
  return showWork || table.shownToPeople === undefined ? table.rows : table.rows.slice(0, table.shownToPeople)
}

/** How many rows are not shown, said so that a short table never passes for a whole one. */
export function leftOut(table: ReportTable, showWork: boolean): string | undefined {
  const missing = table.rows.length - rowsShown(table, showWork).length
  return missing === 0 ? undefined : `${missing} more rows: --show-work, --format json or csv shows them all.`
}

export const recordsColumn = 'records'

export function heading(column: Column): string {
  return column.unit === undefined ? column.title : `${column.title} (${column.unit})`
}

/** A cell for a person: a missing number is a dash, never a zero. */
export function cellText(cell: Cell | undefined, column: Column): string {
  if (cell === null || cell === undefined) return '–'
  if (typeof cell === 'string') return clean(cell)
  return column.decimals === undefined ? String(cell) : cell.toFixed(column.decimals)
}

function tableLines(table: ReportTable, { showWork }: TextOptions): string[] {
  if (table.rows.length === 0) return [`  ${table.empty}`]
  const columns = columnsShown(table, showWork)
  const drawn = new Table({
    head: columns.map(heading),
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 2 },
    colAligns: columns.map((column) => (column.decimals === undefined ? 'left' : 'right')),
    chars: {
      top: '',
      'top-mid': '',
      'top-left': '',
      'top-right': '',
      bottom: '',
      'bottom-mid': '',
      'bottom-left': '',
      'bottom-right': '',
      left: '  ',
      'left-mid': '',
      mid: '',
      'mid-mid': '',
      right: '',
      'right-mid': '',
      middle: '',
    },
  })
  const rows = rowsShown(table, showWork)
  for (const row of rows) {
    drawn.push(
      columns.map((column) =>
        column.id === recordsColumn
          ? row.records.map(clean).join('\n')
          : cellText(row.cells[column.id], column),
      ),
    )
  }
  const lines = drawn
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
  const more = leftOut(table, showWork)
  return more === undefined ? lines : [...lines, `  ${more}`]
}
