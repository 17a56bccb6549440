/** What a cell of an export can hold; a day as whole days since 1970-01-01. Null is an empty cell, never a zero. */
export type ExportCell = string | number | boolean | null

export type ExportRow = Readonly<Record<string, ExportCell>>

/** How a column is stored: text as UTF-8, a day as a date, a whole number in 64 bits, a number as a double. */
export type ColumnType = 'text' | 'day' | 'whole' | 'number' | 'yes-no'

export interface ExportColumn {
  readonly name: string
  readonly type: ColumnType
  readonly meaning: string
  readonly unit?: string
  /** What an empty cell says; a column without it has none. */
  readonly empty?: string
}

export interface ExportTable {
  readonly name: string
  /** What one row is. */
  readonly row: string
  /** By district alone, or also by the year of the day named here. */
  readonly yearOf?: string
  /** Columns that, with the district, no two rows share. */
  readonly key: readonly string[]
  readonly columns: readonly ExportColumn[]
}

type Further = Pick<ExportColumn, 'unit' | 'empty'>

const column =
  (type: ColumnType) =>
  (name: string, meaning: string, further: Further = {}): ExportColumn => ({
    name,
    type,
    meaning,
    ...further,
  })

export const text = column('text')
export const day = column('day')
export const whole = column('whole')
export const number = column('number')
export const yesNo = column('yes-no')
