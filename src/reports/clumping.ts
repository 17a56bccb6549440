import type { CatchObservation } from '../ledger/catch-series.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { CatchReading, Clumping } from '../measure/effective-counts.js'
import { clumpingAbout, totalOf } from '../measure/effective-counts.js'

/** Fewest animals of a series that says how its pest clumps: one or two tell nothing and would make all look calm. */
const fewestToTell = 10

/** With so many degrees of freedom the readings of a series tell their own clumping well enough. */
const enoughOfItsOwn = 20

/** Groups of readings of one series, each about a mean of its own. */
export interface ClumpingGroups {
  readonly pest: string
  readonly groups: readonly (readonly CatchReading[])[]
}

/** How the catches of each pest clump, over all its series of the ledger that caught enough to tell. */
export function clumpingByPest(all: readonly ClumpingGroups[]): ReadonlyMap<string, Clumping | null> {
  const byPest = new Map<string, (readonly CatchReading[])[]>()
  for (const { pest, groups } of all) {
    if (totalOf(groups.flat()).count < fewestToTell) continue
    getOrMake(byPest, pest, (): (readonly CatchReading[])[] => []).push(...groups)
  }
  return new Map([...byPest].map(([pest, groups]) => [pest, clumpingAbout(groups)]))
}

/** Few readings tell little of how catches clump; then that of the pest is used, if it tells more. */
export function clumpingFor(
  groups: readonly (readonly CatchReading[])[],
  ofPest: Clumping | null,
  enough = enoughOfItsOwn,
): { readonly clumping: Clumping | null; readonly isOfPest: boolean } {
  const own = clumpingAbout(groups)
  const ownDegrees = own?.degreesOfFreedom ?? 0
  const isOfPest = ofPest !== null && ownDegrees < enough && ofPest.degreesOfFreedom > ownDegrees
  return { clumping: isOfPest ? ofPest : own, isOfPest }
}

export function readingsOf(observations: readonly CatchObservation[]): CatchReading[] {
  return observations.map(({ count, trapNights }) => ({ count, effort: trapNights }))
}
