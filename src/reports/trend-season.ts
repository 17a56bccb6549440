import type { CatchObservation } from '../ledger/catch-series.js'
import { catchSeriesOf } from '../ledger/catch-series.js'
import type { SiteView } from '../ledger/site-view.js'
import type { BeforeAfter, NoChangeReason } from '../measure/before-after.js'
import { beforeAfter } from '../measure/before-after.js'
import { addMonths } from '../measure/calendar.js'
import type { ChangeReason, ChangeWord } from '../measure/change-verdict.js'
import { changeVerdict } from '../measure/change-verdict.js'
import { benjaminiHochberg } from '../measure/false-discovery.js'
import { clumpingByPest, clumpingFor, readingsOf } from './clumping.js'
import type { Period } from './period.js'
import { fewestAnimals } from './trend-judge.js'

/** The last days of a period, and the same days of the calendar a year before. */
export interface TwoSeasons {
  readonly now: Period
  readonly before: Period
}

const seasonDays = 90

/** The last 90 days of a period, or the whole of a shorter one. */
export function twoSeasonsOf({ from, to }: Period): TwoSeasons {
  const now = { from: Math.max(from, to - seasonDays + 1), to }
  return { now, before: { from: addMonths(now.from, -12), to: addMonths(now.to, -12) } }
}

/** What one series caught on the days read of both seasons; `before` is empty where none was read. */
export interface SeasonPair {
  readonly site: string
  readonly area: string
  readonly pest: string
  readonly now: readonly CatchObservation[]
  readonly before: readonly CatchObservation[]
}

/** The series of a site that have a reading in the season now. */
export function seasonPairsOf(view: SiteView, { now, before }: TwoSeasons): SeasonPair[] {
  const earlier = new Map(
    catchSeriesOf(view, before.from, before.to).map((series) => [`${series.area} ${series.pest}`, series]),
  )
  return catchSeriesOf(view, now.from, now.to).map(({ site, area, pest, observations }) => ({
    site,
    area,
    pest,
    now: observations,
    before: earlier.get(`${area} ${pest}`)?.observations ?? [],
  }))
}

export interface SeasonChange extends SeasonPair {
  /** Now over a year before. */
  readonly change: BeforeAfter
  readonly word: ChangeWord
  readonly reason: ChangeReason<NoChangeReason> | 'too-few-animals'
  readonly adjustedP: number | null
  /** Whose clumping was used. */
  readonly clumpingOf: 'this series' | 'the series of the pest with ten animals'
}

/**
 * Each series now against itself a year before: ratio of rates with its exact conditional interval, clumping allowed
 * for. Few readings tell little of how catches clump, so then that of all series of the pest that are tested is used. p
 * is adjusted over all series of the ledger that are compared and caught ten animals in both seasons together: of
 * fewer the interval is never tight, and the ratio is judged given their total, so choosing by it favours neither side.
 */
export function judgeSeasons(pairs: readonly SeasonPair[]): SeasonChange[] {
  const read = pairs.map((pair) => ({
    pair,
    pest: pair.pest,
    groups: [readingsOf(pair.before), readingsOf(pair.now)] as const,
  }))
  const byPest = clumpingByPest(read)
  const judged = read.map(({ pair, pest, groups }) => {
    const { clumping, isOfPest } = clumpingFor(groups, byPest.get(pest) ?? null)
    return {
      pair,
      change: beforeAfter(...groups, clumping ? { clumping } : {}),
      clumpingOf: isOfPest ? ('the series of the pest with ten animals' as const) : ('this series' as const),
    }
  })
  const isEnough = (change: BeforeAfter) =>
    change.estimable && change.before.count + change.after.count >= fewestAnimals
  const adjusted = benjaminiHochberg(
    judged.map(({ change }) => (change.estimable && isEnough(change) ? change.p : null)),
  )
  return judged.map(({ pair, change, clumpingOf }, at) => {
    const adjustedP = adjusted[at] ?? null
    const verdict = changeVerdict<NoChangeReason>(change, adjustedP)
    const tooFew = change.estimable && !isEnough(change) && verdict.word === 'cannot tell'
    return {
      ...pair,
      change,
      clumpingOf,
      adjustedP,
      ...(tooFew ? ({ word: 'cannot tell', reason: 'too-few-animals' } as const) : verdict),
    }
  })
}
