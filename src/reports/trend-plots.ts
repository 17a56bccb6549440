import { compareText } from '../ledger/compare-text.js'
import type { Area, SiteView } from '../ledger/site-view.js'
import { inForce } from '../ledger/spans.js'
import { couldTouch, thingsDone } from '../ledger/things-done.js'
import { addMonths, isoOf } from '../measure/calendar.js'
import type { Plot, PlotMark, Table } from '../types.js'
import { catchByMonthTable, catchPlot, markOf } from './catch-plot.js'
import type { ReportOptions } from './options.js'
import type { Period } from './period.js'
import type { PlanSpan } from './threshold-test.js'
import type { Judged } from './trend-judge.js'

type ThresholdLine = NonNullable<Plot['line']>

/** What is drawn beside the catch of the pest that is asked for, in one area. */
export interface BesideTheCatch {
  readonly area: string
  readonly marks: readonly PlotMark[]
  readonly line: ThresholdLine | undefined
}

/** More areas, months or marks than these do not read well. */
const mostAreas = 4
const mostMonths = 60
const mostMarks = 26

/**
 * What was done in each area of a site that could have touched a pest, and from how many on its plan says to act; none
 * unless both this site and a pest are asked for.
 */
export function besideTheCatch(view: SiteView, options: ReportOptions, period: Period): BesideTheCatch[] {
  const { site, pest } = options
  if (site !== view.id || pest === undefined) return []
  const { from, to } = drawn(period)
  const things = thingsDone(view).filter(
    (thing) => from <= thing.day && thing.day <= to && couldTouch(thing, pest),
  )
  const span = inForce(view.district.plans.get(pest)?.data.spans, period.to)
  return [...view.areas.values()].map((area) => ({
    area: area.id,
    marks: things.filter(({ areas }) => areas.includes(area.id)).map(markOf),
    line: span && thresholdLine(span, area),
  }))
}

/** The last five years of a longer period. */
function drawn({ from, to }: Period): Period {
  return { from: Math.max(from, addMonths(to + 1, -mostMonths)), to }
}

/** A threshold as a height of the plot: only one that counts by trap and time is. */
function thresholdLine(span: PlanSpan, area: Area): ThresholdLine | undefined {
  const threshold = span.thresholds?.[area.facts.kind] ?? span.thresholds?.elsewhere
  if (!threshold || (threshold.per !== 'trap-week' && threshold.per !== 'trap-night')) return undefined
  const { per, 'act-at': actAt } = threshold
  // The plot adds the height itself.
  return per === 'trap-week'
    ? { value: actAt, says: 'the plan says to act at' }
    : { value: actAt * 7, says: `the plan says to act at ${actAt} per trap-night` }
}

export interface TrendPlots {
  readonly plots: readonly Plot[]
  /** Their numbers. */
  readonly tables: readonly Table[]
  readonly cautions: readonly string[]
}

/** The catch by month in each area with a catch, those with most of it first; nothing where nothing is to be drawn. */
export function trendPlots(
  shown: readonly Judged[],
  beside: readonly BesideTheCatch[],
  period: Period,
): TrendPlots {
  const caught = shown.filter(({ count }) => count > 0)
  if (beside.length === 0 || caught.length === 0) return { plots: [], tables: [], cautions: [] }
  const { from, to } = drawn(period)
  const inOrder = caught
    .sort((a, b) => b.count - a.count || compareText(a.series.area, b.series.area))
    .map(({ series }) => ({ series, beside: beside.find(({ area }) => area === series.area) }))
  const chosen = inOrder.slice(0, mostAreas)
  const others = inOrder.slice(mostAreas).map(({ series }) => series.area)
  const crowded = chosen.filter((one) => (one.beside?.marks.length ?? 0) > mostMarks)
  return {
    plots: chosen.map((one) => {
      const plot = catchPlot(one.series, one.beside?.marks.slice(-mostMarks) ?? [], from, to)
      return one.beside?.line === undefined ? plot : { ...plot, line: one.beside.line }
    }),
    tables: [
      catchByMonthTable(
        chosen.map(({ series }) => series),
        from,
        to,
      ),
    ],
    cautions: [
      ...(others.length > 0
        ? [`Drawn are the ${mostAreas} areas with most caught; not drawn: ${others.join(', ')}.`]
        : []),
      ...(from > period.from ? [`Drawn are the last five years, from ${isoOf(from)}.`] : []),
      ...crowded.map(
        ({ series }) =>
          `Marked in ${series.area} are the last ${mostMarks} things done there; there were more before.`,
      ),
      'What is marked came before a catch or after it; that alone does not say that it changed it. `doorsweep report effect` compares.',
    ],
  }
}
