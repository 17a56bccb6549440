import { nearest } from '../../records/nearest.js'
import type { CsvRow, CsvTable } from './csv-rows.js'
import { spotOf } from './csv-rows.js'
import type { ValueFrom } from './mapping.js'
import type { Spot, Trouble, TroubledCell } from './trouble.js'

/** The file that is taken over, and what is found wrong with it on the way. */
export interface Sheet {
  /** As the user named it. */
  readonly file: string
  readonly table: CsvTable
  readonly troubles: Trouble[]
  /** Columns that the mapping uses. */
  readonly used: Set<number>
  /** Rows and cells that were blamed: one cause is told once. */
  readonly blamed: Set<string>
}

/** What a row says of one thing: a cell, or a value that holds for every row. */
export interface Cell {
  /** Without blanks around it, in the ledger's own words where the mapping gives them. */
  readonly text: string
  readonly row: CsvRow
  /** Its column; −1 for a value that stands in no cell. */
  readonly index: number
}

export type Take = (row: CsvRow) => Cell

export function sheetOf(file: string, table: CsvTable): Sheet {
  return { file, table, troubles: [], used: new Set(), blamed: new Set() }
}

/** Characters of a cell; a record is a page, and a longer text belongs in a file beside it. */
const longestText = 10_000

/** Characters that hide or turn text around; a record with one cannot be read. Line ends and tabs are none. */
const hidden =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/

/**
 * How to take one thing from a row: from where the mapping says, or, where it says nothing, from the column that bears
 * the thing's own name. `fixed` (from the command line) comes before both. Undefined where there is none.
 */
export function takerOf(
  sheet: Sheet,
  key: string,
  from: ValueFrom | undefined,
  fixed?: string,
): Take | undefined {
  if (fixed !== undefined) return (row) => ({ text: fixed, row, index: -1 })
  const { column, always, names } = typeof from === 'object' ? from : { column: from }
  if (always !== undefined) return (row) => ({ text: always, row, index: -1 })
  const index = columnOf(sheet, column ?? key, column !== undefined)
  if (index === undefined) return undefined
  sheet.used.add(index)
  return (row) => {
    const written = (row.cells[index] ?? '').trim()
    const cell = { text: named(written, names), row, index }
    const odd = hidden.exec(written)?.[0]
    if (odd !== undefined)
      blame(sheet, cell, `Holds a hidden character (U+${hexOf(odd)}).`, 'Write the cell anew.')
    if (written.length > longestText)
      blame(sheet, cell, `Is ${written.length} characters long; at most ${longestText} fit in a record.`)
    return cell
  }
}

const hexOf = (odd: string) => odd.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')

function named(written: string, names: Readonly<Record<string, string>> | undefined): string {
  return names && Object.hasOwn(names, written) ? (names[written] ?? '') : written
}

/** The position of a column; blamed when the mapping asks for it and it is not there, or there twice. */
export function columnOf(sheet: Sheet, name: string, isAskedFor: boolean): number | undefined {
  const headings = sheet.table.header.cells.map((cell) => cell.trim())
  const found = headings.flatMap((heading, index) => (heading === name ? [index] : []))
  if (found.length > 1) {
    blameHeader(
      sheet,
      `There are ${found.length} columns \`${name}\`; give each its own name.`,
      undefined,
      found[1],
    )
    return undefined
  }
  if (found[0] === undefined && isAskedFor) {
    const meant = nearest(name, headings)
    blameHeader(
      sheet,
      `There is no column \`${name}\`${meant === undefined || meant === '' ? `; there are: ${headings.join(', ')}.` : `; did you mean \`${meant}\`?`}`,
    )
  }
  return found[0]
}

/** What the header looks as if it were separated by, when all of it is one cell. Only said, never assumed. */
function separatorHint({ table: { header } }: Sheet): string | undefined {
  if (header.cells.length > 1) return undefined
  const [only = ''] = header.cells
  const mark = only.includes(';')
    ? '";"'
    : only.includes('\t')
      ? 'tab'
      : only.includes('|')
        ? '"|"'
        : only.includes(',')
          ? '","'
          : ''
  return mark === ''
    ? undefined
    : `The header is one single cell; if that is what separates them, say \`delimiter: ${mark}\` in the mapping.`
}

/** The header, or the mapping, leaves something open. That all of it is one cell is told with the first. */
export function blameHeader(sheet: Sheet, says: string, todo?: string, index = 0): void {
  const { header, separator } = sheet.table
  const cell = index > 0 ? { cell: troubledCell(sheet, header, index) } : {}
  const hint = sheet.troubles.length === 0 ? separatorHint(sheet) : undefined
  sheet.troubles.push({
    file: sheet.file,
    ...spotOf(header, index, separator),
    ...saying(says, hint ?? todo),
    remedy: remedyOfHeader,
    ...cell,
  })
}

const remedyOfHeader =
  'Say it in the mapping; without one, columns bear the names of the fields. `--help` shows a mapping to copy.'

/**
 * Something is wrong with a cell, or with its row where the value stands in no cell. Only the first is told of each.
 * `remedy`: what to do about all of its kind, told once.
 */
export function blame(sheet: Sheet, cell: Cell, says: string, todo?: string, remedy?: string): void {
  sheet.blamed.add(rowKey(cell.row))
  const key = `${cell.row.line} ${cell.index}`
  if (cell.index >= 0 && sheet.blamed.has(key)) return
  sheet.blamed.add(key)
  sheet.troubles.push(troubleAt(sheet, cell, says, todo, remedy))
}

/** A trouble that tells a cell, or its row. */
export function troubleAt(sheet: Sheet, cell: Cell, says: string, todo?: string, remedy?: string): Trouble {
  return {
    file: sheet.file,
    ...spotIn(sheet, cell),
    ...saying(says, todo),
    ...(remedy === undefined ? {} : { remedy }),
    cell: troubledCell(sheet, cell.row, cell.index),
  }
}

const saying = (says: string, todo: string | undefined) => (todo === undefined ? { says } : { says, todo })

function troubledCell({ table }: Sheet, row: CsvRow, index: number): TroubledCell {
  if (index < 0) return { row: row.number }
  const heading = table.header.cells[index]?.trim() ?? ''
  return { row: row.number, column: { number: index + 1, heading }, value: row.cells[index] ?? '' }
}

export const spotIn = (sheet: Sheet, { row, index }: Cell): Spot => spotOf(row, index, sheet.table.separator)

const rowKey = (row: CsvRow) => `row ${row.line}`

/** Whether something was wrong in a row; then what follows from it is not whole. */
export const isBlamed = (sheet: Sheet, row: CsvRow): boolean => sheet.blamed.has(rowKey(row))

/** Columns with something in their heading that nothing was taken from. */
export function leftAsideIn({ table, used }: Sheet): string[] {
  return table.header.cells
    .map((cell) => cell.trim())
    .filter((cell, index) => cell !== '' && !used.has(index))
}
