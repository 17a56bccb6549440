import type { PlotMark } from '../types.js'
import type { LegendItem } from './chart-drawn.js'
import { lineAt, textAt } from './chart-drawn.js'
import { faint, ink } from './chart-paint.js'

type MarkKind = NonNullable<PlotMark['kind']> | 'other'

/** Shapes in a square of 16 by 16: a drop, a plank over a gap, a flag, a ring. */
const shapes: Readonly<Record<MarkKind, string>> = {
  treatment: `<path d="M8 1C10 5 13 7.5 13 10.5A5 4.5 0 0 1 3 10.5C3 7.5 6 5 8 1Z" fill="${ink}"/>`,
  repair: `<path d="M3 2V14M13 2V14" stroke="${ink}" stroke-width="2"/><rect x="1" y="6" width="14" height="4" fill="#fff" stroke="${ink}" stroke-width="1.5"/>`,
  action: `<path d="M4 15V1.5L13 5.5L4 9.5" fill="none" stroke="${ink}" stroke-width="2"/>`,
  other: `<circle cx="8" cy="8" r="5" fill="none" stroke="${ink}" stroke-width="2"/>`,
}

/** Units that a shape with its letter takes, and the height of a row of them. */
const markWidth = 28
const rowHeight = 19

export interface DrawnMarks {
  readonly body: readonly string[]
  readonly height: number
  readonly legend: readonly LegendItem[]
}

/** What happened, below an axis: a shape and a letter at its day, in as many rows as keep them apart. */
export function drawMarks(
  marks: readonly PlotMark[],
  xOf: (day: string) => number | undefined,
  { top, from }: { readonly top: number; readonly from: number },
): DrawnMarks {
  const ends: number[] = []
  const placed = marks
    .flatMap((mark) => {
      const x = xOf(mark.day)
      return x === undefined ? [] : [{ mark, x }]
    })
    .sort((a, b) => a.x - b.x)
    .map(({ mark, x }, at) => {
      const free = ends.findIndex((end) => end <= x)
      const row = free === -1 ? ends.length : free
      ends[row] = x + markWidth
      return { mark, x, row, letter: letterOf(at), kind: mark.kind ?? ('other' as const) }
    })
  return {
    body: placed.flatMap(({ x, row, letter, kind }) => [
      lineAt({ from: [x, top], to: [x, from + row * rowHeight], stroke: faint, dashes: '2 3' }),
      `<g transform="translate(${(x - 8).toFixed(1)} ${(from + row * rowHeight).toFixed(1)})">${shapes[kind]}</g>`,
      textAt(letter, { x: x + 9, y: from + row * rowHeight + 13 }),
    ]),
    height: ends.length * rowHeight,
    legend: placed.map(({ mark, letter, kind }) => ({
      icon: shapes[kind],
      says: `${letter}, ${mark.day}${kind === 'other' ? '' : `, ${kind}`}: ${mark.says}`,
    })),
  }
}

/** a to z, then aa, ab and so on. */
function letterOf(at: number): string {
  const last = String.fromCharCode(97 + (at % 26))
  return at < 26 ? last : letterOf(Math.floor(at / 26) - 1) + last
}
