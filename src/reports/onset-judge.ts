import { getOrMake } from '../ledger/get-or-make.js'
import type { ChosenCusum, CusumChoice } from '../measure/cusum-choice.js'
import { chooseCusum } from '../measure/cusum-choice.js'
import { poissonCusum } from '../measure/poisson-cusum.js'
import type { PartCatch, UsualCatch, UsualLimits } from '../measure/usual-catch.js'
import { clumpingAboutUsual, limitsOfUsual, usualCatch } from '../measure/usual-catch.js'
import type { OnsetDays, SitePest, SiteReading } from './onset-collect.js'

export const onsetSettings = {
  /** A part with fewer readings before the period is not compared, and a series of none but such has no baseline. */
  fewestBaselineReadings: 5,
  /** The rise that is to be seen soon, as a factor of the usual catch. */
  factor: 2,
  /**
   * Readings of a series from one false signal to the next, on average and at least: as many as were judged in the whole
   * ledger, so that about one false signal is expected in all. Not below the one, which is some eight years of monthly
   * readings, nor above the other, beyond which too little would be found.
   */
  leastRunLength: 100,
  mostRunLength: 500,
  /**
   * What is usual, and how it clumps, is learnt from some twelve readings. Charts are set for so many times the run length
   * that is stated, or clumped catches would break it (measured in measure/README.md).
   */
  learntFactor: 2,
} as const

/** A reading that is judged, with the sum after it. */
export interface JudgedReading {
  readonly reading: SiteReading
  readonly count: number
  readonly trapNights: number
  /** Expected if nothing changed. */
  readonly usual: number
  readonly sum: number
}

export interface Watched {
  readonly facts: SitePest
  readonly baseline: UsualCatch
  readonly baselineFiles: readonly string[]
  readonly limits: UsualLimits
  readonly chosen: ChosenCusum
  /** Readings to a false signal that are claimed; the chart itself is set for more. */
  readonly statedRunLength: number
  readonly readings: readonly JudgedReading[]
  /** Effort of each reading, as a share of the average one. */
  readonly shares: readonly number[]
  /** Place of the first reading at which the sum reached the limit. */
  readonly signal: number | undefined
  /** Areas with devices that were not compared for want of a baseline of their own. */
  readonly tooNew: readonly string[]
}

export interface NotWatched {
  readonly facts: SitePest
  readonly why: string
}

export interface JudgedLedger {
  readonly watched: readonly Watched[]
  readonly notWatched: readonly NotWatched[]
  readonly runLength: number
  /** False signals expected over all series if nothing changed anywhere, at most. */
  readonly falseExpected: number
}

interface Prepared {
  readonly facts: SitePest
  readonly usual: UsualCatch
  readonly before: readonly (readonly PartCatch[])[]
  readonly beforeFiles: readonly string[]
  readonly judged: readonly SiteReading[]
  readonly tooNew: readonly string[]
}

/** Judges every series of the ledger, before any filter. */
export function judgeOnsets(all: readonly SitePest[], days: OnsetDays): JudgedLedger {
  const notWatched: NotWatched[] = []
  const prepared: Prepared[] = []
  for (const facts of all) {
    const found = prepare(facts, days)
    if (typeof found === 'string') notWatched.push({ facts, why: found })
    else prepared.push(found)
  }
  const readings = prepared.reduce((sum, { judged }) => sum + judged.length, 0)
  const { leastRunLength, mostRunLength } = onsetSettings
  const runLength = Math.min(mostRunLength, Math.max(leastRunLength, readings))
  const clumping = clumpingByPest(prepared)
  const watched: Watched[] = []
  for (const one of prepared) {
    const found = watch(one, clumping.get(one.facts.pest) ?? 0, runLength)
    if (typeof found === 'string') notWatched.push({ facts: one.facts, why: found })
    else watched.push(found)
  }
  const falseExpected = watched.reduce((sum, one) => sum + one.readings.length / one.statedRunLength, 0)
  return { watched, notWatched, runLength, falseExpected }
}

function prepare(facts: SitePest, { from, to }: OnsetDays): Prepared | string {
  const before = facts.readings.filter(({ day }) => day < from)
  const since = facts.readings.filter(({ day }) => day >= from && day <= to)
  if (since.length === 0) return 'not read in this period'
  const times = new Map<string, number>()
  for (const { parts } of before) for (const { part } of parts) times.set(part, (times.get(part) ?? 0) + 1)
  const fewest = onsetSettings.fewestBaselineReadings
  const isKnown = ({ part }: PartCatch) => (times.get(part) ?? 0) >= fewest
  const known = (readings: readonly SiteReading[]) =>
    readings
      .map((reading) => ({ ...reading, parts: reading.parts.filter(isKnown) }))
      .filter(({ parts }) => parts.length > 0)
  const learnt = known(before)
  const judged = known(since)
  const usual = usualCatch(learnt.map(({ parts }) => parts))
  if (!usual) return noBaseline(before.length)
  if (judged.length === 0) return 'none of the devices with a baseline was read in this period'
  const strange = since.flatMap(({ parts }) => parts).filter((part) => !isKnown(part))
  return {
    facts,
    usual,
    before: learnt.map(({ parts }) => parts),
    beforeFiles: learnt.flatMap(({ files }) => files),
    judged,
    tooNew: [...new Set(strange.map(({ part }) => facts.areaOf.get(part) ?? part))].sort(),
  }
}

function noBaseline(days: number): string {
  const fewest = onsetSettings.fewestBaselineReadings
  const read = days === 0 ? 'no day' : days === 1 ? 'one day' : `${days} days`
  return days < fewest
    ? `no baseline yet: ${read} read in the year before, ${fewest} needed`
    : `no baseline yet: ${read} read in the year before, but no kind of device in an area on ${fewest}`
}

/** Clumping is of the kind of animal, and one series tells too little of it: pooled over the sites of the ledger. */
function clumpingByPest(prepared: readonly Prepared[]): Map<string, number> {
  const byPest = new Map<string, Prepared[]>()
  for (const one of prepared) getOrMake(byPest, one.facts.pest, () => []).push(one)
  return new Map(
    [...byPest].map(([pest, series]) => [
      pest,
      clumpingAboutUsual(series.map(({ usual, before }) => ({ usual, readings: before })))?.perMean ?? 0,
    ]),
  )
}

function watch(one: Prepared, clumping: number, runLength: number): Watched | string {
  const { facts, usual, before, judged } = one
  const limits = limitsOfUsual(
    usual,
    before.map((parts) => usual.of(parts)),
    clumping,
  )
  const expected = judged.map(({ parts }) => usual.of(parts))
  const average = expected.reduce((sum, mean) => sum + mean, 0) / expected.length
  if (!limits || !(average > 0)) return whyNot['mean-out-of-range']
  const chosen = chooseCusum({
    mean: average * limits.guarded,
    factor: onsetSettings.factor,
    runLength: runLength * onsetSettings.learntFactor,
    clumping,
  })
  if (!chosen.chosen) return whyNot[chosen.reason]
  const shares = expected.map((mean) => mean / average)
  const counts = judged.map(({ parts }) => parts.reduce((sum, { count }) => sum + count, 0))
  const cusum = poissonCusum(
    counts.map((count, at) => ({ count, exposure: shares[at] ?? 0 })),
    { direction: 'up', k: chosen.k, h: chosen.h },
  )
  if (!cusum.estimable) return whyNot['mean-out-of-range']
  return {
    facts,
    baseline: usual,
    baselineFiles: one.beforeFiles,
    limits,
    chosen,
    statedRunLength: chosen.runLength / onsetSettings.learntFactor,
    readings: judged.map((reading, at) => ({
      reading,
      count: counts[at] ?? 0,
      trapNights: reading.parts.reduce((sum, { effort }) => sum + effort, 0),
      usual: expected[at] ?? 0,
      sum: cusum.path[at] ?? 0,
    })),
    shares,
    signal: cusum.signals[0],
    tooNew: one.tooNew,
  }
}

type NotChosen = Exclude<CusumChoice, ChosenCusum>['reason']

const numbersTooLarge = 'the numbers are beyond what can be reckoned with'
const whyNot: Record<NotChosen, string> = {
  'mean-out-of-range': numbersTooLarge,
  'factor-too-close': numbersTooLarge,
  'wish-out-of-range': numbersTooLarge,
  'mean-too-small': numbersTooLarge,
  'not-reached': 'catches of this pest clump too much for a limit that chance would seldom reach',
  'one-reading-tells': 'so many are usual that no sum is needed to see a doubling: compare single readings',
}

/** Place of the first reading of the run-up: the one after the sum was last 0 before the signal. */
export function beginningOf({ readings }: Watched, signal: number): number {
  let at = signal
  while (at > 0 && (readings[at - 1]?.sum ?? 0) > 0) at -= 1
  return at
}
