import type { CatchSeries } from '../ledger/catch-series.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { countLaw } from '../measure/count-law.js'
import type { CatchReading } from '../measure/effective-counts.js'
import { clumpingAbout } from '../measure/effective-counts.js'
import { exposureNeededToNotice } from '../measure/exposure-to-notice.js'
import type { Day } from '../types.js'
import type { Watch } from './coverage-collect.js'

/** A rise is noticed when this chance of catching at least one animal is reached. */
export const chanceWanted = 0.95

/** More traps than this in one area are no answer: then where they stand, and what else is looked at, is the question. */
export const mostTrapsToAdd = 20

/** Fewer animals, or readings beyond the first of each stretch, tell too little of how a pest clumps. */
const fewestAnimals = 20
const fewestDegreesOfFreedom = 10

/** Days within which the rate of one area is taken not to change, so that season and outbreaks do not pass for clumping. */
const blockDays = 91

export interface PooledClumping {
  /** The c of variance = mean + c · mean²; 0 where it cannot be told. */
  readonly perMean: number
  readonly known: boolean
  readonly animals: number
}

/**
 * How the catches of each pest clump, pooled over all areas of the ledger, about the mean of each area in each 91 days.
 * Only stretches with two animals or more are handed in: one animal cannot clump, and none would be taken as evenly spread.
 * With so few readings in a stretch the moments lean low, and what changes within 91 days leans them high.
 */
export function clumpingByPest(series: readonly CatchSeries[], from: Day): Map<string, PooledClumping> {
  const byPest = new Map<string, CatchReading[][]>()
  for (const { pest, observations } of series) {
    const blocks = new Map<number, CatchReading[]>()
    for (const { day, count, trapNights } of observations)
      getOrMake(blocks, Math.floor((day - from) / blockDays), () => []).push({ count, effort: trapNights })
    getOrMake(byPest, pest, () => []).push(...[...blocks.values()].filter((block) => animalsIn(block) >= 2))
  }
  const pooled = new Map<string, PooledClumping>()
  for (const [pest, blocks] of byPest) {
    const clumping = clumpingAbout(blocks)
    const animals = animalsIn(blocks.flat())
    const known =
      clumping !== null && animals >= fewestAnimals && clumping.degreesOfFreedom >= fewestDegreesOfFreedom
    pooled.set(pest, { perMean: known ? clumping.perMean : 0, known, animals })
  }
  return pooled
}

const animalsIn = (readings: readonly CatchReading[]) => readings.reduce((sum, { count }) => sum + count, 0)

/** Whether one check of an area would show that the rate stands just at the threshold. */
export interface ChanceToNotice {
  readonly rate: number
  readonly nights: number
  /** Trap-nights of all traps of the area from one check to the next. */
  readonly effort: number
  readonly expected: number
  /** Of catching at least one, with catches as clumped as they are in this ledger, and if they did not clump. */
  readonly chance: number
  readonly chanceUnclumped: number
  /** Of catching so many that the reading itself is at the threshold. */
  readonly chanceAtThreshold: number
  readonly enough: boolean
  /** Traps to add for the chance wanted, at the present interval; null when more than can be advised. */
  readonly toAdd: number | null
  /** Nights in which the present traps have that chance; null without traps, or when beyond all measure. */
  readonly nightsNeeded: number | null
  readonly clumping: PooledClumping
}

/**
 * Null where no plan states a rate of a trap for the area, where one animal is enough (no statistics delay that), or where
 * nothing tells how often the devices are read. A week is the least that is looked at where the plan counts by the week.
 */
export function chanceToNotice(watch: Watch, clumping: PooledClumping | undefined): ChanceToNotice | null {
  const { plan, interval, traps } = watch
  if (!plan?.perTrap || plan.onOne || !interval) return null
  const { rate, fewestNights } = plan.perTrap
  const known = clumping ?? { perMean: 0, known: false, animals: 0 }
  const nights = Math.max(interval.nights, fewestNights)
  const effort = traps * nights
  const expected = rate * effort
  if (!Number.isFinite(expected)) return null
  const needed = exposureNeededToNotice(rate, known.perMean, chanceWanted)
  const more = needed === null ? null : Math.max(0, wholeAtLeast(needed / nights) - traps)
  const atLeast = (count: number, perMean: number) =>
    expected > 0 ? countLaw(expected, perMean).atLeast(count) : 0
  return {
    rate,
    nights,
    effort,
    expected,
    chance: atLeast(1, known.perMean),
    chanceUnclumped: atLeast(1, 0),
    chanceAtThreshold: atLeast(Math.max(1, wholeAtLeast(expected)), known.perMean),
    enough: more === 0,
    toAdd: more !== null && more <= mostTrapsToAdd ? more : null,
    nightsNeeded: needed === null || traps === 0 ? null : finiteOrNull(wholeAtLeast(needed / traps)),
    clumping: known,
  }
}

/** The smallest whole number that is not below; what only rounding puts above one is that one. */
function wholeAtLeast(number: number): number {
  return Math.ceil(number * (1 - 1e-12))
}

const finiteOrNull = (number: number) => (Number.isFinite(number) ? number : null)
