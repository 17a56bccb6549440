import type { Source } from '../files/source.js'
import type { CatchSeries } from '../ledger/catch-series.js'
import { catchSeriesOf } from '../ledger/catch-series.js'
import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { readLedger } from '../ledger/read-ledger.js'
import { couldTouch } from '../ledger/things-done.js'
import { isoOf } from '../measure/calendar.js'
import { changeSettings } from '../measure/change-verdict.js'
import type { PlotMark, Report, Table } from '../types.js'
import { catchByMonthTable, catchPlot, markOf } from './catch-plot.js'
import type { AreaCatch, DoneAtSite } from './effect-collect.js'
import { areaCatchesOf, doneAt } from './effect-collect.js'
import { occasionsOf } from './effect-compare.js'
import type { DoneAndJudged } from './effect-headline.js'
import { headlineOf, isJudged, whyNotJudged } from './effect-headline.js'
import type { JudgedOccasion } from './effect-judge.js'
import { fewestAnimals, judgeOccasions } from './effect-judge.js'
import { poolByTactic } from './effect-pooled.js'
import { pooledTable } from './effect-pooled-table.js'
import type { EffectRow } from './effect-tables.js'
import { effectTable } from './effect-tables.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'

export interface EffectOptions extends ReportOptions {
  /** Days before and after each event that are compared. */
  readonly window: number
}

/** So many areas are drawn, those with most of what was done. */
const mostPlots = 4

/**
 * Did it work? For every treatment, repair and other action of a period (the year up to the as-of day if not said) and
 * every pest it could touch that is trapped for in its areas: the catch in a window of days before, and after; against
 * comparable untreated areas where there are any; and pooled by tactic. The false discovery rate is held over all of the
 * ledger before any filter is applied. Readings before the period are used; those after the as-of day are not there.
 */
export function effectReport(source: Source, options: EffectOptions): Report {
  const period = periodOf(options)
  const { window } = options
  const reach = { from: period.from - 2 * window, to: period.to + window }
  const catches: AreaCatch[] = []
  const done: DoneAtSite[] = []
  const drawn: CatchSeries[] = []
  const read = readLedger(source, options, (view) => {
    done.push(doneAt(view, reach))
    catches.push(...areaCatchesOf(view, reach))
    if (view.id === options.site && options.pest !== undefined)
      drawn.push(...catchSeriesOf(view, period.from, period.to).filter(({ pest }) => pest === options.pest))
  })
  const occasions = occasionsOf(catches, done, period, window)
  const judged = judgeOccasions(occasions)
  const pools = poolByTactic(occasions).filter(
    ({ pest }) => options.pest === undefined || pest === options.pest,
  )
  const wanted = wantedOf(done, judged, options)
  const rows = wanted.flatMap((one) => one.rows)
  const { plots, tables } = plotsOf(drawn, rows, period)
  const compared = judged.filter(({ isTested }) => isTested).length
  return {
    report: 'effect',
    title: 'Did it work?',
    headline: `${headlineOf(wanted, pools, read.notChecked.length > 0)}.`,
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [
      { label: 'done in this period', value: String(wanted.length) },
      { label: 'of these can be judged', value: String(wanted.filter(isJudged).length) },
      { label: 'compared', value: `${window} days before and ${window} days after` },
    ],
    tables: [effectTable(rows), pooledTable(pools), notJudgedTable(wanted), ...tables],
    ...(plots.length > 0 ? { plots } : {}),
    cautions: [...cutCautions(options), ...cautionsOf(compared)],
    notExamined: notExaminedOf(read),
    incomplete: read.notChecked.length > 0,
  }
}

/** What was done in the period and is asked for, with the rows of the areas and pests it could touch. */
function wantedOf(
  done: readonly DoneAtSite[],
  judged: readonly JudgedOccasion[],
  options: EffectOptions,
): DoneAndJudged[] {
  const { from, to } = periodOf(options)
  const rowsOf = new Map<object, EffectRow[]>()
  for (const one of judged)
    for (const thing of one.occasion.things)
      if (isWanted(one.occasion.catches, options))
        getOrMake(rowsOf, thing, () => []).push({ thing, judged: one })
  return done
    .filter(({ site }) => options.site === undefined || site === options.site)
    .flatMap(({ things }) => things)
    .filter(({ day }) => from <= day && day <= to)
    .filter((thing) => options.pest === undefined || couldTouch(thing, options.pest))
    .map((thing) => ({ thing, rows: rowsOf.get(thing) ?? [] }))
}

function notJudgedTable(wanted: readonly DoneAndJudged[]): Table {
  const byWhy = new Map<string, string[][]>()
  for (const one of wanted)
    if (!isJudged(one)) getOrMake(byWhy, whyNotJudged(one), () => []).push([...one.thing.files])
  return {
    id: 'not-judged',
    title: 'Done, and not to be judged',
    columns: [
      { id: 'why', title: 'because' },
      { id: 'things', title: 'treatments, repairs and other actions', decimals: 0 },
    ],
    rows: [...byWhy]
      .sort(([a, ofA], [b, ofB]) => ofB.length - ofA.length || compareText(a, b))
      .map(([why, files]) => ({
        cells: { why, things: files.length },
        records: [...new Set(files.flat())].sort(),
      })),
    empty: 'All that was done can be judged.',
  }
}

function plotsOf(
  drawn: readonly CatchSeries[],
  rows: readonly EffectRow[],
  { from, to }: { readonly from: number; readonly to: number },
): { readonly plots: Report['plots'] & object; readonly tables: readonly Table[] } {
  const marksOf = ({ area }: CatchSeries): PlotMark[] =>
    rows
      .filter(({ judged }) => judged.occasion.catches.area === area)
      .map(({ thing }) => ({ ...markOf(thing), says: `${thing.tactic}: ${thing.says}` }))
      .sort((a, b) => compareText(a.day, b.day) || compareText(a.says, b.says))
  const chosen = drawn
    .map((series) => ({ series, marks: marksOf(series) }))
    .filter(({ marks }) => marks.length > 0)
    .sort((a, b) => b.marks.length - a.marks.length)
    .slice(0, mostPlots)
  return {
    plots: chosen.map(({ series, marks }) => catchPlot(series, marks, from, to)),
    tables:
      chosen.length === 0
        ? []
        : [
            catchByMonthTable(
              chosen.map(({ series }) => series),
              from,
              to,
            ),
          ],
  }
}

function cautionsOf(compared: number): string[] {
  return [
    'After is not because. Things are done when catches are high, and what is high by chance falls by itself (regression to the mean); seasons pass too. So the last reading before, and any of the week before, is left out where there is another one, since it may have led to what was done: a high spell that lasts longer is not allowed for.',
    'Compared are only devices read both before and after, and only readings whose whole interval lies on one side. What else was done there in these days (+) cannot be told apart. Repairs are held against every pest trapped for in their area.',
    'Where untreated areas are counted, the number is the change divided by theirs in the same days: areas of the same kind, trapped for the same pest, where nothing was done against it. Elsewhere a season or the weather may be what is seen.',
    `Fell and rose allow for clumped catches and hold the false discovery rate at ${changeSettings.significance * 100} % over ${compared} comparisons of the ledger in this period, whatever is filtered; about the same means surely within a factor of ${changeSettings.sameWithin}; all else cannot be told (anything: the readings rule nothing out). Fewer than ${fewestAnimals} animals are not tested.`,
    'What works here pools cases with a catch and with a reading left out, at least three of them, each weighed by the square root of its animals; cases close in time share readings.',
    'No figure here is a reason to apply anything: the label, local code, your plan and a licensed applicator, where one is required, decide that.',
  ]
}
