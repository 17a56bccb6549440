import type { PdfPage, PdfPiece } from './pdf-text.js'

/** A line of text on a page. */
export interface PdfLine {
  /** Its cells with two blanks between them, as a table is typed. */
  readonly text: string
  readonly page: number
}

/**
 * Lines in the order in which the pages draw them, mostly that of reading; or from the top of each page to its foot,
 * for files whose maker drew in another order.
 */
export function linesOf(pages: readonly PdfPage[], order: 'as drawn' | 'as seen'): PdfLine[] {
  return pages.flatMap((page, at) =>
    'pieces' in page
      ? linesOfPage(order === 'as drawn' ? page.pieces : fromTheTop(page.pieces)).map((text) => ({
          text,
          page: at + 1,
        }))
      : [],
  )
}

/** Of the height of the letters: how far two pieces of one line may stand apart in height. */
const sameLine = 0.4
/** From here on there is a blank between two pieces, and from there on they are two cells. */
const blank = 0.15
const cell = 1.5

/** More than this on one line is no line of a page. */
const longestLine = 2000

function linesOfPage(pieces: readonly PdfPiece[]): string[] {
  const lines: string[] = []
  let text = ''
  let last: PdfPiece | undefined
  let hasBlank = false
  for (const piece of pieces) {
    if (piece.text.trim() === '') {
      hasBlank = true
      continue
    }
    const size = Math.max(piece.size, 1)
    const gap = last === undefined ? 0 : piece.x - (last.x + last.width)
    if (last === undefined || Math.abs(piece.y - last.y) > sameLine * size || gap < -2 * size) {
      lines.push(text)
      text = piece.text
    } else {
      text += (gap > cell * size ? '  ' : gap > blank * size || hasBlank ? ' ' : '') + piece.text
    }
    last = piece
    hasBlank = false
  }
  return [...lines, text].map((line) => line.trim().slice(0, longestLine)).filter((line) => line !== '')
}

/** Pieces from the top to the foot, and from left to right where they stand on one line. */
function fromTheTop(pieces: readonly PdfPiece[]): PdfPiece[] {
  const rows: PdfPiece[][] = []
  for (const piece of [...pieces].sort((a, b) => b.y - a.y)) {
    const row = rows.at(-1)
    const first = row?.[0]
    if (row && first && first.y - piece.y <= sameLine * Math.max(piece.size, 1)) row.push(piece)
    else rows.push([piece])
  }
  return rows.flatMap((row) => row.sort((a, b) => a.x - b.x))
}
