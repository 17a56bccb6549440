import { escapeHtml } from './html.js'

/** A picture with what explains it. */
export interface Drawn {
  /** An SVG element that can stand in a page or alone in a file. */
  readonly svg: string
  readonly legend: readonly LegendItem[]
}

export interface LegendItem {
  /** Shapes in a square of 16 by 16, as markup. */
  readonly icon: string
  /** Text, not yet escaped. */
  readonly says: string
}

/**
 * Units of a drawing from left to right. A page shows it about as wide on a phone, and up to a third wider elsewhere, so
 * that its letters are never smaller than one can read.
 */
export const chartWidth = 400
/** Height of letters, in the units of the drawing. */
export const letterSize = 14
/** Width of a digit or a usual letter at that size, in the widest of the usual fonts. */
export const letterWidth = 9

interface Picture {
  /** Begins the ids of everything in it, so it must be the only one of its page. */
  readonly id: string
  readonly title: string
  readonly describes: string
  readonly height: number
  /** Markup. */
  readonly body: readonly string[]
}

/** An SVG element with a title and a description, which are its text for whoever does not see it. */
export function svgOf({ id, title, describes, height, body }: Picture): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-labelledby="${id}-title ${id}-desc" viewBox="0 0 ${chartWidth} ${places(height)}" font-family="sans-serif" font-size="${letterSize}">`,
    `<title id="${id}-title">${escapeHtml(title)}</title>`,
    `<desc id="${id}-desc">${escapeHtml(describes)}</desc>`,
    ...body,
    '</svg>',
  ].join('\n')
}

/** A number of the drawing: a tenth of a unit is finer than any printer, and the same on every machine. */
export function places(number: number): string {
  const text = number.toFixed(1)
  return text.endsWith('.0') ? text.slice(0, -2) : text
}

interface Text {
  readonly x: number
  readonly y: number
  readonly anchor?: 'start' | 'middle' | 'end'
  readonly fill?: string
  readonly bold?: boolean
}

export function textAt(text: string, { x, y, anchor = 'start', fill, bold = false }: Text): string {
  const attributes = [
    `x="${places(x)}"`,
    `y="${places(y)}"`,
    ...(anchor === 'start' ? [] : [`text-anchor="${anchor}"`]),
    ...(fill === undefined ? [] : [`fill="${fill}"`]),
    ...(bold ? ['font-weight="bold"'] : []),
  ]
  return `<text ${attributes.join(' ')}>${escapeHtml(text)}</text>`
}

interface Line {
  readonly from: readonly [number, number]
  readonly to: readonly [number, number]
  readonly stroke: string
  readonly width?: number
  readonly dashes?: string
}

export function lineAt({ from, to, stroke, width = 1, dashes }: Line): string {
  const dashed = dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`
  return `<line x1="${places(from[0])}" y1="${places(from[1])}" x2="${places(to[0])}" y2="${places(to[1])}" stroke="${stroke}" stroke-width="${width}"${dashed}/>`
}

/** Left, top, width and height. */
export type Box = readonly [number, number, number, number]

export function boxAt([x, y, width, height]: Box, paint: string): string {
  return `<rect x="${places(x)}" y="${places(y)}" width="${places(Math.max(0, width))}" height="${places(Math.max(0, height))}" ${paint}/>`
}
