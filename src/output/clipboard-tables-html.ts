import type { ClipboardArea } from '../reports/clipboard.js'
import type { Ask } from '../reports/clipboard-asks.js'
import { foundAsks, openConditionAsks, repairedConditionAsks } from '../reports/clipboard-asks.js'
import type { ClipboardCondition } from '../reports/clipboard-conditions.js'
import { conditionInWords, deviceInWords, kindInWords, linesForFinds, shortName } from './clipboard-words.js'
import { escapeHtml } from './html.js'

/** One table a kind of device, so that what is asked is said once, in its head. */
export function deviceTables(area: ClipboardArea): string[] {
  return area.devices.map((group) =>
    writeTable({
      caption: kindInWords(group),
      told: [`device in ${nameOf(area)}`, 'last look'],
      asks: group.asks,
      rows: group.devices.map((device) => [
        `<span class="id">${escapeHtml(device.id)}</span>${deviceInWords(device, group)
          .map((words) => `<br><span>${escapeHtml(words)}</span>`)
          .join('')}`,
        escapeHtml(device.last),
      ]),
    }),
  )
}

export function conditionTables(area: ClipboardArea): string[] {
  const open = area.conditions.filter(({ repairedOn }) => repairedOn === undefined)
  const repaired = area.conditions.filter(({ repairedOn }) => repairedOn !== undefined)
  return [
    ...(open.length === 0 ? [] : [conditionTable('Open conditions', open, openConditionAsks, area)]),
    ...(repaired.length === 0
      ? []
      : [conditionTable('Put right: look again', repaired, repairedConditionAsks, area)]),
  ]
}

/** What is wrong takes the width of the table, since it may be long; what is written of it stands below. */
function conditionTable(
  caption: string,
  conditions: readonly ClipboardCondition[],
  asks: readonly Ask[],
  area: ClipboardArea,
): string {
  return tableOf({
    caption: `${caption} in ${nameOf(area)}`,
    told: [],
    asks,
    rows: conditions.length,
    bodies: conditions.map((condition) => {
      const says = `${escapeHtml(condition.name)}: <span>${escapeHtml(condition.says)} (${escapeHtml(conditionInWords(condition))})</span>`
      return `<tbody><tr><th scope="rowgroup" colspan="${asks.length}">${says}</th></tr><tr>${toWrite(asks.length)}</tr></tbody>`
    }),
  })
}

export function findsTable(area: ClipboardArea): string {
  return writeTable({
    caption: `Found now in ${nameOf(area)}, outside devices`,
    told: [],
    asks: foundAsks,
    rows: Array.from({ length: linesForFinds }, () => []),
  })
}

/** A head that takes a quarter of the page is not repeated by the browser, so it stays low. */
function nameOf({ name }: ClipboardArea): string {
  return shortName(name, 30)
}

interface WriteTable {
  readonly caption: string
  /** Heads of the columns that tell something; the first is that of the row. */
  readonly told: readonly string[]
  /** Columns to write in. */
  readonly asks: readonly Ask[]
  /** Markup of the told columns, row by row. */
  readonly rows: readonly (readonly string[])[]
}

function writeTable({ caption, told, asks, rows }: WriteTable): string {
  const written = toWrite(asks.reduce((sum, ask) => sum + (ask.as === 'choice' ? ask.choices.length : 1), 0))
  const lines = rows.map(
    (cells) =>
      `<tr>${cells.map((cell, at) => (at === 0 ? `<th scope="row">${cell}</th>` : `<td>${cell}</td>`)).join('')}${written}</tr>`,
  )
  return tableOf({ caption, told, asks, rows: rows.length, bodies: ['<tbody>', ...lines, '</tbody>'] })
}

function toWrite(columns: number): string {
  return '<td class="write"></td>'.repeat(columns)
}

/** A table is not torn apart while it is this short; a longer one repeats its head on the next page. */
const short = 8

function tableOf({
  caption,
  told,
  asks,
  rows,
  bodies,
}: Pick<WriteTable, 'caption' | 'told' | 'asks'> & {
  readonly rows: number
  readonly bodies: readonly string[]
}): string {
  const widths = columnWidths(told.length, asks)
  return [
    `<table${rows <= short ? ' class="short"' : ''}>`,
    `<caption><strong>${escapeHtml(caption)}</strong></caption>`,
    `<colgroup>${widths.map((width) => `<col style="width:${width}%">`).join('')}</colgroup>`,
    `<thead>${headRows(told, asks)}</thead>`,
    ...bodies,
    '</table>',
  ].join('\n')
}

function headRows(told: readonly string[], asks: readonly Ask[]): string {
  const choices = asks.flatMap((ask) => (ask.as === 'choice' ? ask.choices : []))
  const span = choices.length > 0 ? ' rowspan="2"' : ''
  const first = [
    ...told.map((text) => `<th scope="col"${span}>${escapeHtml(text)}</th>`),
    ...asks.map((ask) =>
      ask.as === 'choice'
        ? `<th scope="colgroup" colspan="${ask.choices.length}">${escapeHtml(ask.write)}</th>`
        : `<th scope="col"${span}>${escapeHtml(ask.write)}</th>`,
    ),
  ]
  const second = choices.map((choice) => `<th scope="col">${escapeHtml(choice)}</th>`)
  return [first, second]
    .filter((cells) => cells.length > 0)
    .map((cells) => `<tr>${cells.join('')}</tr>`)
    .join('')
}

/** Width between the margins of the narrower paper, A4, in mm. */
const contentWidth = 186
/** Of a bold letter of a table's head with the padding beside a word, in mm: the widest of the usual fonts. */
const letter = 2.8
const padding = 3

/**
 * Widths in hundredths of the table's: marks as wide as their words ask, so that none is broken, and what is told or
 * written in words shares the rest.
 */
function columnWidths(told: number, asks: readonly Ask[]): number[] {
  const toldColumns = Array.from({ length: told }, (_, at) => ({ least: 0, share: at === 0 ? 1.05 : 1.55 }))
  const columns = [
    ...toldColumns,
    ...asks.flatMap((ask) => {
      const words = ask.as === 'choice' ? ask.choices : [ask.write]
      return words.map((word) => ({ least: leastWidth(word, ask.as), share: ask.as === 'words' ? 1.2 : 0 }))
    }),
  ]
  const rest = contentWidth - columns.reduce((sum, { least, share }) => sum + (share === 0 ? least : 0), 0)
  const shares = columns.reduce((sum, { share }) => sum + share, 0)
  return columns.map(({ least, share }) => {
    const width = share === 0 ? least : (rest * share) / shares
    return Math.round((width / contentWidth) * 10_000) / 100
  })
}

function leastWidth(text: string, as: Ask['as']): number {
  const longest = Math.max(...text.split(' ').map((word) => word.length))
  return Math.max(longest * letter + padding, as === 'number' ? 20 : 12)
}
