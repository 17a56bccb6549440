import { appendFileSync } from 'node:fs'
import { stringify } from 'csv-stringify/sync'
import { isoOf } from '../../measure/calendar.js'
import type { Part } from './part.js'
import type { ColumnType, ExportCell, ExportTable } from './table-words.js'

/** Rows made into text at once: few enough that what they leave behind is soon cleared away. */
const rowsAtOnce = 500

/** A table as CSV (RFC 4180): a header with the names of the columns, ISO dates, true and false, numbers in full. */
export function csvPart(path: string, table: ExportTable): Part {
  const types = table.columns.map(({ type }) => type)
  appendFileSync(path, stringify([table.columns.map(({ name }) => name)]), { flag: 'ax' })
  return {
    write(columns) {
      const count = columns[0]?.length ?? 0
      const lots: string[] = []
      for (let from = 0; from < count; from += rowsAtOnce)
        lots.push(stringify(rowsOf(columns, types, from, Math.min(from + rowsAtOnce, count))))
      appendFileSync(path, lots.join(''))
    },
    finish: () => undefined,
  }
}

function rowsOf(
  columns: readonly (readonly ExportCell[])[],
  types: readonly ColumnType[],
  from: number,
  until: number,
): string[][] {
  const rows: string[][] = []
  for (let n = from; n < until; n++)
    rows.push(columns.map((cells, at) => csvCell(cells[n] ?? null, types[at] ?? 'text')))
  return rows
}

function csvCell(cell: ExportCell, type: ColumnType): string {
  if (typeof cell === 'string') return cell
  if (cell === null) return ''
  return type === 'day' ? isoOf(Number(cell)) : String(cell)
}
