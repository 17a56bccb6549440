import type { ExportCell, ExportTable } from './table-words.js'

/** How the files of an export are written. */
export type ExportFormat = 'csv' | 'parquet'

/** One file of a table being written: rows come in lots, and it is whole once it was finished. */
export interface Part {
  /** Columns of the table in their order, each with as many cells as there are rows. */
  write(columns: readonly (readonly ExportCell[])[]): void
  finish(): void
}

/** Begins a file, which must not exist yet. Throws what the file system does. */
export type PartMaker = (path: string, table: ExportTable) => Part
