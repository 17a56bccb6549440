/** A place in a file, both counted from 1, the column in UTF-16 units. */
export interface Spot {
  readonly line: number
  readonly column: number
}

/** Something that keeps a file from being taken over, with the spot it is about. */
export interface Trouble extends Spot {
  /** The file as the user named it. */
  readonly file: string
  readonly says: string
  /** What to do about it, where that is more than a word; the same text for all of a kind. */
  readonly remedy?: string
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
