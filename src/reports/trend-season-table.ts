import type { CatchObservation } from '../ledger/catch-series.js'
import { isoOf } from '../measure/calendar.js'
import type { ChangeWord } from '../measure/change-verdict.js'
import { exactRate } from '../measure/poisson-rate.js'
import type { Column, Row, Table } from '../types.js'
import { measuredCells, measuredColumns, measuredWords } from './measured.js'
import { pestName } from './pest-name.js'
import type { SeasonChange, TwoSeasons } from './trend-season.js'
import { compareSeries, reasonWords, unitInTitle, whereCells, whereColumns } from './trend-words.js'

const ratio = { id: 'times-as-many', title: 'times as many', unit: 'ratio of rates', decimals: 2 } as const
const rateNow = {
  id: 'now-per-trap-week',
  title: 'rate now',
  unit: 'per trap-week',
  decimals: 3,
} as const
const rateBefore = {
  id: 'before-per-trap-week',
  title: 'rate a year before',
  unit: 'per trap-week',
  decimals: 3,
} as const

const wordOrder: Record<ChangeWord, number> = { rose: 0, fell: 1, 'about the same': 2, 'cannot tell': 3 }

/** Each series in its last season against the same season a year before. */
export function sameSeasonTable(changes: readonly SeasonChange[], seasons: TwoSeasons): Table {
  const rows = changes
    .map((one) => ({ one, animals: animalsIn(one.now) + animalsIn(one.before) }))
    .sort(
      (a, b) =>
        wordOrder[a.one.word] - wordOrder[b.one.word] ||
        Number(b.one.change.estimable) - Number(a.one.change.estimable) ||
        b.animals - a.animals ||
        compareSeries(a.one, b.one),
    )
  const worthShowing = rows.filter(({ one }) => one.adjustedP !== null).length
  const days = ({ from, to }: TwoSeasons['now']) => `${isoOf(from)} to ${isoOf(to)}`
  return {
    id: 'same-season',
    title: `Against the same season a year before: caught in trap-nights, ${days(seasons.before)} and ${days(seasons.now)}`,
    columns: columns(),
    shownToPeople: Math.min(mostShown, Math.max(fewestShown, worthShowing)),
    rows: rows.map(({ one }) => seasonRow(one)),
    empty: 'No trap was read in the last season of this period, as far as was asked.',
  }
}

const mostShown = 12
const fewestShown = 3

function columns(): Column[] {
  const work = { for: 'work' } as const
  return unitInTitle([
    ...whereColumns,
    { id: 'pest', title: 'pest' },
    { id: 'change', title: 'change' },
    ...measuredColumns(ratio),
    { id: 'before-shown', title: 'a year before', for: 'people' },
    { id: 'now-shown', title: 'now', for: 'people' },
    ...measuredColumns(rateNow).filter((column) => column.for === 'work'),
    { id: 'now-caught', title: 'caught now', unit: 'animals', decimals: 0, ...work },
    { id: 'now-trap-nights', title: 'effort now', unit: 'trap-nights', decimals: 0, ...work },
    { id: 'now-readings', title: 'days read now', unit: 'days', decimals: 0, ...work },
    ...measuredColumns(rateBefore).filter((column) => column.for === 'work'),
    { id: 'before-caught', title: 'caught a year before', unit: 'animals', decimals: 0, ...work },
    { id: 'before-trap-nights', title: 'effort a year before', unit: 'trap-nights', decimals: 0, ...work },
    { id: 'before-readings', title: 'days read a year before', unit: 'days', decimals: 0, ...work },
    { id: 'dispersion', title: 'dispersion', unit: 'variance over mean', decimals: 2, ...work },
    { id: 'p-adjusted', title: 'adjusted p', unit: 'probability', decimals: 4, ...work },
    { id: 'method', title: 'method', ...work },
    { id: 'why', title: 'because', ...work },
  ])
}

function seasonRow(one: SeasonChange): Row {
  const { change, now, before } = one
  return {
    cells: {
      ...whereCells(one),
      pest: pestName(one.pest),
      change: one.word,
      ...measuredCells(
        ratio,
        change.estimable ? { value: change.ratio, low: change.lower, high: change.upper } : null,
      ),
      'times-as-many-shown': ratioWords(one),
      ...sideCells('now', now),
      ...sideCells('before', before),
      dispersion: change.estimable ? change.dispersion : null,
      'p-adjusted': one.adjustedP,
      method: `Ratio: exact conditional interval (Przyborowski & Wilenski 1940) of counts divided by their dispersion, clumping of ${one.clumpingOf}; p adjusted over the ledger (Benjamini & Hochberg 1995). Rates: exact interval (Garwood 1936).`,
      why: reasonWords[one.reason],
    },
    records: [...new Set([...before, ...now].flatMap(({ files }) => files))],
  }
}

/** Times as many that no one would tell from no limit at all. */
const asGoodAsUnlimited = 100

function ratioWords({ change, word }: SeasonChange): string | null {
  if (!change.estimable) return null
  const high = change.upper !== null && change.upper <= asGoodAsUnlimited ? change.upper : null
  if (word === 'cannot tell' && high === null && change.lower < 1) return 'too wide to tell'
  return measuredWords({ value: change.ratio, low: change.lower, high }, ratio.decimals)
}

function sideCells(side: 'now' | 'before', observations: readonly CatchObservation[]) {
  const caught = animalsIn(observations)
  const trapNights = observations.reduce((sum, observation) => sum + observation.trapNights, 0)
  const rate = exactRate(caught, trapNights)
  const { [`${side}-per-trap-week-shown`]: _, ...rateCells } = measuredCells(
    side === 'now' ? rateNow : rateBefore,
    rate && { value: rate.rate * 7, low: rate.lower * 7, high: rate.upper * 7 },
  )
  return {
    ...rateCells,
    [`${side}-shown`]: observations.length === 0 ? 'not read' : `${caught} in ${trapNights}`,
    [`${side}-caught`]: observations.length === 0 ? null : caught,
    [`${side}-trap-nights`]: trapNights,
    [`${side}-readings`]: observations.length,
  }
}

function animalsIn(observations: readonly CatchObservation[]): number {
  return observations.reduce((sum, { count }) => sum + count, 0)
}
