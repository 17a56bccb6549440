import { exactRate, exposureNeededToRuleOut, upperBoundWhenNoneCaught } from '../measure/poisson-rate.js'
import type { Verdict } from '../measure/verdict.js'
import type { Column, Row, Table } from '../types.js'
import { historyLine, historyStep, historyTitles } from './history-line.js'
import { measuredCells, measuredColumns } from './measured.js'
import type { Period } from './period.js'
import { pestName } from './pest-name.js'
import type { Judged } from './trend-judge.js'
import { orderCells, orderColumns, orderMethod } from './trend-order-cells.js'
import { goesTheOtherWay } from './trend-ranks.js'
import { compareSeries, reasonWords, unitInTitle, whereCells, whereColumns } from './trend-words.js'

/** The rate that a series without a catch should be able to rule out: one in ten trap-weeks. */
const rateToRuleOut = 0.1 / 7

/** What surely changes comes first: the headline counts it. */
const verdictOrder: Record<Verdict, number> = { rising: 0, falling: 1, unclear: 2, steady: 3 }

const perTrapWeek = { id: 'per-trap-week', title: 'rate', unit: 'per trap-week', decimals: 3 } as const
const change = { id: 'change', title: 'change', unit: '% a month', decimals: 1 } as const

export function trendTable(judged: readonly Judged[], period: Period): Table {
  const rows = [...judged].sort(
    (a, b) =>
      verdictOrder[a.verdict] - verdictOrder[b.verdict] ||
      b.count / b.trapNights - a.count / a.trapNights ||
      compareSeries(a.series, b.series),
  )
  return {
    id: 'trend',
    title: 'Catch per trap, and where it is going',
    columns: trendColumns(period),
    shownToPeople: 30,
    rows: rows.map((row) => trendRow(row, period)),
    empty: 'Nothing was caught in this period in any area that is trapped.',
  }
}

function trendColumns({ from, to }: Period): Column[] {
  const [, ...changeWork] = measuredColumns(change)
  const [, ...rateWork] = measuredColumns(perTrapWeek)
  return [
    ...whereColumns,
    { id: 'pest', title: 'pest' },
    { id: 'verdict', title: 'verdict' },
    { id: 'change-shown', title: '% a month (95 %)', for: 'people' },
    { id: 'history-shown', title: historyTitles[historyStep(from, to)], for: 'people' },
    { id: 'history', title: 'by month', for: 'work' },
    { id: 'caught', title: 'caught', unit: 'animals', decimals: 0, for: 'work' },
    { id: 'trap-nights', title: 'effort', unit: 'trap-nights', decimals: 0, for: 'work' },
    { id: 'per-trap-week-shown', title: 'per trap-week (95 %)', for: 'people' },
    ...changeWork,
    ...rateWork,
    { ...perTrapWeek, id: 'exact-low', title: 'exact lower limit, were catches not clumped', for: 'work' },
    { ...perTrapWeek, id: 'exact-high', title: 'exact upper limit, were catches not clumped', for: 'work' },
    { id: 'per-trap-night', title: 'rate by night', unit: 'per trap-night', decimals: 4, for: 'work' },
    { id: 'readings', title: 'days read', unit: 'days', decimals: 0, for: 'work' },
    { id: 'dispersion', title: 'dispersion', unit: 'variance over mean', decimals: 2, for: 'work' },
    { id: 'p-adjusted', title: 'adjusted p', unit: 'probability', decimals: 4, for: 'work' },
    ...orderColumns,
    { id: 'method', title: 'method', for: 'work' },
    { id: 'why', title: 'because', for: 'work' },
  ]
}

function trendRow(judged: Judged, { from, to }: Period): Row {
  const { series, count, trapNights, rate, trend, verdict, reason, adjustedP, ranks } = judged
  const exact = exactRate(count, trapNights)
  const percent = (factor: number) => (factor - 1) * 100
  const perWeek = rate && { value: rate.rate * 7, low: rate.lower * 7, high: rate.upper * 7 }
  const { observations } = series
  return {
    cells: {
      ...whereCells(series),
      pest: pestName(series.pest),
      verdict,
      ...measuredCells(
        change,
        trend.estimable
          ? { value: percent(trend.perMonth), low: percent(trend.lower), high: percent(trend.upper) }
          : null,
      ),
      'change-shown': changeWords(judged),
      'history-shown': historyLine(observations, from, to, historyStep(from, to)),
      history: historyLine(observations, from, to),
      caught: count,
      'trap-nights': trapNights,
      ...measuredCells(perTrapWeek, perWeek),
      'per-trap-week-shown':
        perWeek && `${perWeek.value.toFixed(2)} (${perWeek.low.toFixed(2)} to ${perWeek.high.toFixed(2)})`,
      'exact-low': exact && exact.lower * 7,
      'exact-high': exact && exact.upper * 7,
      'per-trap-night': rate?.rate ?? null,
      readings: observations.length,
      dispersion: trend.estimable ? trend.dispersion : null,
      'p-adjusted': adjustedP,
      ...orderCells(ranks),
      method: `${trendMethod} ${orderMethod(ranks)}`,
      why: `${reasonWords[reason]}${goesTheOtherWay(verdict, ranks) ? '; but the order of the readings goes the other way' : ''}`,
    },
    records: observations.flatMap((observation) => observation.files),
  }
}

const trendMethod =
  'Rate: exact interval (Garwood 1936), of the count divided by its dispersion. Change: log-linear fit, clumping allowed for (Wedderburn 1974; Breslow 1984).'

/** From here on, upper limit over lower limit, a change is no news to anyone: the limits stay with the work. */
const tooWide = 20

function changeWords({ trend, verdict }: Judged): string | null {
  if (!trend.estimable) return null
  if (verdict === 'unclear' && !(trend.upper <= tooWide * trend.lower)) return 'too wide to tell'
  const [value, low, high] = [trend.perMonth, trend.lower, trend.upper].map((factor) =>
    signed((factor - 1) * 100),
  )
  return `${value} (${low} to ${high})`
}

const signed = (percent: number) =>
  `${percent > 0 ? '+' : ''}${percent.toFixed(0)}`.replace(/^\+0$|^-0$/, '0')

export function noneCaughtTable(judged: readonly Judged[]): Table {
  const numbers: Column[] = [
    { id: 'trap-nights', title: 'effort', unit: 'trap-nights', decimals: 0, for: 'work' },
    { id: 'readings', title: 'days read', unit: 'days', decimals: 0, for: 'work' },
    { id: 'at-most', title: 'could still be up to', unit: 'per trap-week', decimals: 2, for: 'work' },
    { id: 'nights-missing', title: 'nights missing', unit: 'trap-nights', decimals: 0, for: 'work' },
  ]
  const shown: Column[] = [
    { id: 'trap-nights-shown', title: 'trap-nights', decimals: 0, for: 'people' },
    { id: 'readings-shown', title: 'days read', decimals: 0, for: 'people' },
    { id: 'at-most-shown', title: 'at most per trap-week', decimals: 2, for: 'people' },
    { id: 'nights-missing-shown', title: 'nights missing', decimals: 0, for: 'people' },
  ]
  return {
    id: 'none-caught',
    title: 'None caught, and how much that tells (least looked at first)',
    shownToPeople: 10,
    columns: unitInTitle([
      ...whereColumns,
      { id: 'pest', title: 'pest' },
      ...shown,
      ...numbers,
      { id: 'method', title: 'method', for: 'work' },
    ]),
    rows: [...judged]
      .sort((a, b) => a.trapNights - b.trapNights || compareSeries(a.series, b.series))
      .map(noneCaughtRow),
    empty: 'Every area that is trapped caught something.',
  }
}

function noneCaughtRow({ series, trapNights }: Judged): Row {
  const bound = upperBoundWhenNoneCaught(trapNights)
  const needed = exposureNeededToRuleOut(rateToRuleOut)
  const numbers = {
    'trap-nights': trapNights,
    readings: series.observations.length,
    'at-most': bound === null ? null : bound * 7,
    'nights-missing': needed === null ? null : Math.max(0, Math.ceil(needed - trapNights)),
  }
  return {
    cells: {
      ...whereCells(series),
      pest: pestName(series.pest),
      ...numbers,
      ...Object.fromEntries(Object.entries(numbers).map(([id, number]) => [`${id}-shown`, number])),
      method: 'Upper limit at 95 %, one-sided: -ln(0.05)/effort (Hanley & Lippman-Hand 1983).',
    },
    records: series.observations.flatMap((observation) => observation.files),
  }
}
