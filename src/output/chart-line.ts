import type { ScaleLinear } from 'd3-scale'
import { scaleLinear } from 'd3-scale'
import { line } from 'd3-shape'
import { compareText } from '../ledger/compare-text.js'
import type { Plot, PlotPoint } from '../types.js'
import { dayScale } from './chart-days.js'
import type { Drawn, LegendItem } from './chart-drawn.js'
import { boxAt, chartWidth, letterSize, letterWidth, lineAt, places, svgOf, textAt } from './chart-drawn.js'
import { drawMarks } from './chart-marks.js'
import { drawable, isWhole, numberText, tickTexts } from './chart-numbers.js'
import { blue, faint, hatchedIcon, hatching, ink, paleBlue } from './chart-paint.js'
import { highestDrawn } from './plot-text.js'

const top = 12
const height = 180
const bottom = top + height
/** Room on the right for half a date and the letter of a mark. */
const right = chartWidth - 20

/** A point with its place; what cannot be drawn of it is null. */
interface Placed {
  readonly day: string
  readonly x: number
  readonly value: number | null
  readonly low: number | null
  /** Null where it has no upper limit, or none that can be told. */
  readonly high: number | null
}

/**
 * A number over time: points joined by a line, each with its interval, the line to compare with, and what happened below.
 * Where nothing was measured the line is broken and the stretch hatched. Undefined where there is nothing to draw.
 */
export function lineChart(plot: Plot, id: string): Drawn | undefined {
  const finite = plot.points.map(withoutWhatCannotBeDrawn)
  const limit = plot.line !== undefined && drawable(plot.line.value) !== null ? plot.line : undefined
  if (finite.every(({ value }) => value === null)) return undefined
  const y = heightScale({ points: finite, ...(limit ? { line: limit } : {}) })
  const ticks = ticksOf(y, finite)
  const texts = tickTexts(ticks)
  const left = Math.max(...texts.map((text) => text.length)) * letterWidth + 10
  const days = dayScale(plot.from, plot.to, left + 5, right)
  if (!days) return undefined
  const points = placedIn(finite, days.at)
  if (points.every(({ value }) => value === null)) return undefined
  const marks = drawMarks(plot.marks, days.at, { top, from: bottom + 24 })
  const drawn = [
    ...stretchesWithout(points, left, `${id}-hatch`),
    ...intervals(points, y),
    ...course(points, y),
  ]
  return {
    svg: svgOf({
      id,
      title: `${plot.title} (${plot.unit})`,
      describes: described(plot, points, marks.legend.length),
      height: bottom + 26 + marks.height,
      body: [
        hatching(`${id}-hatch`),
        ...ticks.flatMap((tick, at) => [
          lineAt({ from: [left, y(tick)], to: [right, y(tick)], stroke: tick === 0 ? ink : faint }),
          textAt(texts[at] ?? '', { x: left - 5, y: y(tick) + letterSize * 0.36, anchor: 'end' }),
        ]),
        ...marks.body,
        ...drawn,
        ...(limit
          ? [
              lineAt({
                from: [left, y(limit.value)],
                to: [right, y(limit.value)],
                stroke: ink,
                width: 1.8,
                dashes: '8 5',
              }),
            ]
          : []),
        ...days.ticks.flatMap(({ x, says }) => [
          lineAt({ from: [x, bottom], to: [x, bottom + 5], stroke: ink }),
          textAt(says, tickPlace(x, says)),
        ]),
      ],
    }),
    legend: [...legendOf(points, y, limit), ...marks.legend],
  }
}

function withoutWhatCannotBeDrawn({ day, value, low, high }: PlotPoint): PlotPoint {
  return { day, value: drawable(value), low: drawable(low), high: drawable(high) }
}

type HeightScale = ScaleLinear<number, number>

function heightScale(plot: Pick<Plot, 'points' | 'line'>): HeightScale {
  const highest = highestDrawn(plot)
  return scaleLinear([0, highest > 0 ? highest : 1], [bottom, top]).nice(4)
}

/** Nothing is half an animal: where all is whole, so are the ticks. */
function ticksOf(y: HeightScale, points: readonly PlotPoint[]): number[] {
  const numbers = points.flatMap(({ value, low, high }) => [value ?? 0, low ?? 0, high ?? 0])
  return numbers.every(isWhole) ? y.ticks(4).filter(isWhole) : y.ticks(4)
}

function placedIn(points: readonly PlotPoint[], at: (day: string) => number | undefined): Placed[] {
  return points
    .flatMap(({ day, value, low, high }) => {
      const x = at(day)
      return x === undefined ? [] : [{ day, x, value, low: low ?? null, high: high ?? null }]
    })
    .sort((a, b) => compareText(a.day, b.day))
}

/** From half-way to the point before to half-way to the one after, for each point without a value. */
function stretchesWithout(points: readonly Placed[], left: number, hatch: string): string[] {
  return points.flatMap(({ x, value }, at) => {
    if (value !== null) return []
    const start = at === 0 ? left : ((points[at - 1]?.x ?? x) + x) / 2
    const end = at === points.length - 1 ? right : (x + (points[at + 1]?.x ?? x)) / 2
    return [boxAt([start, top, end - start, height], `fill="url(#${hatch})"`)]
  })
}

function goesOn({ low, high }: Placed, y: HeightScale): boolean {
  return low !== null && (high === null || high > (y.domain()[1] ?? high))
}

/** A pale bar for each interval; one that goes on above the picture ends in an arrow. */
function intervals(points: readonly Placed[], y: HeightScale): string[] {
  return points.flatMap((point) => {
    const { x, value, low, high } = point
    if (value === null || low === null) return []
    const end = goesOn(point, y) || high === null ? top : y(high)
    const bar = lineAt({ from: [x, y(low)], to: [x, end], stroke: paleBlue, width: 3 })
    return goesOn(point, y) ? [bar, arrowAt(x, top)] : [bar]
  })
}

function arrowAt(x: number, y: number): string {
  return `<path d="M${places(x - 5)} ${places(y + 2)}L${places(x)} ${places(y - 6)}L${places(x + 5)} ${places(y + 2)}Z" fill="${paleBlue}"/>`
}

function course(points: readonly Placed[], y: HeightScale): string[] {
  const path = line<Placed>()
    .defined(({ value }) => value !== null)
    .x(({ x }) => x)
    .y(({ value }) => y(value ?? 0))
    .digits(1)(points)
  const radius = points.length > 40 ? 2.2 : 3.2
  return [
    ...(path === null ? [] : [`<path d="${path}" fill="none" stroke="${blue}" stroke-width="1.6"/>`]),
    ...points.flatMap(({ x, value }) =>
      value === null
        ? []
        : [`<circle cx="${places(x)}" cy="${places(y(value))}" r="${radius}" fill="${blue}"/>`],
    ),
  ]
}

/** In the middle below its tick, but within the drawing. */
function tickPlace(x: number, says: string) {
  const half = (says.length * letterWidth) / 2
  return {
    x: Math.min(Math.max(x, half), chartWidth - half),
    y: bottom + 18,
    anchor: 'middle' as const,
  }
}

function legendOf(points: readonly Placed[], y: HeightScale, limit: Plot['line']): LegendItem[] {
  const measured = points.filter(({ value }) => value !== null)
  const dot = `<circle cx="8" cy="8" r="3.2" fill="${blue}"/>`
  return [
    { icon: `<path d="M0 8H16" stroke="${blue}" stroke-width="1.6"/>${dot}`, says: 'measured' },
    ...(measured.some(({ low }) => low !== null)
      ? [
          {
            icon: `<path d="M8 0V16" stroke="${paleBlue}" stroke-width="3"/>${dot}`,
            says: 'the bar is its interval, in which the true value may well lie',
          },
        ]
      : []),
    ...(measured.some((point) => goesOn(point, y))
      ? [
          {
            icon: `<path d="M8 6V16" stroke="${paleBlue}" stroke-width="3"/>${arrowAt(8, 7)}`,
            says: 'the interval goes on above the picture',
          },
        ]
      : []),
    ...(points.some(({ value }) => value === null)
      ? [{ icon: hatchedIcon, says: 'nothing was measured' }]
      : []),
    ...(limit
      ? [
          {
            icon: `<path d="M0 8H6M10 8H16" stroke="${ink}" stroke-width="1.8"/>`,
            says: `${limit.says}: ${numberText(limit.value)}`,
          },
        ]
      : []),
  ]
}

function described(plot: Plot, points: readonly Placed[], marked: number): string {
  const measured = points.flatMap(({ day, value }) => (value === null ? [] : [{ day, value }]))
  const without = points.length - measured.length
  const highest = measured.reduce((most, one) => (one.value > most.value ? one : most))
  const last = measured.at(-1) ?? highest
  return [
    `A line from ${plot.from} to ${plot.to} with ${measured.length === 1 ? 'one value' : `${measured.length} values`}.`,
    `The highest is ${numberText(highest.value)}, at ${highest.day}; the last is ${numberText(last.value)}, at ${last.day}.`,
    ...(without === 0 ? [] : [`Gaps where nothing was measured: ${without}.`]),
    ...(plot.line === undefined ? [] : [`${capital(plot.line.says)}: ${numberText(plot.line.value)}.`]),
    ...(marked === 0 ? [] : [`Things that happened and are marked: ${marked}; the legend tells them.`]),
    'The table beside it has the numbers.',
  ].join(' ')
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1)
}
