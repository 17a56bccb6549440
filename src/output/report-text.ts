import Table from 'cli-table3'
import stringWidth from 'string-width'
import type { Cell, Column, Report, Table as ReportTable, Row } from '../types.js'
import { clean } from './clean.js'
import type { Painter } from './painter.js'
import { plotText } from './plot-text.js'
import { wrapped } from './wrapped.js'

export interface TextOptions {
  readonly paint: Painter
  /** Also the columns and records behind each row. */
  readonly showWork: boolean
  /** Columns of the terminal, so that long text is wrapped; without it nothing is wrapped, as in a pipe. */
  readonly width?: number
}

/** A report for a terminal. Tables are as wide as they need to be: nothing is cut. */
export function reportText(report: Report, options: TextOptions): string {
  const { paint, width } = options
  const lines = [
    ...wrapped(clean(report.title), width).map((line) => paint.strong(line)),
    subtitle(report),
    '',
    ...wrapped(clean(report.headline), width),
    '',
  ]
  for (const { label, value } of report.facts)
    lines.push(...wrapped(`${label}: ${clean(value)}`, width, '  '))
  if (report.facts.length > 0) lines.push('')
  for (const table of tablesShown(report, options.showWork))
    lines.push(
      ...wrapped(table.title, width).map((line) => paint.strong(line)),
      ...tableLines(table, options),
      '',
    )
  for (const plot of report.plots ?? []) lines.push(...plotText(plot), '')
  for (const caution of report.cautions)
    lines.push(...wrapped(`* ${caution}`, width, '  ').map((line) => paint.faint(line)))
  for (const line of report.notExamined) lines.push(...wrapped(`not examined: ${clean(line)}`, width, '  '))
  if (report.paste)
    lines.push(
      '',
      ...wrapped(clean(report.paste.title), width).map((line) => paint.strong(line)),
      ...pasteLines(report.paste),
    )
  return `${lines.join('\n').trimEnd()}\n`
}

/** Line by line and from the margin on, so that it can be copied as it stands. */
export function pasteLines({ text }: NonNullable<Report['paste']>): string[] {
  return text.trimEnd().split('\n').map(clean)
}

export function subtitle(report: Report): string {
  return report.period
    ? `${report.period.from} to ${report.period.to}, as of ${report.asOf}`
    : `as of ${report.asOf}`
}

/** The tables a person sees; those made for machines only when asked for. */
export function tablesShown(report: Report, showWork: boolean): readonly ReportTable[] {
  return report.tables.filter((table) => showWork || table.for !== 'work')
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
  if (missing === 0) return undefined
  const rows = missing === 1 ? 'One more row' : `${missing} more rows`
  return `${rows}: --show-work, --format json or csv shows them all.`
}

export const recordsColumn = 'records'

export function heading(column: Column): string {
  return column.unit === undefined ? column.title : `${column.title} (${column.unit})`
}

/** A cell for a person: a missing number is a dash, never a zero. */
export function cellText(cell: Cell | undefined, column: Column): string {
  if (cell === null || cell === undefined) return '–'
  if (typeof cell === 'string') return clean(cell)
  if (!Number.isFinite(cell)) return '–'
  const shown = column.decimals === undefined ? String(cell) : cell.toFixed(column.decimals)
  return /^-0(?:\.0+)?$/.test(shown) ? shown.slice(1) : shown
}

/**
 * More columns than this, or more records in one row, are no table that anyone reads; drawn all the same, they would take
 * minutes too.
 */
const mostSideBySide = 14

function tableLines(table: ReportTable, { showWork, width }: TextOptions): string[] {
  if (table.rows.length === 0) return wrapped(`  ${table.empty}`, width, '  ')
  const columns = columnsShown(table, showWork)
  const cells = rowsShown(table, showWork).map((row) =>
    columns.map((column) =>
      column.id === recordsColumn
        ? row.records.map(clean).join('\n')
        : cellText(row.cells[column.id], column),
    ),
  )
  const titles = columns.map(heading)
  const widths = width === undefined ? undefined : widthsWithin(width - 2, [titles, ...cells])
  const isTooMuch =
    columns.length > mostSideBySide ||
    (showWork && table.rows.some(({ records }) => records.length > mostSideBySide))
  const lines =
    widths === 'too narrow' || isTooMuch
      ? stacked(columns, cells, width)
      : drawn(columns, titles, cells, widths)
  const more = leftOut(table, showWork)
  return more === undefined ? lines : [...lines, `  ${more}`]
}

function drawn(
  columns: readonly Column[],
  titles: readonly string[],
  cells: readonly string[][],
  widths: number[] | undefined,
): string[] {
  const table = new Table({
    head: [...titles],
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': gap },
    colAligns: columns.map((column) => (column.decimals === undefined ? 'left' : 'right')),
    chars: noLines,
    ...(widths === undefined ? {} : { colWidths: widths, wordWrap: true, wrapOnWordBoundary: true }),
  })
  table.push(...cells)
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
}

/** Where a table cannot be narrowed enough: short cells on one line, each long one on a line of its own. */
function stacked(
  columns: readonly Column[],
  cells: readonly string[][],
  width: number | undefined,
): string[] {
  const short = 24
  const isWide = columns.length > mostSideBySide
  return cells.flatMap((row) => {
    const brief = row.flatMap((cell, at) => {
      const { unit, title } = columns[at] ?? { title: '' }
      if (stringWidth(cell) > short || (isWide && cell === '–')) return []
      const withUnit = unit === undefined ? cell : `${cell} ${unit}`
      // Among so many nobody can tell which is which.
      return [isWide && at >= named ? `${title} ${withUnit};` : withUnit]
    })
    const long = row.flatMap((cell, at) =>
      stringWidth(cell) <= short
        ? []
        : wrapped(`      ${columns[at]?.title ?? ''}: ${cell.split('\n').join(' ')}`, width, '        '),
    )
    return [...wrapped(`  - ${brief.join('  ')}`, width, '    '), ...long]
  })
}

/** The first columns say what a row is of; they need no title. */
const named = 3

/** Blanks between two columns. */
const gap = 2

const noLines = {
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
}

/**
 * Narrows the widest columns, never below their longest word, until the table fits; undefined when it fits as it is.
 * Nothing is cut: where even that is too wide, the table is laid out otherwise.
 */
function widthsWithin(
  width: number,
  rows: readonly (readonly string[])[],
): number[] | undefined | 'too narrow' {
  const widest = (part: RegExp) =>
    (rows[0] ?? []).map(
      (_, at) =>
        gap +
        Math.max(...rows.flatMap((row) => (row[at] ?? '').split(part).map((piece) => stringWidth(piece)))),
    )
  const widths = widest(/\n/)
  const least = widest(/\s/)
  const total = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0)
  if (total(widths) <= width) return undefined
  if (total(least) > width - 20) return 'too narrow'
  while (total(widths) > width) {
    const spare = widths.map((one, at) => (one > (least[at] ?? 0) ? one : 0))
    const at = spare.indexOf(Math.max(...spare))
    widths[at] = (widths[at] ?? 0) - 1
  }
  return widths
}
