import type { ChangeInterval } from './before-after.js'
import {
  allCounts,
  type CatchReading,
  type CatchTotal,
  type Clumping,
  canBeDrawn,
  clumpingAbout,
  divisorOf,
  largestDispersion,
  oddsLimits,
  readingsWithEffort,
  shareP,
  totalOf,
} from './effective-counts.js'
import { type ProportionInterval, wilson } from './proportion.js'
import { type RandomEffects, randomEffects } from './random-effects.js'
import { studentCriticalValue, studentTwoSidedP } from './special-functions.js'

/** The readings before and after one event. */
export interface ChangeEvent {
  before: readonly CatchReading[]
  after: readonly CatchReading[]
}

export type NoPooledReason = 'not-a-count' | 'too-few-events' | 'too-few-readings' | 'out-of-range'

/** What was counted and what was not. */
export interface PooledEvents {
  /** Events with effort before and after, and at least one animal. */
  events: number
  withoutEffort: number
  noneCaught: number
  /** Events after which the rate was lower, as a share of those counted (Wilson 1927); null without any. */
  fell: (ProportionInterval & { events: number }) | null
}

export type PooledEffect = PooledEvents &
  (
    | { estimable: false; reason: NoPooledReason }
    | ({
        estimable: true
        /** Rate after over rate before, over all events; null when nothing was caught before any of them. */
        ratio: number | null
        /** How far events differ, from those with animals on both sides; null with fewer than three of them. */
        between: RandomEffects | null
        dispersion: number
      } & ChangeInterval)
  )

interface Pair {
  before: CatchTotal
  after: CatchTotal
}

/**
 * Mantel & Haenszel's two terms of one event, whose quotient over all events is the pooled ratio, divided by the
 * square root of its animals: so one large event does not drown the others, and events vary alike when only
 * chance in counting sets them apart.
 */
function termsOf({ before, after }: Pair) {
  const scale = (before.effort + after.effort) * Math.sqrt(before.count + after.count)
  return { after: (after.count * before.effort) / scale, before: (before.count * after.effort) / scale }
}

/** Mean, variance of the mean, and covariance of the means of the two terms. */
function momentsOf(pairs: readonly Pair[]) {
  const n = pairs.length
  const terms = pairs.map(termsOf)
  const after = terms.reduce((sum, one) => sum + one.after, 0) / n
  const before = terms.reduce((sum, one) => sum + one.before, 0) / n
  let [ofAfter, ofBefore, ofBoth] = [0, 0, 0]
  for (const one of terms) {
    ofAfter += (one.after - after) ** 2
    ofBefore += (one.before - before) ** 2
    ofBoth += (one.after - after) * (one.before - before)
  }
  const per = n * (n - 1)
  return { after, before, ofAfter: ofAfter / per, ofBefore: ofBefore / per, ofBoth: ofBoth / per }
}

/**
 * Fieller EC (1954) J. R. Statist. Soc. B 16:175–185: the ratios for which the terms do not differ from
 * their balance by more than t standard errors, the standard error taken from how events differ. No upper limit when
 * the catch before does not surely differ from zero, none from below likewise.
 */
function betweenEvents(pairs: readonly Pair[], confidence: number): ChangeInterval {
  const { after, before, ofAfter, ofBefore, ofBoth } = momentsOf(pairs)
  const t2 = studentCriticalValue(confidence, pairs.length - 1) ** 2
  const square = before ** 2 - t2 * ofBefore
  const cross = after * before - t2 * ofBoth
  const plain = after ** 2 - t2 * ofAfter
  const root = Math.sqrt(Math.max(0, cross ** 2 - square * plain))
  const away = after - before
  const spread = ofAfter + ofBefore - 2 * ofBoth
  // Rounding leaves a trace where all events balance alike.
  const exact = spread <= 1e-24 * (after + before) ** 2
  const p = exact ? (away === 0 ? 1 : 0) : studentTwoSidedP(away / Math.sqrt(spread), pairs.length - 1)
  return {
    // plain/(cross + root) is (cross − root)/square without cancellation.
    lower: plain <= 0 ? 0 : plain / (cross + root),
    upper: square <= 0 ? null : (cross + root) / square,
    p,
  }
}

/** Mean chance, over all animals, of having been caught after, at a given ratio. */
function meanShare(pairs: readonly Pair[], ratio: number): number {
  let sum = 0
  let animals = 0
  for (const { before, after } of pairs) {
    const count = before.count + after.count
    const weighted = ratio * after.effort
    sum += count * (weighted / (weighted + before.effort))
    animals += count
  }
  return sum / animals
}

/** The ratio at which that mean chance has the given odds; it rises with the ratio. */
function ratioAtOdds(pairs: readonly Pair[], odds: number): number {
  const share = odds / (1 + odds)
  let low = Infinity
  let high = 0
  for (const { before, after } of pairs) {
    low = Math.min(low, (odds * before.effort) / after.effort)
    high = Math.max(high, (odds * before.effort) / after.effort)
  }
  for (let i = 0; i < 200 && high - low > 1e-13 * high; i += 1) {
    const middle = (low + high) / 2
    if (meanShare(pairs, middle) < share) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * The exact conditional interval of one common ratio, on effective counts: given each event's total, the animals
 * caught after are trials of unequal chance, whose tails are no heavier than the binomial's of their mean chance
 * (Hoeffding W 1956, Ann. Math. Statist. 27:713–721).
 */
function withinEvents(pairs: readonly Pair[], divisor: number, confidence: number): ChangeInterval {
  const after = pairs.reduce((sum, pair) => sum + pair.after.count, 0) / divisor
  const before = pairs.reduce((sum, pair) => sum + pair.before.count, 0) / divisor
  const odds = oddsLimits(after, before, confidence)
  return {
    lower: odds.lower === 0 ? 0 : ratioAtOdds(pairs, odds.lower),
    upper: odds.upper === null ? null : ratioAtOdds(pairs, odds.upper),
    p: shareP(after, before, meanShare(pairs, 1)),
  }
}

function spreadOf(pairs: readonly Pair[], divisor: number, confidence: number): RandomEffects | null {
  const both = pairs.filter(({ before, after }) => before.count > 0 && after.count > 0)
  if (both.length < 3) return null
  return randomEffects(
    both.map(({ before, after }) => ({
      value: Math.log(after.count / after.effort) - Math.log(before.count / before.effort),
      variance: divisor * (1 / after.count + 1 / before.count),
    })),
    { confidence, neverNarrower: true },
  )
}

function counted(events: readonly ChangeEvent[]) {
  const withEffort = events
    .map(({ before, after }) => ({ before: readingsWithEffort(before), after: readingsWithEffort(after) }))
    .filter(({ before, after }) => before.length > 0 && after.length > 0)
  const usable = withEffort.filter(({ before, after }) => totalOf(before).count + totalOf(after).count > 0)
  const pairs = usable.map(({ before, after }) => ({ before: totalOf(before), after: totalOf(after) }))
  const lower = pairs.filter(
    ({ before, after }) => after.count * before.effort < before.count * after.effort,
  ).length
  const share = wilson(lower, pairs.length)
  const told: PooledEvents = {
    events: pairs.length,
    withoutEffort: events.length - withEffort.length,
    noneCaught: withEffort.length - usable.length,
    fell: share === null ? null : { ...share, events: lower },
  }
  return { usable, pairs, told }
}

/**
 * What became of the catch after all events of one kind (one tactic against one pest): Mantel N, Haenszel W
 * (1959) J. Natl. Cancer Inst. 22:719–748 for the ratio, which needs no half animal where nothing was caught, and
 * an interval wide enough for both ways of being wrong: events differ (Fieller's interval of the two terms, by t
 * with n − 1 degrees of freedom), and counts are small and clump (the conditional interval of a common ratio, on
 * effective counts). p is the larger of the two. Pooled log ratios with half an animal added lean towards no
 * change when catches are few; README.md has both measured.
 *
 * The ratio weighs events by the square root of what was caught (`termsOf`); `between` and `fell` tell how events
 * differ. Events without effort on a side or without any animal tell nothing
 * and are told apart. Fewer than `fewestEvents` (at least two) with animals: no claim.
 */
export function pooledEffect(
  events: readonly ChangeEvent[],
  options: { confidence?: number; fewestEvents?: number; clumping?: Clumping } = {},
): PooledEffect {
  const { confidence = 0.95, fewestEvents = 3 } = options
  if (!events.every(({ before, after }) => allCounts(before) && allCounts(after))) {
    const told = { events: 0, withoutEffort: 0, noneCaught: 0, fell: null }
    return { ...told, estimable: false, reason: 'not-a-count' }
  }
  const { usable, pairs, told } = counted(events)
  const no = (reason: NoPooledReason): PooledEffect => ({ ...told, estimable: false, reason })
  if (pairs.length < Math.max(2, fewestEvents)) return no('too-few-events')
  const groups = usable.flatMap(({ before, after }) => [before, after])
  const clumping = options.clumping ?? clumpingAbout(groups)
  if (clumping === null) return no('too-few-readings')
  if (!canBeDrawn(confidence, clumping)) return no('out-of-range')
  const dispersion = pooledDispersion(usable, clumping)
  const divisor = divisorOf(dispersion, clumping.degreesOfFreedom, confidence)
  const between = betweenEvents(pairs, confidence)
  const within = withinEvents(pairs, divisor, confidence)
  const terms = momentsOf(pairs)
  const upper = between.upper === null || within.upper === null ? null : Math.max(between.upper, within.upper)
  const result = {
    estimable: true,
    ratio: terms.before === 0 ? null : terms.after / terms.before,
    lower: Math.min(between.lower, within.lower),
    upper,
    p: Math.max(between.p, within.p),
    dispersion,
    between: spreadOf(pairs, dispersion, confidence),
  } as const
  const figures = [result.ratio ?? 0, result.lower, upper ?? 0, result.p, dispersion]
  return figures.every(Number.isFinite) ? { ...told, ...result } : no('out-of-range')
}

/** Variance over mean of all that was caught before, or after, whichever clumps more: animals weigh events. */
function pooledDispersion(
  usable: readonly { before: CatchReading[]; after: CatchReading[] }[],
  clumping: Clumping,
): number {
  let largest = 1
  for (const side of ['before', 'after'] as const) {
    let animals = 0
    let sum = 0
    for (const event of usable) {
      const { count } = totalOf(event[side])
      animals += count
      sum += count * largestDispersion([event[side]], clumping)
    }
    if (animals > 0) largest = Math.max(largest, sum / animals)
  }
  return largest
}
