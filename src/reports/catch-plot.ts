import type { CatchSeries } from '../ledger/catch-series.js'
import type { ThingDone } from '../ledger/things-done.js'
import { addMonths, firstOfMonth, isoOf, lastOfMonth, monthOf } from '../measure/calendar.js'
import { exactRate } from '../measure/poisson-rate.js'
import type { Day, Plot, PlotMark, Table } from '../types.js'
import { measuredCells, measuredColumns } from './measured.js'
import { pestName } from './pest-name.js'

/** Catch and effort of one calendar month; rate and limits in animals per trap-week, null without a usable reading. */
export interface MonthOfCatch {
  readonly from: Day
  readonly to: Day
  readonly count: number
  readonly trapNights: number
  readonly perTrapWeek: { readonly value: number; readonly low: number; readonly high: number } | null
  readonly files: readonly string[]
}

/** By calendar month of the reading, first and last cut to the period; with the exact limits of Garwood (1936). */
export function catchByMonth({ observations }: CatchSeries, from: Day, to: Day): MonthOfCatch[] {
  const months: MonthOfCatch[] = []
  for (let first = firstOfMonth(from); first <= to; first = addMonths(first, 1)) {
    const days = { from: Math.max(first, from), to: Math.min(lastOfMonth(first), to) }
    const read = observations.filter(({ day }) => days.from <= day && day <= days.to)
    const count = read.reduce((sum, one) => sum + one.count, 0)
    const trapNights = read.reduce((sum, one) => sum + one.trapNights, 0)
    const rate = exactRate(count, trapNights)
    months.push({
      ...days,
      count,
      trapNights,
      perTrapWeek: rate && { value: rate.rate * 7, low: rate.lower * 7, high: rate.upper * 7 },
      files: [...new Set(read.flatMap(({ files }) => files))].sort(),
    })
  }
  return months
}

/**
 * The catch of one pest in one area by month, in animals per trap-week, with what happened there marked. A month
 * without a usable reading has no value. Its numbers stand in `catchByMonthTable`.
 */
export function catchPlot(series: CatchSeries, marks: readonly PlotMark[], from: Day, to: Day): Plot {
  return {
    id: `${series.site}-${series.area}-${series.pest}`,
    title: `${pestName(series.pest)} in ${series.site} ${series.area} by month`,
    unit: 'per trap-week',
    from: isoOf(from),
    to: isoOf(to),
    points: catchByMonth(series, from, to).map((month) => ({
      day: isoOf(Math.floor((month.from + month.to) / 2)),
      value: month.perTrapWeek?.value ?? null,
      low: month.perTrapWeek?.low ?? null,
      high: month.perTrapWeek?.high ?? null,
    })),
    marks,
    table: {
      id: byMonthId,
      rows: { site: series.site, area: series.area, pest: pestName(series.pest) },
    },
  }
}

const rate = { id: 'per-trap-week', title: 'catch', unit: 'per trap-week', decimals: 2 }

/** Something done, to be marked in such a plot. What was fixed on the spot was put right like any other repair. */
export function markOf({ day, kind, says }: Pick<ThingDone, 'day' | 'kind' | 'says'>): Required<PlotMark> {
  return { day: isoOf(day), says, kind: kind === 'fixed on the spot' ? 'repair' : kind }
}

const byMonthId = 'by-month'

/** The numbers of such plots, month by month, for machines and for whoever asks to see the work. */
export function catchByMonthTable(all: readonly CatchSeries[], from: Day, to: Day): Table {
  return {
    id: byMonthId,
    title: 'Catch by month, as drawn below',
    for: 'work',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'pest', title: 'pest' },
      { id: 'month', title: 'month' },
      ...measuredColumns(rate),
      { id: 'caught', title: 'caught', unit: 'animals', decimals: 0 },
      { id: 'trap-nights', title: 'effort', unit: 'trap-nights', decimals: 0 },
      { id: 'method', title: 'method', for: 'work' },
    ],
    rows: all.flatMap((series) =>
      catchByMonth(series, from, to).map((month) => ({
        cells: {
          site: series.site,
          area: series.area,
          pest: pestName(series.pest),
          month: monthOf(month.from),
          ...measuredCells(rate, month.perTrapWeek && { ...month.perTrapWeek }),
          caught: month.perTrapWeek && month.count,
          'trap-nights': month.trapNights,
          method: month.perTrapWeek && 'exact Poisson limits (Garwood 1936), clumping not allowed for',
        },
        records: month.files,
      })),
    ),
    empty: 'Nothing was read in this period.',
  }
}
