import { type CatchReading, readingsWithEffort, totalOf } from './effective-counts.js'

/** Readings of one area before and after the same day. */
export interface AreaReadings {
  before: readonly CatchReading[]
  after: readonly CatchReading[]
}

/**
 * Brings the readings of several areas to one rate, so that they can be added up: each effort is multiplied by the rate of
 * its area, and so is in proportion to the animals expected. Without that, an area of many animals that was looked at longer before
 * than after would pass for a fall of all.
 *
 * The rates are those of the model in which each area has its own and all change by one factor: given an area's total n,
 * its animals after are n trials of chance f·T_after/(T_before + f·T_after); f makes their sum what was seen (the maximum
 * of the likelihood of a Poisson model with a term for each area: McCullagh P, Nelder JA 1989, Generalized Linear
 * Models, 2nd ed.). The quotient of the two sums of counts over the two sums of efforts returned is f.
 *
 * Areas without effort on a side or without any animal tell nothing of a change, and are left out; readings without
 * effort too. Counts stay as they are.
 */
export function areasAtOneRate(areas: readonly AreaReadings[]): {
  before: CatchReading[]
  after: CatchReading[]
} {
  const usable = areas
    .map(({ before, after }) => ({ before: readingsWithEffort(before), after: readingsWithEffort(after) }))
    .map((area) => ({ ...area, totalBefore: totalOf(area.before), totalAfter: totalOf(area.after) }))
    .filter(({ totalBefore, totalAfter }) => totalBefore.readings > 0 && totalAfter.readings > 0)
    .filter(({ totalBefore, totalAfter }) => totalBefore.count + totalAfter.count > 0)
  const share = shareOfEffort(usable)
  const result: { before: CatchReading[]; after: CatchReading[] } = { before: [], after: [] }
  for (const { before, after, totalBefore, totalAfter } of usable) {
    const animals = totalBefore.count + totalAfter.count
    // Both sides over the same sum, so that no factor need be finite: (1 − s)·T_before + s·T_after.
    const rate = animals / ((1 - share) * totalBefore.effort + share * totalAfter.effort)
    const expected = ({ count, effort }: CatchReading) => ({ count, effort: effort * rate })
    result.before.push(...before.map(expected))
    result.after.push(...after.map(expected))
  }
  return result
}

interface Totals {
  totalBefore: { count: number; effort: number }
  totalAfter: { count: number; effort: number }
}

/** f/(1 + f), from 0 (nothing caught after) to 1 (nothing before): the sum expected after rises with it. */
function shareOfEffort(areas: readonly Totals[]): number {
  const seen = areas.reduce((sum, { totalAfter }) => sum + totalAfter.count, 0)
  const total = areas.reduce((sum, { totalBefore }) => sum + totalBefore.count, seen)
  if (seen === 0) return 0
  if (seen === total) return 1
  let [low, high] = [0, 1]
  for (let i = 0; i < 200 && high - low > 1e-15; i += 1) {
    const middle = (low + high) / 2
    const expected = areas.reduce((sum, { totalBefore, totalAfter }) => {
      const after = middle * totalAfter.effort
      return (
        sum + ((totalBefore.count + totalAfter.count) * after) / (after + (1 - middle) * totalBefore.effort)
      )
    }, 0)
    if (expected < seen) low = middle
    else high = middle
  }
  return (low + high) / 2
}
