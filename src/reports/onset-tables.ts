import { isoOf } from '../measure/calendar.js'
import type { Cell, Column, Plot, Table } from '../types.js'
import { measuredCells, measuredColumns } from './measured.js'
import type { NotWatched, Watched } from './onset-judge.js'
import { pestName } from './pest-name.js'

export const usualColumn = { id: 'usual', title: 'usual', unit: 'animals', decimals: 1 } as const
const baselineColumn = {
  id: 'baseline',
  title: 'rate in the year before',
  unit: 'per trap-week',
  decimals: 3,
} as const

/** What every series tells of its baseline and its limit. */
export const limitColumns: Column[] = [
  ...measuredColumns(baselineColumn).filter(({ for: reader }) => reader === 'work'),
  { id: 'baseline-caught', title: 'caught in the year before', unit: 'animals', decimals: 0, for: 'work' },
  {
    id: 'baseline-effort',
    title: 'effort in the year before',
    unit: 'trap-nights',
    decimals: 0,
    for: 'work',
  },
  { id: 'baseline-readings', title: 'days read in the year before', unit: 'days', decimals: 0, for: 'work' },
  {
    id: 'clumping',
    title: 'clumping (variance = mean + clumping × mean²)',
    unit: 'ratio',
    decimals: 2,
    for: 'work',
  },
  { id: 'allowed', title: 'allowed for in an average reading', unit: 'animals', decimals: 1, for: 'work' },
  { id: 'limit', title: 'limit of the sum', unit: 'animals', decimals: 1, for: 'work' },
  { id: 'run-length', title: 'readings to a false signal', unit: 'readings', decimals: 0, for: 'work' },
  {
    id: 'run-length-risen',
    title: 'readings to a signal once doubled',
    unit: 'readings',
    decimals: 1,
    for: 'work',
  },
  { id: 'readings', title: 'readings judged', unit: 'readings', decimals: 0, for: 'work' },
  { id: 'effort', title: 'effort judged', unit: 'trap-nights', decimals: 0, for: 'work' },
  { id: 'too-new', title: 'not compared, too few earlier readings', for: 'work' },
  { id: 'method', title: 'method', for: 'work' },
  { id: 'why', title: 'because', for: 'work' },
]

const method =
  'cumulative sum of catches (Lucas 1985) set for a doubling of the 80 % upper limit (Garwood 1936, counts divided by their dispersion) of the usual catch, place by place; average run length by an exact chain at even effort (Brook & Evans 1972)'

export function limitCells({
  baseline,
  limits,
  chosen,
  statedRunLength,
  readings,
  tooNew,
}: Watched): Record<string, Cell> {
  const rate = (baseline.count / baseline.effort) * 7
  const withAdded = ((baseline.count + 0.5) / baseline.effort) * 7
  return {
    ...measuredCells(baselineColumn, {
      value: rate,
      low: withAdded * limits.low,
      high: withAdded * limits.high,
    }),
    'baseline-caught': baseline.count,
    'baseline-effort': baseline.effort,
    'baseline-readings': baseline.readings,
    clumping: chosen.clumping,
    allowed: chosen.k,
    limit: chosen.h,
    'run-length': statedRunLength,
    'run-length-risen': chosen.runLengthOnceChanged,
    readings: readings.length,
    effort: readings.reduce((sum, { trapNights }) => sum + trapNights, 0),
    'too-new': tooNew.join(', ') || null,
    method,
  }
}

/** One decimal for small numbers, none for others; what would round to nothing is not called nothing. */
export function few(number: number): string {
  if (number > 0 && number < 0.05) return 'under 0.1'
  return number < 100 ? number.toFixed(1) : number.toFixed(0)
}

export function watchedTable(watched: readonly Watched[]): Table {
  const rows = [...watched].sort((a, b) => nearness(b) - nearness(a) || compareFacts(a, b))
  return {
    id: 'no-signal',
    title: 'No signal, nearest to its limit first',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'pest', title: 'pest' },
      { id: 'caught', title: 'caught', unit: 'animals', decimals: 0 },
      ...measuredColumns({ ...usualColumn, title: 'usual for these readings' }),
      { id: 'nearness', title: 'sum now, of its limit', unit: '%', decimals: 0 },
      ...limitColumns,
    ],
    shownToPeople: 8,
    rows: rows.map((one) => {
      const usual = one.readings.reduce((sum, reading) => sum + reading.usual, 0)
      return {
        cells: {
          site: one.facts.site,
          pest: pestName(one.facts.pest),
          caught: one.readings.reduce((sum, { count }) => sum + count, 0),
          ...measuredCells(usualColumn, {
            value: usual,
            low: usual * one.limits.low,
            high: usual * one.limits.high,
          }),
          nearness: nearness(one) * 100,
          ...limitCells(one),
          why: 'the sum of catches above what is allowed for never reached its limit',
        },
        records: filesOf([one.baselineFiles, ...one.readings.map(({ reading }) => reading.files)]),
      }
    }),
    empty: 'No series that could be judged is without a signal.',
  }
}

function nearness({ readings, chosen }: Watched): number {
  return (readings.at(-1)?.sum ?? 0) / chosen.h
}

export function notJudgedTable(notWatched: readonly NotWatched[]): Table {
  return {
    id: 'not-judged',
    title: 'Not judged: no all-clear',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'pest', title: 'pest' },
      { id: 'why', title: 'because' },
      { id: 'readings', title: 'days read, both years', unit: 'days', decimals: 0, for: 'work' },
    ],
    shownToPeople: 8,
    rows: [...notWatched].sort(compareFacts).map(({ facts, why }) => ({
      cells: { site: facts.site, pest: pestName(facts.pest), why, readings: facts.readings.length },
      records: filesOf(facts.readings.map(({ files }) => files)),
    })),
    empty: 'Every series that was read could be judged.',
  }
}

export function compareFacts(
  a: { readonly facts: { readonly site: string; readonly pest: string } },
  b: { readonly facts: { readonly site: string; readonly pest: string } },
): number {
  const key = ({ facts }: typeof a) => `${facts.site} ${facts.pest}`
  return key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0
}

export function filesOf(lists: readonly (readonly string[])[]): string[] {
  return [...new Set(lists.flat())].sort()
}

/** The sum of one series with its limit, and what happened. */
export function sumPlot(one: Watched, marks: Plot['marks'], from: number, to: number): Plot {
  return {
    id: `sum-${one.facts.site}-${one.facts.pest}`,
    title: `${pestName(one.facts.pest)}, ${one.facts.siteName}: sum of catches above what is allowed for`,
    unit: 'animals',
    from: isoOf(from),
    to: isoOf(to),
    points: one.readings.map(({ reading, sum }) => ({ day: isoOf(reading.day), value: sum })),
    line: {
      value: one.chosen.h,
      says: `limit (a false signal once in ${onceIn(one.statedRunLength)} readings)`,
    },
    marks,
  }
}

/** A run length in words that do not boast of digits it does not have. */
export function onceIn(readings: number): string {
  const whole = Number(Math.floor(readings).toPrecision(2))
  return whole >= 1e5 ? 'over 100,000' : String(whole).replace(/\B(?=(\d{3})+$)/, ',')
}
