import type { Cell, Column, Plot, Report, Table } from '../types.js'
import { jsonText } from './clean.js'

/** Version of this JSON: fields may be added, none is renamed or removed within a version. */
const formatVersion = 1

export function reportJson(report: Report): string {
  const document = {
    'format-version': formatVersion,
    report: report.report,
    title: report.title,
    headline: report.headline,
    'as-of': report.asOf,
    period: report.period ?? null,
    facts: report.facts,
    tables: machineTables(report).map((table) => ({
      id: table.id,
      title: table.title,
      columns: machineColumns(table).map(({ id, title, unit }) => ({ id, title, unit: unit ?? null })),
      rows: table.rows.map((row) => ({
        ...Object.fromEntries(machineColumns(table).map(({ id }) => [id, plain(row.cells[id])])),
        records: row.records,
      })),
    })),
    ...(report.plots === undefined ? {} : { plots: report.plots.map(plotWithPlainNumbers) }),
    cautions: report.cautions,
    'not-examined': report.notExamined,
    ...(report.paste === undefined ? {} : { paste: report.paste }),
  }
  return jsonText(document)
}

/** Tables made for people only repeat what the others say. */
export function machineTables(report: Report): readonly Table[] {
  return report.tables.filter((table) => table.for !== 'people')
}

/** Columns made for people only repeat what the others say. */
export function machineColumns(table: Table): readonly Column[] {
  return table.columns.filter((column) => column.for !== 'people')
}

function plotWithPlainNumbers({ points, ...plot }: Plot) {
  return {
    ...plot,
    points: points.map(({ day, value, low, high }) => ({
      day,
      value: plain(value),
      low: plain(low),
      high: plain(high),
    })),
  }
}

/** Numbers that are none become null; ones that are lose the noise after their twelfth digit. */
function plain(cell: Cell | undefined): Cell {
  if (cell === undefined || cell === null) return null
  if (typeof cell === 'string') return cell
  return Number.isFinite(cell) ? Number(cell.toPrecision(12)) : null
}
