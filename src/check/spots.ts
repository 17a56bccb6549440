import type { Location } from '../files/locate.js'
import type { Source } from '../files/source.js'
import { compareText } from '../ledger/compare-text.js'
import { siteOfPath } from '../records/paths.js'
import type { Place, Problem } from '../types.js'
import type { KnownSpots } from './locate-problems.js'
import { locator } from './locate-problems.js'

/** Spots of a problem and of the places it is related to; undefined for a place in a file that is not the site's own. */
export interface Spots {
  readonly at: Location | null | undefined
  readonly related: readonly (Location | null | undefined)[]
}

/**
 * Where problems of a site are, one entry for each problem. Places in files of others are found when they are shown: those files
 * may change without the site's.
 */
export function spotsOf(problems: readonly Problem[], source: Source, site: string): Spots[] {
  const locate = locator(source)
  const own = (place: Place) => (siteOfPath(place.file) === site ? locate(place) : undefined)
  const spots = new Map<Problem, Spots>()
  // One file at a time is held open.
  for (const problem of [...problems].sort((a, b) => compareText(a.at.file, b.at.file)))
    spots.set(problem, { at: own(problem.at), related: problem.related.map(({ place }) => own(place)) })
  return problems.map((problem) => spots.get(problem) ?? nowhere)
}

const nowhere: Spots = { at: undefined, related: [] }

/** Adds the spots of problems to those that are known. */
export function rememberSpots(
  known: KnownSpots,
  problems: readonly Problem[],
  spots: readonly Spots[],
): void {
  for (const [n, problem] of problems.entries()) {
    const found = spots[n]
    if (!found) continue
    if (found.at !== undefined) known.set(problem.at, found.at)
    for (const [m, { place }] of problem.related.entries()) {
      const spot = found.related[m]
      if (spot !== undefined) known.set(place, spot)
    }
  }
}
