import { CsvError, parse } from 'csv-parse/sync'
import type { Delimiter } from './mapping.js'
import type { Spot } from './trouble.js'

/** Rows that are taken over at once. */
export const mostRows = 200_000
/** Characters of one row; a longer one is a quote that was never closed. */
const longestRow = 100_000

export interface CsvRow {
  /** Line its first cell begins on. */
  readonly line: number
  /** As a spreadsheet numbers it: the first row of the file is 1, and empty ones count. */
  readonly number: number
  /** The row as it stands in the file. */
  readonly raw: string
  readonly cells: readonly string[]
}

export interface CsvTable {
  readonly header: CsvRow
  readonly rows: readonly CsvRow[]
  readonly separator: string
}

export type ReadRows = CsvTable | { readonly refused: string; readonly line?: number }

/** Header and rows of a text with line ends `\n`, after RFC 4180; rows with nothing in them are left out. */
export function csvRows(text: string, delimiter: Delimiter): ReadRows {
  const separator = delimiter === 'tab' ? '\t' : delimiter
  const read = recordsOf(text, separator)
  if ('refused' in read) return read
  const rows = read.rows.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
  const [header, ...others] = rows
  if (!header) return { refused: 'it has no header.' }
  if (others.length > mostRows)
    return { refused: `it has more than ${mostRows} rows; so many are not read at once. Split it by year.` }
  return { header, rows: others, separator }
}

interface Parsed {
  readonly record: readonly string[]
  readonly raw: string
}

function recordsOf(
  text: string,
  separator: string,
): { readonly rows: readonly CsvRow[] } | { readonly refused: string; readonly line: number } {
  try {
    const parsed = parse(text, {
      delimiter: separator,
      record_delimiter: '\n',
      raw: true,
      relax_column_count: true,
      skip_empty_lines: true,
      max_record_size: longestRow,
      to: mostRows + 2,
    }) as unknown as readonly Parsed[]
    let line = 1
    let number = 0
    const rows = parsed.map(({ record, raw }) => {
      const blankBefore = /^\n*/.exec(raw)?.[0].length ?? 0
      number += blankBefore + 1
      const own = raw.slice(blankBefore).replace(/\n$/, '')
      const row = { line: line + blankBefore, number, raw: own, cells: record }
      line += raw.split('\n').length - 1
      return row
    })
    return { rows }
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    const line = Number((error as { lines?: unknown }).lines ?? 1)
    return { refused: reasonOf(error.code), line }
  }
}

function reasonOf(code: string): string {
  switch (code) {
    case 'CSV_QUOTE_NOT_CLOSED':
      return 'a quote is opened and never closed.'
    case 'INVALID_OPENING_QUOTE':
    case 'CSV_INVALID_OPENING_QUOTE':
      return 'a quote stands within a cell that has none around it. Put the whole cell in quotes, and write each quote in it twice.'
    case 'CSV_INVALID_CLOSING_QUOTE':
      return 'something follows a closing quote. Within a cell in quotes, write each quote twice.'
    case 'CSV_MAX_RECORD_SIZE':
      return `a row is longer than ${longestRow} characters. Is a quote never closed?`
    default:
      return `it cannot be read as CSV (${code}).`
  }
}

/** Where a cell of a row begins; past its last cell, or before its first, where the row does. */
export function spotOf({ line, raw }: CsvRow, index: number, separator: string): Spot {
  let spot = { line, column: 1 }
  let cell = 0
  let isQuoted = false
  for (const [at, unit] of raw.split('').entries()) {
    if (cell === index) return spot
    if (unit === '"') isQuoted = !isQuoted
    spot = unit === '\n' ? { line: spot.line + 1, column: 1 } : { line: spot.line, column: spot.column + 1 }
    if (!isQuoted && raw[at] === separator) cell++
  }
  return cell === index ? spot : { line, column: 1 }
}
