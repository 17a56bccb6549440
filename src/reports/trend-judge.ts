import type { CatchSeries } from '../ledger/catch-series.js'
import { rateWithClumping } from '../measure/clumped-rate.js'
import type { CountTrend } from '../measure/count-trend.js'
import { trendOf } from '../measure/count-trend.js'
import type { CatchReading, Clumping } from '../measure/effective-counts.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import type { RateInterval } from '../measure/poisson-rate.js'
import type { Verdict, VerdictReason } from '../measure/verdict.js'
import { verdictOf, verdictSettings } from '../measure/verdict.js'
import { clumpingByPest, clumpingFor, readingsOf } from './clumping.js'
import type { Period } from './period.js'
import type { RankCheck } from './trend-ranks.js'
import { rankChecks } from './trend-ranks.js'

export interface Judged {
  readonly series: CatchSeries
  readonly count: number
  readonly trapNights: number
  /** Per trap-night, allowing for clumped catches. */
  readonly rate: RateInterval | null
  readonly trend: CountTrend
  readonly verdict: Verdict
  readonly reason: VerdictReason | 'too-few-animals'
  readonly adjustedP: number | null
  readonly ranks: RankCheck
}

/**
 * Series with fewer animals in all are not tested: no trend could be made out in them, and each test more makes it
 * harder to be sure of the others. A total says nothing of where a series is going, so choosing by it keeps the false
 * discovery rate (Bourgon R, Gentleman R, Huber W 2010, PNAS 107:9546, from memory; measured in measure/README.md).
 */
export const fewestAnimals = 10

const tooFewAnimals = { verdict: 'unclear', reason: 'too-few-animals' } as const

const sum = (numbers: readonly number[]) => numbers.reduce((total, number) => total + number, 0)

/** The verdict on every series of the ledger in a period, and beside it what the order of the readings says. */
export function judge(all: readonly CatchSeries[], period: Period): Judged[] {
  const trends = all.map((series) =>
    trendOf(series.observations.map(({ day, count, trapNights }) => ({ day, count, exposure: trapNights }))),
  )
  const counts = all.map((series) => sum(series.observations.map((observation) => observation.count)))
  const isEnough = (at: number) =>
    (all[at]?.observations.length ?? 0) >= verdictSettings.fewestReadings &&
    (counts[at] ?? 0) >= fewestAnimals
  const adjusted = benjaminiHochberg(
    trends.map((trend, at) => (trend.estimable && isEnough(at) ? trend.p : null)),
  )
  const ranks = rankChecks(
    all.map(({ observations }) => observations),
    isEnough,
    period,
  )
  const read = all.map(({ pest, observations }) => ({ pest, groups: [readingsOf(observations)] as const }))
  const byPest = clumpingByPest(read)
  return all.flatMap((series, at) => {
    const trend = trends[at]
    const check = ranks[at]
    if (!trend || !check) return []
    const count = counts[at] ?? 0
    const adjustedP = adjusted[at] ?? null
    const judged = verdictOf(trend, adjustedP, series.observations.length)
    return {
      series,
      count,
      trapNights: sum(series.observations.map((observation) => observation.trapNights)),
      rate: rateOf(read[at]?.groups[0] ?? [], byPest.get(series.pest) ?? null),
      trend,
      ...(trend.estimable && count < fewestAnimals ? tooFewAnimals : judged),
      adjustedP,
      ranks: check,
    }
  })
}

function rateOf(readings: readonly CatchReading[], ofPest: Clumping | null): RateInterval | null {
  return rateWithClumping(readings, clumpingFor([readings], ofPest).clumping)
}
