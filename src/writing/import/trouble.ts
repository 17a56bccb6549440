/** A place in a file, both counted from 1, the column in UTF-16 units. */
export interface Spot {
  readonly line: number
  readonly column: number
}

export interface TroubledCell {
  /** As a spreadsheet numbers it. */
  readonly row: number
  /** Its column, counted from 1, and the heading of that; neither where all of the row is meant. */
  readonly column?: { readonly number: number; readonly heading: string }
  /** What stands there in the file, not yet put into the ledger's words. */
  readonly value?: string
}

/** Something that keeps a file from being taken over, with the spot it is about. */
export interface Trouble extends Spot {
  /** The file as the user named it. */
  readonly file: string
  readonly says: string
  /** What to do about this one. */
  readonly todo?: string
  /** What to do about all of its kind: the same text for each, so that it can be told once. */
  readonly remedy?: string
  /** The row and cell it is about; none where it stands in another file, or in none of the rows. */
  readonly cell?: TroubledCell
}

/** In order of place, each once. */
export function inOrder(troubles: readonly Trouble[]): Trouble[] {
  const seen = new Set<string>()
  return [...troubles]
    .sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column))
    .filter(({ file, line, column, says }) => {
      const key = JSON.stringify([file, line, column, says])
      if (seen.has(key)) return false
      seen.add(key)
      return true
    })
}
