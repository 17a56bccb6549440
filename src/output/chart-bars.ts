import { stack } from 'd3-shape'
import type { Plot, PlotBars } from '../types.js'
import { lyingBars } from './chart-bars-lying.js'
import { standingBars } from './chart-bars-standing.js'
import type { Drawn, LegendItem } from './chart-drawn.js'
import { svgOf } from './chart-drawn.js'
import { drawable, numberText } from './chart-numbers.js'
import { boxIcon, hatchedIcon, hatching, partPaint } from './chart-paint.js'

/** One bar: its parts from zero on, each where it starts and ends; no parts where nothing is known. */
export interface Bar {
  readonly name: string
  readonly total: number | null
  readonly parts: readonly { readonly at: number; readonly from: number; readonly to: number }[]
}

/**
 * Bars made of parts. Those that follow each other in time stand side by side; others lie below each other, so that a
 * name has room. Undefined where there is nothing to draw.
 */
export function barChart(plot: Plot, bars: PlotBars, id: string): Drawn | undefined {
  const drawn = barsOf(bars)
  if (drawn.every(({ total }) => total === null)) return undefined
  const hatch = `${id}-hatch`
  const { body, height } = (bars.overTime === true ? standingBars : lyingBars)(
    drawn,
    bars.parts.length,
    hatch,
  )
  return {
    svg: svgOf({
      id,
      title: `${plot.title} (${plot.unit})`,
      describes: described(bars, drawn),
      height,
      body: [hatching(hatch), ...body],
    }),
    legend: legendOf(bars, drawn),
  }
}

/** A part below zero is no part of a bar; one that is not known is left out, and a bar without any is not known. */
export function barsOf({ parts, rows }: PlotBars): Bar[] {
  const known = rows.map(({ values }) =>
    parts.map((_, at) => {
      const value = drawable(values[at])
      return value !== null && value >= 0 ? value : null
    }),
  )
  const layers = stack<unknown, (number | null)[], number>()
    .keys(parts.map((_, at) => at))
    .value((values, at) => values[at] ?? 0)(known)
  return rows.map(({ name }, row) => {
    const isKnown = known[row]?.some((value) => value !== null) === true
    return {
      name,
      total: isKnown ? (layers.at(-1)?.[row]?.[1] ?? 0) : null,
      parts: isKnown
        ? layers
            .map((layer, at) => ({ at, from: layer[row]?.[0] ?? 0, to: layer[row]?.[1] ?? 0 }))
            .filter(({ from, to }) => to > from)
        : [],
    }
  })
}

function legendOf({ parts }: PlotBars, bars: readonly Bar[]): LegendItem[] {
  const painted = parts.map((part, at) => ({ icon: boxIcon(partPaint(at, parts.length).fill), says: part }))
  return bars.some(({ total }) => total === null)
    ? [...painted, { icon: hatchedIcon, says: 'nothing is known' }]
    : painted
}

function described({ by, parts }: PlotBars, bars: readonly Bar[]): string {
  const known = bars.filter(({ total }) => total !== null)
  const longest = known.reduce<Bar | undefined>(
    (most, bar) => ((bar.total ?? 0) > (most?.total ?? -1) ? bar : most),
    undefined,
  )
  const unknown = bars.length - known.length
  return [
    `${bars.length === 1 ? 'One bar' : `${bars.length} bars`}, one for each ${by}${parts.length > 1 ? `, divided into ${parts.join(', ')}` : ''}.`,
    ...(longest ? [`The longest is ${longest.name}: ${numberText(longest.total ?? 0)}.`] : []),
    ...(unknown === 0 ? [] : [`Nothing is known of ${unknown}.`]),
    'The table beside it has the numbers.',
  ].join(' ')
}
