import stringWidth from 'string-width'
import { wrapped } from './wrapped.js'
import type { Element } from './xml.js'

/** Everything is drawn in these: dark on light, told apart by shape, line and hatching, so that grey print keeps it. */
export const ink = '#1a1a1a'
export const faintInk = '#5c5c5c'

type Attributes = Element['attributes']

export function el(name: string, attributes: Attributes, content: Element['content'] = []): Element {
  return { name, attributes, content }
}

/** A length or place to a hundredth, so that the same map is the same bytes. */
export function px(number: number): number {
  const rounded = Math.round(number * 100) / 100
  return rounded === 0 ? 0 : rounded
}

/** About how wide a text is drawn, in the unit of its size; rather too much than too little. */
export function textWidth(text: string, size: number): number {
  return stringWidth(text) * size * 0.6
}

/** Lines of at most so many pixels. A word that is longer alone is cut, so that it runs over nothing. */
export function linesWithin(text: string, size: number, width: number): string[] {
  const columns = Math.max(8, Math.floor(width / (size * 0.56)))
  const words = text
    .split(/\s+/)
    .filter((word) => word !== '')
    .map((word) => shortened(word, columns))
  return wrapped(words.join(' '), columns)
}

/** At most so many columns, with a sign that something was cut off. Never half of a character pair. */
export function shortened(text: string, columns: number): string {
  if (stringWidth(text) <= columns) return text
  let kept = ''
  for (const character of text) {
    if (stringWidth(kept + character) > columns - 1) break
    kept += character
  }
  return `${kept}…`
}

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** Text with its baseline at y. What it holds of records keeps its direction to itself. */
export function textAt(x: number, y: number, size: number, text: string, more: Attributes = {}): Element {
  return el(
    'text',
    { x: px(x), y: px(y), 'font-size': size, fill: ink, 'unicode-bidi': 'isolate', ...more },
    text,
  )
}

/** Text on a light edge, so that it can be read over lines. */
export function textOver(x: number, y: number, size: number, text: string, more: Attributes = {}): Element {
  return textAt(x, y, size, text, {
    stroke: '#ffffff',
    'stroke-width': 3,
    'stroke-linejoin': 'round',
    'paint-order': 'stroke',
    ...more,
  })
}

/** Several texts one after the other, each isolated, so that one that runs right to left turns no other round. */
export function textRun(x: number, y: number, size: number, parts: readonly TextPart[]): Element {
  return el(
    'text',
    {
      x: px(x),
      y: px(y),
      'font-size': size,
      fill: ink,
      stroke: '#ffffff',
      'stroke-width': 3,
      'stroke-linejoin': 'round',
      'paint-order': 'stroke',
    },
    parts.map(({ text, bold }) =>
      el('tspan', { 'unicode-bidi': 'isolate', 'font-weight': bold === true ? 'bold' : undefined }, text),
    ),
  )
}

export interface TextPart {
  readonly text: string
  readonly bold?: boolean
}

const tabHeight = 14

/** A mark with a letter and a number, such as `c1`: a small sheet with a corner folded down. */
export function tabAt(x: number, y: number, mark: string): Element {
  const width = tabWidth(mark)
  const fold = 4
  return el('g', {}, [
    el('path', {
      d: `M${px(x)} ${px(y)}h${px(width - fold)}l${fold} ${fold}v${tabHeight - fold}h${px(-width)}z`,
      fill: '#ffffff',
      stroke: ink,
      'stroke-width': 1,
    }),
    textAt(x + width / 2, y + 10.5, 10, mark, { 'text-anchor': 'middle', 'font-weight': 'bold' }),
  ])
}

export function tabWidth(mark: string): number {
  return textWidth(mark, 10) + 8
}

/** Marks side by side, as many as there is room for; the rest as a number. */
export function tabsAt(x: number, y: number, marks: readonly string[], most = 4): readonly Element[] {
  let at = x
  return tabsShown(marks, most).map((mark) => {
    const tab = tabAt(at, y, mark)
    at += tabWidth(mark) + 3
    return tab
  })
}

export function tabsWidth(marks: readonly string[], most = 4): number {
  return tabsShown(marks, most).reduce((sum, mark) => sum + tabWidth(mark) + 3, 0)
}

function tabsShown(marks: readonly string[], most: number): readonly string[] {
  return marks.length <= most ? marks : [...marks.slice(0, most - 1), `+${marks.length - most + 1}`]
}
