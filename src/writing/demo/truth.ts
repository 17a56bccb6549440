import type { Day } from '../../types.js'
import type { Series } from './rates.js'
import { rateOf } from './rates.js'

export type Outcome = 'works' | 'works for a while' | 'does not work'

/** Something done against a pest, and what it truly did. */
export interface Treatment {
  readonly day: Day
  readonly area: string
  readonly pest: string
  /** What was done: gel, ant-bait, dust, nest-treatment, trapping, cleaning, … */
  readonly what: string
  readonly outcome: Outcome
  /** Fall of the log-rate a day while it works; 0 when it does not. */
  readonly fall: number
}

/** A repair, and by how much it truly changed the log-rate of the pests of its area; 0 when it changed nothing. */
export interface RepairEffect {
  readonly day: Day
  readonly condition: string
  readonly area: string
  readonly log: number
}

/** What the spoiling pass did to a ledger that is not clean. */
export interface Spoilt {
  readonly what: string
  readonly site: string
  readonly day: Day
  readonly detail: string
}

export interface SiteTruth {
  readonly site: string
  readonly series: readonly Series[]
  readonly treatments: Treatment[]
  readonly repairs: RepairEffect[]
}

/** What the model knows and the records do not say. Complete once every commit has been drawn from the ledger. */
export interface DemoTruth {
  readonly from: Day
  readonly until: Day
  readonly sites: SiteTruth[]
  readonly spoilt: Spoilt[]
}

/** Expected animals per trap-night of a device of efficiency 1; undefined where the model has no such pest. */
export function expectedRate(
  truth: DemoTruth,
  site: string,
  area: string,
  pest: string,
  day: Day,
): number | undefined {
  const series = seriesOf(truth, site, area, pest)
  return series && rateOf(series, day)
}

/** The same for every day of the ledger, the first one first; zeros where the model has no such pest. */
export function expectedRates(truth: DemoTruth, site: string, area: string, pest: string): Float64Array {
  const series = seriesOf(truth, site, area, pest)
  return Float64Array.from({ length: truth.until - truth.from + 1 }, (_, place) =>
    series ? rateOf(series, truth.from + place) : 0,
  )
}

function seriesOf(truth: DemoTruth, site: string, area: string, pest: string): Series | undefined {
  return truth.sites
    .find((candidate) => candidate.site === site)
    ?.series.find((candidate) => candidate.area === area && candidate.pest === pest)
}
