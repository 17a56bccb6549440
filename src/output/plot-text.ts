import stringWidth from 'string-width'
import { addMonths, dayOf, firstOfMonth, isoOf } from '../measure/calendar.js'
import type { Plot, PlotPoint } from '../types.js'
import { barsText } from './bars-text.js'
import { clean } from './clean.js'

/** Rows between the highest number and zero. */
const height = 8
/** Columns of a plot with its labels, so that it fits eighty. */
const width = 78

/**
 * A plot in plain characters, at most 78 columns wide: `o` a value, `|` its interval, `^` an interval that goes on
 * above the plot, `-` the line to compare with, `x` where nothing was measured. Letters under the plot are what
 * happened, told below it. Zero is always the bottom.
 */
export function plotText(plot: Plot): string[] {
  if (plot.bars !== undefined) return barsText(plot, plot.bars)
  const first = dayOf(plot.from)
  const last = dayOf(plot.to)
  const title = `  ${clean(plot.title)} (${plot.unit})`
  if (first === null || last === null || last < first) return [title, '    nothing to draw']
  const measured = plot.points.filter(({ value }) => value !== null)
  if (measured.length === 0) return [title, '    nothing was measured']
  const top = roundUp(highestDrawn(plot))
  const labels = [top, top / 2, 0].map((number) => numberText(number, top))
  const margin = Math.max(...labels.map((label) => label.length))
  const columns = width - margin - 6
  const at = (day: string) => {
    const found = dayOf(day)
    if (found === null || found < first || found > last) return undefined
    return last === first ? 0 : Math.round(((found - first) / (last - first)) * (columns - 1))
  }
  const grid = Array.from({ length: height + 1 }, () => Array.from({ length: columns }, () => ' '))
  const put = (row: number, column: number, mark: string) => {
    const line = grid[height - row]
    if (line && column >= 0 && column < columns) line[column] = mark
  }
  const rowOf = (value: number) => Math.round((Math.min(value, top) / top) * height)
  if (plot.line) for (let column = 0; column < columns; column++) put(rowOf(plot.line.value), column, '-')
  drawPoints(plot.points, at, rowOf, put, top)
  return [
    title,
    ...grid.map((line, n) => {
      const label = n === 0 ? labels[0] : n === height / 2 ? labels[1] : n === height ? labels[2] : ''
      return `    ${(label ?? '').padStart(margin)} ${n === height ? '+' : '|'}${line.join('').trimEnd()}`
    }),
    ...underneath(plot, first, last, margin, columns, at),
    ...(plot.line
      ? [`    ${'-'.padStart(margin)} ${clean(plot.line.says)}: ${numberText(plot.line.value, top)}`]
      : []),
  ]
}

function drawPoints(
  points: readonly PlotPoint[],
  at: (day: string) => number | undefined,
  rowOf: (value: number) => number,
  put: (row: number, column: number, mark: string) => void,
  top: number,
): void {
  // Intervals first, so that no value is hidden behind one.
  for (const { day, value, low, high } of points) {
    const column = at(day)
    if (column === undefined || value === null || low === undefined || low === null) continue
    const upper = high ?? Number.POSITIVE_INFINITY
    for (let row = rowOf(low); row <= rowOf(upper); row++) put(row, column, '|')
    if (upper > top) put(height, column, '^')
  }
  for (const { day, value } of points) {
    const column = at(day)
    if (column !== undefined) put(value === null ? 0 : rowOf(value), column, value === null ? 'x' : 'o')
  }
}

/**
 * How high a plot has to reach: the highest value with room for its interval, but not for one so wide that the values would
 * be flat at the bottom.
 */
export function highestDrawn({ points, line }: Pick<Plot, 'points' | 'line'>): number {
  const values = points.flatMap(({ value }) => value ?? [])
  const highs = points.flatMap(({ high }) => high ?? [])
  const highest = Math.max(...values, line?.value ?? 0)
  return highest === 0 ? Math.max(...highs, 0) : Math.min(Math.max(highest, ...highs), 2 * highest)
}

/** The next number that halves neatly; 1 where there is no height at all. */
function roundUp(number: number): number {
  if (!(number > 0) || !Number.isFinite(number)) return 1
  const power = 10 ** Math.floor(Math.log10(number))
  const step =
    [1, 1.2, 1.4, 1.6, 2, 2.4, 3, 4, 5, 6, 8, 10].find((one) => one * power >= number * (1 - 1e-9)) ?? 10
  return step * power
}

function numberText(number: number, top: number): string {
  if (number === 0) return '0'
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(top)))
  const text = number.toFixed(Math.min(decimals, 8))
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text
}

function underneath(
  { marks }: Plot,
  first: number,
  last: number,
  margin: number,
  columns: number,
  at: (day: string) => number | undefined,
): string[] {
  const pad = ' '.repeat(margin + 6)
  const shown = marks.filter(({ day }) => at(day) !== undefined)
  const letters = shown.map((_, n) => 'abcdefghijklmnopqrstuvwxyz'[n] ?? '*')
  const line = Array.from({ length: columns }, () => ' ')
  for (const [n, { day }] of shown.entries()) line[at(day) ?? 0] = letters[n] ?? '*'
  return [
    `${pad}${monthsLine(first, last, columns)}`.trimEnd(),
    ...(shown.length === 0 ? [] : [`${pad}${line.join('')}`.trimEnd()]),
    ...shown.map(({ day, says }, n) => `    ${(letters[n] ?? '*').padStart(margin)} ${day} ${clean(says)}`),
  ]
}

/** The first of a month at its column, as often as there is room. */
function monthsLine(first: number, last: number, columns: number): string {
  if (last === first) return isoOf(first)
  let line = ''
  for (let day = firstOfMonth(first); day <= last; day = addMonths(day, 1)) {
    const column = day < first ? 0 : Math.round(((day - first) / (last - first)) * (columns - 1))
    const label = isoOf(day).slice(0, 7)
    const free = line === '' || column >= stringWidth(line) + 2
    if (day >= first && free && column + label.length <= columns) line = line.padEnd(column) + label
  }
  return line === '' ? isoOf(first) : line
}
