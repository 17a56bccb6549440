import { standingTables, workTables } from './event-tables.js'
import { referenceTables } from './reference-tables.js'
import type { ExportTable } from './table-words.js'

/** Version of these tables: columns may be added, none is renamed, removed or given another meaning within a version. */
export const tablesVersion = 1

/** Every table of an export. Files, views, the page and the tests are made from this. */
export const exportTables: readonly ExportTable[] = [...workTables, ...standingTables, ...referenceTables]

const byName = new Map(exportTables.map((table) => [table.name, table]))

/** The table of that name; throws where there is none, which only a mistake in the program can bring about. */
export function tableNamed(name: string): ExportTable {
  const table = byName.get(name)
  if (!table) throw new Error(`no table ${name}`)
  return table
}
