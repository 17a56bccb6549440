import { scaleBand, scaleLinear } from 'd3-scale'
import type { Bar } from './chart-bars.js'
import { boxAt, chartWidth, letterSize, letterWidth, lineAt, textAt } from './chart-drawn.js'
import { isWhole, numberText, tickTexts } from './chart-numbers.js'
import { faint, ink, partEdge, partPaint } from './chart-paint.js'

const top = 20
const height = 160
const bottom = top + height
const right = chartWidth - 4

/** Bars side by side, as many of their names below them as there is room for, and their totals above. */
export function standingBars(
  bars: readonly Bar[],
  parts: number,
  hatch: string,
): { readonly body: readonly string[]; readonly height: number } {
  const most = Math.max(...bars.map(({ total }) => total ?? 0))
  const y = scaleLinear([0, most > 0 ? most : 1], [bottom, top]).nice(4)
  const ticks = bars.every(({ total }) => isWhole(total ?? 0)) ? y.ticks(4).filter(isWhole) : y.ticks(4)
  const texts = tickTexts(ticks)
  const left = Math.max(...texts.map((text) => text.length)) * letterWidth + 10
  const x = scaleBand(
    bars.map((_, at) => at),
    [left, right],
  ).paddingInner(0.25)
  const totals = bars.map(({ total }) => (total === null ? '' : numberText(total)))
  const showsTotals = Math.max(...totals.map((text) => text.length)) * letterWidth <= x.step()
  const every = Math.ceil((Math.max(...bars.map(({ name }) => name.length)) * letterWidth + 8) / x.step())
  return {
    height: bottom + 26,
    body: [
      ...ticks.flatMap((tick, at) => [
        lineAt({ from: [left, y(tick)], to: [right, y(tick)], stroke: tick === 0 ? ink : faint }),
        textAt(texts[at] ?? '', { x: left - 5, y: y(tick) + letterSize * 0.36, anchor: 'end' }),
      ]),
      ...bars.flatMap((bar, at) => {
        const start = x(at) ?? left
        const middle = start + x.bandwidth() / 2
        return [
          ...(bar.total === null
            ? [boxAt([start, top, x.bandwidth(), height], `fill="url(#${hatch})"`)]
            : bar.parts.map((part) =>
                boxAt(
                  [start, y(part.to), x.bandwidth(), y(part.from) - y(part.to)],
                  `fill="${partPaint(part.at, parts).fill}" ${partEdge}`,
                ),
              )),
          ...(showsTotals
            ? [textAt(totals[at] ?? '', { x: middle, y: y(bar.total ?? 0) - 4, anchor: 'middle' })]
            : []),
          ...(at % every === 0 ? nameBelow(bar.name, middle) : []),
        ]
      }),
    ],
  }
}

function nameBelow(name: string, middle: number): string[] {
  const half = (name.length * letterWidth) / 2
  return [
    lineAt({ from: [middle, bottom], to: [middle, bottom + 5], stroke: ink }),
    textAt(name, {
      x: Math.min(Math.max(middle, half), chartWidth - half),
      y: bottom + 18,
      anchor: 'middle',
    }),
  ]
}
