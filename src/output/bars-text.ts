import stringWidth from 'string-width'
import type { Plot, PlotBars } from '../types.js'
import { clean } from './clean.js'

/** What the parts of a bar are drawn with; of more parts than these, the last stands for all the rest. */
const characters = '#=:+~.'
/** Columns of the longest bar, and of the longest name beside one. */
const longestBar = 32
const longestName = 24

/**
 * Bars in plain characters, each with its numbers behind it; a name too long for the margin stands on a line of its own.
 * Where nothing is known there is an `x` and no bar.
 */
export function barsText(plot: Plot, { parts, rows }: PlotBars): string[] {
  const title = `  ${clean(plot.title)} (${plot.unit})`
  if (rows.length === 0) return [title, '    nothing to draw']
  const totals = rows.map(({ values }) => total(values))
  const most = Math.max(...totals.map((sum) => sum ?? 0))
  const perUnit = most > longestBar ? longestBar / most : 1
  const names = rows.map(({ name }) => clean(name))
  const margin = Math.max(
    ...names.map((name) => stringWidth(name)).filter((width) => width <= longestName),
    0,
  )
  return [
    title,
    ...rows.flatMap(({ values }, at) => {
      const name = names[at] ?? ''
      const isLong = stringWidth(name) > longestName
      const beside = isLong ? ' '.repeat(margin) : name + ' '.repeat(margin - stringWidth(name))
      const bar = barOf(values, perUnit)
      const line = `    ${beside} |${bar === '' ? '' : `${bar} `}${numbers(values, totals[at] ?? null)}`
      return isLong ? [`    ${name}`, line] : [line]
    }),
    ...parts.map((part, at) => `    ${character(at)} ${clean(part)}`),
    ...(totals.includes(null) ? ['    x nothing is known'] : []),
  ]
}

function character(at: number): string {
  return characters[Math.min(at, characters.length - 1)] ?? '.'
}

/** Of the parts that are known; null where none is. */
function total(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null && Number.isFinite(value))
  return known.length === 0 ? null : known.reduce<number>((sum, value) => sum + (value ?? 0), 0)
}

/** What is not nothing has a mark at least, so that it is not taken for a zero. */
function barOf(values: readonly (number | null)[], perUnit: number): string {
  return values
    .map((value, at) =>
      value === null || !(value > 0) ? '' : character(at).repeat(Math.max(1, Math.round(value * perUnit))),
    )
    .join('')
}

function numbers(values: readonly (number | null)[], sum: number | null): string {
  if (sum === null) return 'x'
  const told = values.flatMap((value, at) => (value ? [`${character(at)} ${short(value)}`] : []))
  return told.length < 2 ? short(sum) : `${short(sum)} (${told.join(', ')})`
}

function short(number: number): string {
  return String(Number(number.toPrecision(6)))
}
