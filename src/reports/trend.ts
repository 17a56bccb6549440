import type { Source } from '../files/source.js'
import type { CatchSeries } from '../ledger/catch-series.js'
import { catchSeriesOf } from '../ledger/catch-series.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import type { Report } from '../types.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'
import { trendCautions } from './trend-cautions.js'
import { trendHeadline } from './trend-headline.js'
import { judge } from './trend-judge.js'
import type { BesideTheCatch } from './trend-plots.js'
import { besideTheCatch, trendPlots } from './trend-plots.js'
import type { SeasonPair } from './trend-season.js'
import { judgeSeasons, seasonPairsOf, twoSeasonsOf } from './trend-season.js'
import { sameSeasonTable } from './trend-season-table.js'
import { noneCaughtTable, trendTable } from './trend-tables.js'
import type { TrapCatch } from './trend-traps.js'
import { trapCatchesOf } from './trend-traps.js'
import { trapIndexTable } from './trend-traps-table.js'

/**
 * Is it getting better? Catch per trap-night of every pest in every area that is trapped for it, over a period (the
 * year up to the as-of day if not said), with exact intervals, a verdict, and what the order of the readings says
 * without a model; the last season against the same a year before; and catches of traps corrected for those found
 * sprung. The false discovery rate is held over every series of the ledger in the period before any filter is applied.
 */
export function trendReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const seasons = twoSeasonsOf(period)
  const all: CatchSeries[] = []
  const pairs: SeasonPair[] = []
  const traps: TrapCatch[] = []
  const beside: BesideTheCatch[] = []
  const read = readLedger(source, options, (view) => {
    all.push(...catchSeriesOf(view, period.from, period.to))
    pairs.push(...seasonPairsOf(view, seasons))
    traps.push(...trapCatchesOf(view, period))
    beside.push(...besideTheCatch(view, options, period))
  })
  const shown = judge(all, period).filter(({ series }) => isWanted(series, options))
  const changes = judgeSeasons(pairs).filter((change) => isWanted(change, options))
  const catches = traps.filter((one) => isWanted(one, options))
  const drawn = trendPlots(shown, beside, period)
  return {
    report: 'trend',
    title: 'Is it getting better?',
    headline: trendHeadline(shown, changes),
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [
      trendTable(
        shown.filter(({ count }) => count > 0),
        period,
      ),
      sameSeasonTable(changes, seasons),
      noneCaughtTable(shown.filter(({ count }) => count === 0)),
      trapIndexTable(catches),
      ...drawn.tables,
    ],
    ...(drawn.plots.length > 0 ? { plots: drawn.plots } : {}),
    cautions: [
      ...trendCautions({ period, seasons, seriesOfLedger: all.length, shown, catches }),
      ...drawn.cautions,
      ...cutCautions(options),
    ],
    notExamined: notExaminedOf(read),
    incomplete: read.notChecked.length > 0,
  }
}
