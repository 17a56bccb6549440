import type { CatchObservation } from '../ledger/catch-series.js'
import { addMonths, civilOf } from '../measure/calendar.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import type { MannKendall } from '../measure/mann-kendall.js'
import { mannKendall } from '../measure/mann-kendall.js'
import type { SeasonalMannKendall, SeasonalValue } from '../measure/seasonal-mann-kendall.js'
import { seasonalMannKendall } from '../measure/seasonal-mann-kendall.js'
import type { TheilSen } from '../measure/theil-sen.js'
import { theilSen } from '../measure/theil-sen.js'
import { verdictSettings } from '../measure/verdict.js'
import type { Period } from './period.js'

/** Which way a series goes by the order of its readings alone. */
export type Direction = 'up' | 'down' | 'neither' | 'months differ' | 'cannot tell'

/** What the order of the readings says of a series, without a model: a check of the verdict, not part of it. */
export interface RankCheck {
  readonly kendall: MannKendall
  /** Of catch per trap-night, per day. */
  readonly slope: TheilSen
  readonly direction: Direction
  readonly adjustedP: number | null
  /** Each calendar month against itself in other years, catch per trap-night; null in periods under two years. */
  readonly seasonal: SeasonalMannKendall | null
  readonly seasonalDirection: Direction | null
  readonly seasonalAdjustedP: number | null
}

/**
 * The order of the readings of each series (Mann 1945, Kendall 1975; Sen 1968), and of each calendar month over the
 * years where the period holds two (Hirsch, Slack & Smith 1982). p is adjusted over the series for which `isTested` is
 * true: those of the whole ledger that the verdict tests too.
 */
export function rankChecks(
  all: readonly (readonly CatchObservation[])[],
  isTested: (at: number) => boolean,
  period: Period,
): RankCheck[] {
  const rates = all.map(ratesOf)
  const kendalls = rates.map(mannKendall)
  const adjusted = benjaminiHochberg(kendalls.map((kendall, at) => (isTested(at) ? orderP(kendall) : null)))
  const seasonals = all.map((observations) =>
    coversTwoYears(period) ? seasonalMannKendall(monthlyRates(observations)) : null,
  )
  const seasonalAdjusted = benjaminiHochberg(
    seasonals.map((one, at) => (one?.estimable && isTested(at) ? one.p : null)),
  )
  return rates.map((series, at) => {
    const kendall = kendalls[at] ?? { estimable: false, reason: 'too-few-readings' }
    const seasonal = seasonals[at] ?? null
    const adjustedP = adjusted[at] ?? null
    const seasonalAdjustedP = seasonalAdjusted[at] ?? null
    return {
      kendall,
      slope: theilSen(series),
      direction: directionOf(kendall, adjustedP),
      adjustedP,
      seasonal,
      seasonalDirection: seasonal && seasonalDirectionOf(seasonal, seasonalAdjustedP),
      seasonalAdjustedP,
    }
  })
}

/** Whether two of each calendar month are in a period. */
export function coversTwoYears({ from, to }: Period): boolean {
  return addMonths(from, 24) - 1 <= to
}

/** Catch per trap-night at each day read; equal rates are equal numbers, so that ties are seen as ties. */
function ratesOf(observations: readonly CatchObservation[]) {
  return observations.map(({ day, count, trapNights }) => ({ time: day, value: count / trapNights }))
}

function monthlyRates(observations: readonly CatchObservation[]): SeasonalValue[] {
  const months = new Map<number, { year: number; season: number; count: number; trapNights: number }>()
  for (const { day, count, trapNights } of observations) {
    const { year, month } = civilOf(day)
    const sums = months.get(year * 12 + month)
    if (sums) {
      sums.count += count
      sums.trapNights += trapNights
    } else months.set(year * 12 + month, { year, season: month, count, trapNights })
  }
  return [...months.values()].map(({ year, season, count, trapNights }) => ({
    year,
    season,
    value: count / trapNights,
  }))
}

/** The exact p where there is one; the normal approximation with ties, or with more than fifty readings. */
export function orderP(kendall: MannKendall): number | null {
  return kendall.estimable ? (kendall.pExact ?? kendall.p) : null
}

function directionOf(kendall: MannKendall, adjustedP: number | null): Direction {
  if (!kendall.estimable || adjustedP === null) return 'cannot tell'
  if (adjustedP > verdictSettings.significance || kendall.s === 0) return 'neither'
  return kendall.s > 0 ? 'up' : 'down'
}

/** Months that go different ways have no direction together (van Belle & Hughes 1984). */
function seasonalDirectionOf(seasonal: SeasonalMannKendall, adjustedP: number | null): Direction {
  if (!seasonal.estimable || adjustedP === null) return 'cannot tell'
  if (seasonal.homogeneity !== null && seasonal.homogeneity.p <= verdictSettings.significance)
    return 'months differ'
  if (adjustedP > verdictSettings.significance || seasonal.s === 0) return 'neither'
  return seasonal.s > 0 ? 'up' : 'down'
}

/** Whether the order of the readings goes the other way than a verdict of rising or falling. */
export function goesTheOtherWay(verdict: string, { kendall }: RankCheck): boolean {
  if (!kendall.estimable) return false
  return (verdict === 'rising' && kendall.s < 0) || (verdict === 'falling' && kendall.s > 0)
}
