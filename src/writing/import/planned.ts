import type { KeyPath } from '../../types.js'
import type { YamlMap } from '../demo/yaml.js'
import type { CsvRow } from './csv-rows.js'
import type { Cell } from './sheet.js'

/** A record that rows of the file make, before it is known whether it is new. */
export interface PlannedRecord {
  readonly site: string
  /** Its place in the ledger. */
  readonly file: string
  readonly data: YamlMap
  readonly rows: readonly CsvRow[]
  /** Cells from which its parts come, by `originKey` of the part's path. */
  readonly origins: ReadonlyMap<string, Cell>
}

export const originKey = (path: KeyPath) => JSON.stringify(path)

/** The cell that a part of a record comes from, or the nearest part above it; the first row where none is known. */
export function originOf({ origins, rows }: PlannedRecord, path: KeyPath): Cell {
  for (let depth = path.length; depth > 0; depth--) {
    const cell = origins.get(originKey(path.slice(0, depth)))
    if (cell) return cell
  }
  const [row = { line: 1, number: 1, raw: '', cells: [] }] = rows
  return { text: '', row, index: -1 }
}
