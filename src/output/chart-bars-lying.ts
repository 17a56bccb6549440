import { scaleLinear } from 'd3-scale'
import stringWidth from 'string-width'
import type { Bar } from './chart-bars.js'
import { boxAt, chartWidth, letterSize, letterWidth, textAt } from './chart-drawn.js'
import { numberText } from './chart-numbers.js'
import { ink, partEdge, partPaint } from './chart-paint.js'

const left = 1
const thickness = 18
const gap = 12
const lineHeight = 17

/** Bars below each other, each under its name, with the number of each part in it where there is room, and the total. */
export function lyingBars(
  bars: readonly Bar[],
  parts: number,
  hatch: string,
): { readonly body: readonly string[]; readonly height: number } {
  const totals = bars.map(({ total }) => (total === null ? '' : numberText(total)))
  const room = Math.max(...totals.map((text) => text.length)) * letterWidth + 10
  const most = Math.max(...bars.map(({ total }) => total ?? 0))
  const x = scaleLinear([0, most > 0 ? most : 1], [left, chartWidth - room])
  const body: string[] = []
  let y = 0
  for (const [at, bar] of bars.entries()) {
    for (const line of linesOf(bar.name)) {
      y += lineHeight
      body.push(textAt(line, { x: left, y: y - 4 }))
    }
    body.push(
      ...(bar.total === null
        ? [boxAt([left, y, chartWidth - room - left, thickness], `fill="url(#${hatch})"`)]
        : partsOf(bar, parts, x, y)),
      textAt(totals[at] ?? '', { x: x(bar.total ?? 0) + 5, y: y + baseline, bold: true }),
    )
    y += thickness + gap
  }
  return { body, height: y }
}

const baseline = thickness / 2 + letterSize * 0.36

function partsOf(bar: Bar, parts: number, x: (value: number) => number, y: number): string[] {
  // A bar of nothing is a line at zero.
  if (bar.parts.length === 0) return [boxAt([left, y, 1, thickness], `fill="${ink}"`)]
  return bar.parts.flatMap(({ at, from, to }) => {
    const { fill, letters } = partPaint(at, parts)
    const [start, width] = [x(from), x(to) - x(from)]
    const number = numberText(to - from)
    const fits = bar.parts.length > 1 && number.length * letterWidth + 4 <= width
    return [
      boxAt([start, y, width, thickness], `fill="${fill}" ${partEdge}`),
      ...(fits
        ? [textAt(number, { x: start + width / 2, y: y + baseline, anchor: 'middle', fill: letters })]
        : []),
    ]
  })
}

/** Letters of a name beside each other at most. */
const lineLength = Math.floor(chartWidth / letterWidth)

/** A name on as many lines as it takes; a word that is longer than a line is broken. */
function linesOf(name: string): string[] {
  const lines = ['']
  for (const word of name.split(/\s+/)) {
    const line = lines.at(-1) ?? ''
    if (line !== '' && stringWidth(`${line} ${word}`) <= lineLength)
      lines[lines.length - 1] = `${line} ${word}`
    else if (line === '' && stringWidth(word) <= lineLength) lines[lines.length - 1] = word
    else lines.push(...brokenWord(word))
  }
  return lines.filter((line, at) => line !== '' || at > 0)
}

function brokenWord(word: string): string[] {
  const pieces = ['']
  for (const character of word) {
    const piece = pieces.at(-1) ?? ''
    if (piece !== '' && stringWidth(piece + character) > lineLength) pieces.push(character)
    else pieces[pieces.length - 1] = piece + character
  }
  return pieces
}
