import type { Column, Row } from '../types.js'
import { escapeHtml } from './html.js'
import { breakable, longestUnbroken, words } from './report-html-parts.js'
import { cellText, heading, recordsColumn } from './report-text.js'

interface TableBox {
  /** Markup. */
  readonly caption: string
  /** Ids of the elements that name the table. */
  readonly labelledBy: string
  readonly columns: readonly Column[]
  readonly rows: readonly Row[]
}

/**
 * A table in a box of its own, which scrolls by finger and by keyboard where the table is wider than the page. In print
 * one that would be too wide for the paper is laid out row by row, so that nothing is cut.
 */
export function tableBox({ caption, labelledBy, columns, rows }: TableBox): string {
  const cells = rows.map((row) => columns.map((column) => cellMarkup(row, column)))
  const plain = rows.map((row) => columns.map((column) => cellWords(row, column)))
  const heads = columns.map(heading)
  const isWide = widthInPrint(heads, plain) > paperWidth
  const longest = columns.map((_, at) => Math.max(0, ...plain.map((row) => (row[at] ?? '').length)))
  const classOf = (at: number) => {
    const names = [
      ...(columns[at]?.decimals === undefined ? [] : ['number']),
      ...widthClass(longest[at] ?? 0),
    ]
    return names.length === 0 ? '' : ` class="${names.join(' ')}"`
  }
  return [
    `<div class="scroll" role="region" aria-labelledby="${labelledBy}" tabindex="0">`,
    `<table${isWide ? ' class="wide"' : ''}>`,
    `<caption>${caption}</caption>`,
    `<thead><tr>${heads.map((head, at) => `<th scope="col"${classOf(at)}>${breakable(head)}</th>`).join('')}</tr></thead>`,
    '<tbody>',
    ...cells.map(
      (row) =>
        `<tr>${row
          .map((cell, at) => {
            const tag = at === 0 ? 'th' : 'td'
            const label = isWide && at > 0 ? ` data-head="${escapeHtml(heads[at] ?? '')}"` : ''
            return `<${tag}${at === 0 ? ' scope="row"' : ''}${classOf(at)}${label}>${cell}</${tag}>`
          })
          .join('')}</tr>`,
    ),
    '</tbody>',
    '</table>',
    '</div>',
  ].join('\n')
}

function cellMarkup(row: Row, column: Column): string {
  return column.id === recordsColumn
    ? row.records.map(breakable).join(' <br/>')
    : words(cellText(row.cells[column.id], column))
}

function cellWords(row: Row, column: Column): string {
  return column.id === recordsColumn ? row.records.join(' ') : cellText(row.cells[column.id], column)
}

/** Letters up to which a cell is never broken, such as a day, and up to which it is not on a screen. */
const tightText = 12
const briefText = 22
/** Letters from which on a column is given room on a screen, so that its rows do not become towers. */
const longText = 40

function widthClass(longest: number): string[] {
  if (longest <= tightText) return ['tight']
  if (longest <= briefText) return ['brief']
  return longest > longText ? ['long'] : []
}

/** Width between the margins of A4, in mm, and of a letter of the print and the space around a cell. */
const paperWidth = 186
const letter = 1.9
const beside = 3

/** Of the longest words of all columns side by side: a table cannot be narrower. */
function widthInPrint(heads: readonly string[], rows: readonly (readonly string[])[]): number {
  const longestWord = (text: string) => Math.max(...text.split(/[\s/-]/).map((word) => word.length))
  return heads.reduce((width, head, at) => {
    const cells = rows.map((row) => row[at] ?? '')
    const isTight = cells.every((cell) => cell.length <= tightText)
    const letters = Math.max(
      longestWord(head),
      ...cells.map((cell) => (isTight ? cell.length : longestWord(cell))),
    )
    return width + Math.min(letters, longestUnbroken) * letter + beside
  }, 0)
}
