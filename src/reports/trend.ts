import type { Source } from '../files/source.js'
import type { CatchSeries } from '../ledger/catch-series.js'
import { catchSeriesOf } from '../ledger/catch-series.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import type { CountTrend } from '../measure/count-trend.js'
import { trendOf } from '../measure/count-trend.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import { exactRate, exposureNeededToRuleOut, upperBoundWhenNoneCaught } from '../measure/poisson-rate.js'
import type { Verdict, VerdictReason } from '../measure/verdict.js'
import { verdictOf, verdictSettings } from '../measure/verdict.js'
import type { Report, Row, Table } from '../types.js'
import { historyLine } from './history-line.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { periodOf } from './period.js'
import { pestName } from './pest-name.js'

/** The rate that a series without a catch should be able to rule out: one in ten trap-weeks. */
const rateToRuleOut = 0.1 / 7

interface Judged {
  readonly series: CatchSeries
  readonly count: number
  readonly trapNights: number
  readonly trend: CountTrend
  readonly verdict: Verdict
  readonly reason: VerdictReason | 'too-few-animals'
  readonly adjustedP: number | null
}

/**
 * Is it getting better? Catch per trap-night of every pest in every area that is trapped for it, over a period (the
 * year up to the as-of day if not said), with exact intervals, and a verdict. The false discovery rate is held over
 * every series of the ledger in the period before any filter is applied.
 */
export function trendReport(source: Source, options: ReportOptions): Report {
  const { from, to } = periodOf(options)
  const all: CatchSeries[] = []
  const read = readLedger(source, options, (view) => all.push(...catchSeriesOf(view, from, to)))
  const judged = judge(all)
  const shown = judged.filter(({ series }) => isWanted(series, options))
  const caught = shown.filter(({ count }) => count > 0)
  const none = shown.filter(({ count }) => count === 0)
  return {
    report: 'trend',
    title: 'Is it getting better?',
    headline: headlineOf(shown),
    asOf: isoOf(options.asOf),
    period: { from: isoOf(from), to: isoOf(to) },
    facts: [],
    tables: [trendTable(caught, from, to), noneCaughtTable(none)],
    cautions: [
      `A verdict needs ${verdictSettings.fewestReadings} days read and ${fewestAnimals} animals caught in all. Rising and falling allow for clumped catches and hold the false discovery rate at ${verdictSettings.significance * 100} % over all ${all.length} series of the ledger in this period, whatever is filtered; steady means the change is surely within ${Math.round((verdictSettings.steadyWithin - 1) * 100)} % a month; all else is unclear. Season is not taken out${isWholeYears(to - from + 1) ? '' : ', and this period is no whole year, so that a season can look like a trend'}.`,
      'Effort is in trap-nights, from setting, checks, renewals and losses; lost, wet, full, flushed or unread devices are left out with their effort. A zero is a reading; a missing reading is not.',
      'Where nothing was caught, nights missing is the further effort, in trap-nights, that would make 95 % sure of less than one in ten trap-weeks.',
      'Pests for which one animal is enough are in `doorsweep report thresholds`; no statistics delay them.',
    ],
    notExamined: notExaminedOf(read),
    incomplete: read.notChecked.length > 0,
  }
}

/** Whether a period covers every season alike. */
function isWholeYears(days: number): boolean {
  const rest = days % 365.25
  return days > 350 && (rest < 5 || rest > 360)
}

function judge(all: readonly CatchSeries[]): Judged[] {
  const trends = all.map((series) =>
    trendOf(series.observations.map(({ day, count, trapNights }) => ({ day, count, exposure: trapNights }))),
  )
  const counts = all.map((series) => sum(series.observations.map((observation) => observation.count)))
  const testable = trends.map((trend, at) =>
    trend.estimable &&
    (all[at]?.observations.length ?? 0) >= verdictSettings.fewestReadings &&
    (counts[at] ?? 0) >= fewestAnimals
      ? trend.p
      : null,
  )
  const adjusted = benjaminiHochberg(testable)
  return all.map((series, at) => {
    const trend = trends[at] ?? { estimable: false, reason: 'too-few-readings' }
    const count = counts[at] ?? 0
    const adjustedP = adjusted[at] ?? null
    const judged = verdictOf(trend, adjustedP, series.observations.length)
    return {
      series,
      count,
      trapNights: sum(series.observations.map((observation) => observation.trapNights)),
      trend,
      ...(trend.estimable && count < fewestAnimals ? tooFewAnimals : judged),
      adjustedP,
    }
  })
}

/**
 * Series with fewer animals in all are not tested: no trend could be made out in them, and each test more makes it
 * harder to be sure of the others. A total says nothing of where a series is going, so choosing by it keeps the false
 * discovery rate (Bourgon R, Gentleman R, Huber W 2010, PNAS 107:9546, from memory; measured in measure/README.md).
 */
const fewestAnimals = 10

const tooFewAnimals = { verdict: 'unclear', reason: 'too-few-animals' } as const

const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0)

const verdictOrder: Record<Verdict, number> = { rising: 0, unclear: 1, falling: 2, steady: 3 }

function trendTable(judged: readonly Judged[], from: number, to: number): Table {
  const rows = [...judged].sort(
    (a, b) =>
      verdictOrder[a.verdict] - verdictOrder[b.verdict] ||
      b.count / b.trapNights - a.count / a.trapNights ||
      compareSeries(a, b),
  )
  return {
    id: 'trend',
    title: 'Catch per trap, and where it is going',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'pest', title: 'pest' },
      { id: 'verdict', title: 'verdict' },
      { id: 'change-shown', title: '% a month (95 %)', for: 'people' },
      { id: 'history', title: 'by month' },
      { id: 'caught', title: 'caught', unit: 'animals', decimals: 0, for: 'work' },
      { id: 'trap-nights', title: 'effort', unit: 'trap-nights', decimals: 0, for: 'work' },
      { id: 'caught-shown', title: 'caught in nights', for: 'people' },
      { id: 'per-trap-week-shown', title: 'per trap-week (95 %)', for: 'people' },
      { id: 'change', title: 'change', unit: '% a month', decimals: 1, for: 'work' },
      { id: 'change-low', title: 'change, lower limit', unit: '% a month', decimals: 1, for: 'work' },
      { id: 'change-high', title: 'change, upper limit', unit: '% a month', decimals: 1, for: 'work' },
      { id: 'per-trap-week', title: 'rate', unit: 'per trap-week', decimals: 3, for: 'work' },
      {
        id: 'per-trap-week-low',
        title: 'rate, lower limit',
        unit: 'per trap-week',
        decimals: 3,
        for: 'work',
      },
      {
        id: 'per-trap-week-high',
        title: 'rate, upper limit',
        unit: 'per trap-week',
        decimals: 3,
        for: 'work',
      },
      { id: 'per-trap-night', title: 'rate by night', unit: 'per trap-night', decimals: 4, for: 'work' },
      { id: 'readings', title: 'days read', decimals: 0, for: 'work' },
      { id: 'dispersion', title: 'dispersion', decimals: 2, for: 'work' },
      { id: 'p-adjusted', title: 'adjusted p', decimals: 4, for: 'work' },
      { id: 'why', title: 'because', for: 'work' },
    ],
    shownToPeople: 40,
    rows: rows.map((row) => trendRow(row, from, to)),
    empty: 'Nothing was caught in this period in any area that is trapped.',
  }
}

function trendRow(
  { series, count, trapNights, trend, verdict, reason, adjustedP }: Judged,
  from: number,
  to: number,
): Row {
  const rate = exactRate(count, trapNights)
  const percent = (factor: number) => (factor - 1) * 100
  return {
    cells: {
      site: series.site,
      area: series.area,
      pest: pestName(series.pest),
      verdict,
      change: trend.estimable ? percent(trend.perMonth) : null,
      'change-low': trend.estimable ? percent(trend.lower) : null,
      'change-high': trend.estimable ? percent(trend.upper) : null,
      history: historyLine(series.observations, from, to),
      caught: count,
      'trap-nights': trapNights,
      'per-trap-week': rate && rate.rate * 7,
      'per-trap-week-low': rate && rate.lower * 7,
      'per-trap-week-high': rate && rate.upper * 7,
      'change-shown': trend.estimable
        ? `${signed(percent(trend.perMonth))} (${signed(percent(trend.lower))} to ${signed(percent(trend.upper))})`
        : null,
      'caught-shown': `${count} in ${trapNights}`,
      'per-trap-week-shown':
        rate &&
        `${(rate.rate * 7).toFixed(2)} (${(rate.lower * 7).toFixed(2)} to ${(rate.upper * 7).toFixed(2)})`,
      'per-trap-night': rate?.rate ?? null,
      readings: series.observations.length,
      dispersion: trend.estimable ? trend.dispersion : null,
      'p-adjusted': adjustedP,
      why: reasonWords[reason],
    },
    records: series.observations.flatMap((observation) => observation.files),
  }
}

const signed = (percent: number) =>
  `${percent > 0 ? '+' : ''}${percent.toFixed(0)}`.replace(/^\+0$|^-0$/, '0')

const reasonWords: Record<Judged['reason'], string> = {
  'too-few-animals': 'too few animals caught in all',
  'interval-above-no-change': 'the whole interval is above no change',
  'interval-below-no-change': 'the whole interval is below no change',
  'interval-tight-around-no-change': 'the interval is tight around no change',
  'interval-too-wide': 'the interval is too wide to tell',
  'not-significant-among-all-series': 'not sure enough among so many series',
  'too-few-readings': 'too few days read',
  'not-a-count': 'a count is not a number',
  'none-caught': 'nothing was caught',
  'one-day': 'read on one day only',
  'caught-at-one-end': 'everything was caught on the first or the last day read',
  'out-of-range': 'the numbers are beyond what can be computed',
}

function noneCaughtTable(judged: readonly Judged[]): Table {
  return {
    id: 'none-caught',
    title: 'None caught, and how much that tells (least looked at first)',
    shownToPeople: 10,
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'pest', title: 'pest' },
      { id: 'trap-nights', title: 'effort', unit: 'trap-nights', decimals: 0 },
      { id: 'readings', title: 'days read', decimals: 0 },
      { id: 'at-most', title: 'could still be up to', unit: 'per trap-week', decimals: 2 },
      {
        id: 'nights-missing',
        title: 'nights missing',
        unit: 'trap-nights',
        decimals: 0,
      },
    ],
    rows: [...judged]
      .sort((a, b) => a.trapNights - b.trapNights || compareSeries(a, b))
      .map(({ series, trapNights }) => {
        const bound = upperBoundWhenNoneCaught(trapNights)
        const needed = exposureNeededToRuleOut(rateToRuleOut)
        return {
          cells: {
            site: series.site,
            area: series.area,
            pest: pestName(series.pest),
            'trap-nights': trapNights,
            readings: series.observations.length,
            'at-most': bound === null ? null : bound * 7,
            'nights-missing': needed === null ? null : Math.max(0, Math.ceil(needed - trapNights)),
          },
          records: series.observations.flatMap((observation) => observation.files),
        }
      }),
    empty: 'Every area that is trapped caught something.',
  }
}

function compareSeries(a: Judged, b: Judged): number {
  const key = ({ series }: Judged) => `${series.site} ${series.area} ${series.pest}`
  return key(a) < key(b) ? -1 : 1
}

function headlineOf(judged: readonly Judged[]): string {
  const of = (verdict: Verdict) => judged.filter((row) => row.verdict === verdict && row.count > 0)
  const rising = of('rising')
  if (judged.length === 0) return 'No trap was read in this period, so nothing can be said.'
  const first = rising[0]
  const risingWords = first
    ? `${rising.length === 1 ? 'One catch is' : `${rising.length} catches are`} surely rising, first of all ${pestName(first.series.pest)} in ${first.series.site} ${first.series.area}`
    : 'No catch is surely rising'
  return `${risingWords}; ${of('falling').length} falling, ${of('steady').length} steady, ${of('unclear').length} unclear, and ${judged.filter((row) => row.count === 0).length} without a catch.`
}
