import { stringify } from 'csv-stringify/sync'
import type { Report, Table } from '../types.js'
import { machineColumns, machineTables } from './report-json.js'
import { heading } from './report-text.js'
import { safeText } from './safe-text.js'

/**
 * One table of a report as CSV (RFC 4180): a header with units, ISO dates, numbers in full. Text that a spreadsheet
 * would run as a formula is put in quotes of its own.
 */
export function reportCsv(report: Report, tableId?: string): string {
  const table =
    tableId === undefined
      ? machineTables(report)[0]
      : report.tables.find((candidate) => candidate.id === tableId)
  return table ? tableCsv(table) : ''
}

function tableCsv(table: Table): string {
  const columns = machineColumns(table)
  const header = [...columns.map(heading), 'records']
  const rows = table.rows.map((row) => [
    ...columns.map(({ id }) => csvCell(row.cells[id] ?? null)),
    safeText(row.records.join(' ')),
  ])
  return stringify([header, ...rows])
}

function csvCell(cell: string | number | null): string {
  if (cell === null) return ''
  if (typeof cell === 'string') return safeText(cell)
  return Number.isFinite(cell) ? String(Number(cell.toPrecision(12))) : ''
}
