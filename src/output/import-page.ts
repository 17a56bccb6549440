import type { LocatedProblem } from '../check/locate-problems.js'

/** What a file brought, or would bring, to a ledger. */
export interface ImportPage {
  readonly file: string
  readonly rows: number
  /** Rows that are no look, as the mapping says. */
  readonly skipped: number
  /** Headings of columns that nothing was taken from. */
  readonly leftAside: readonly string[]
  readonly fresh: readonly {
    readonly file: string
    readonly text: string
    readonly rows: readonly RowOfFile[]
  }[]
  readonly unchanged: readonly { readonly file: string; readonly rows: readonly RowOfFile[] }[]
  /** What keeps the file from being taken over. */
  readonly troubles: readonly {
    readonly file: string
    readonly line: number
    readonly column: number
    readonly says: string
    readonly todo?: string
    readonly remedy?: string
    readonly cell?: {
      readonly row: number
      readonly column?: { readonly number: number; readonly heading: string }
      readonly value?: string
    }
  }[]
  /** What `check` would say besides. */
  readonly brings: readonly LocatedProblem[]
  readonly isWritten: boolean
}

export interface RowOfFile {
  readonly line: number
  /** As a spreadsheet numbers it. */
  readonly number: number
}
