import type { MedianSlope } from '../measure/theil-sen.js'
import type { Cell, Column } from '../types.js'
import type { MeasuredColumn } from './measured.js'
import { measuredCells, measuredColumns } from './measured.js'
import type { RankCheck } from './trend-ranks.js'
import { orderP } from './trend-ranks.js'

const medianSlope: MeasuredColumn = {
  id: 'median-slope',
  title: 'median slope',
  unit: 'per trap-week, in 30 days',
  decimals: 3,
}
const yearSlope: MeasuredColumn = {
  id: 'year-slope',
  title: 'median slope from year to year',
  unit: 'per trap-week, in a year',
  decimals: 3,
}

/** What the order of the readings says, for machines and whoever asks to see the work. */
export const orderColumns: readonly Column[] = [
  { id: 'order', title: 'order of the readings', for: 'work' },
  { id: 'order-tau', title: "Kendall's tau-b", unit: '-1 to 1', decimals: 2, for: 'work' },
  { id: 'order-p', title: 'p of the order', unit: 'probability', decimals: 4, for: 'work' },
  { id: 'order-p-adjusted', title: 'adjusted p of the order', unit: 'probability', decimals: 4, for: 'work' },
  ...workOnly(medianSlope),
  { id: 'years-order', title: 'order of the years, month by month', for: 'work' },
  { id: 'years-p-adjusted', title: 'adjusted p of the years', unit: 'probability', decimals: 4, for: 'work' },
  { id: 'months-alike-p', title: 'p of months alike', unit: 'probability', decimals: 4, for: 'work' },
  ...workOnly(yearSlope),
]

export function orderCells({
  kendall,
  slope,
  direction,
  adjustedP,
  seasonal,
  seasonalDirection,
  seasonalAdjustedP,
}: RankCheck): Record<string, Cell> {
  return {
    order: direction,
    'order-tau': kendall.estimable ? kendall.tauB : null,
    'order-p': orderP(kendall),
    'order-p-adjusted': adjustedP,
    ...slopeCells(medianSlope, slope.estimable ? slope : null, 7 * 30),
    'years-order': seasonalDirection,
    'years-p-adjusted': seasonalAdjustedP,
    'months-alike-p': seasonal?.estimable ? (seasonal.homogeneity?.p ?? null) : null,
    ...slopeCells(yearSlope, seasonal?.slope ?? null, 7),
  }
}

export function orderMethod({ kendall, seasonal }: RankCheck): string {
  const p = kendall.estimable && kendall.pExact !== null ? 'exact p' : 'p by the normal approximation'
  const years =
    seasonal === null
      ? ''
      : ' Order of the years: Hirsch, Slack & Smith 1982; months alike: van Belle & Hughes 1984.'
  return `Order: Mann 1945 and Kendall 1975 with ties, ${p}; slope: Sen 1968.${years}`
}

function workOnly(column: MeasuredColumn): Column[] {
  return measuredColumns(column).filter((one) => one.for === 'work')
}

/** Catch per trap-night in another unit. */
function slopeCells(column: MeasuredColumn, slope: MedianSlope | null, factor: number): Record<string, Cell> {
  const { [`${column.id}-shown`]: _, ...cells } = measuredCells(
    column,
    slope && {
      value: slope.slope * factor,
      low: slope.lower === null ? null : slope.lower * factor,
      high: slope.upper === null ? null : slope.upper * factor,
    },
  )
  return cells
}
