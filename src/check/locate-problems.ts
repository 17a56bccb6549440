import type { Location } from '../files/locate.js'
import { locatable } from '../files/locate.js'
import type { Source } from '../files/source.js'
import { compareText } from '../ledger/compare-text.js'
import type { ExceptedProblem, Place, Problem, RelatedPlace } from '../types.js'
import { fingerprintOf } from './fingerprint.js'

/** Spots that were found already, by place. */
export type KnownSpots = WeakMap<Place, Location | null>

/** A problem with the spot in the file that it is about; no spot where the file could not be read. */
export interface LocatedProblem {
  readonly problem: Problem
  readonly fingerprint: string
  readonly location: Location | null
  readonly related: readonly { readonly related: RelatedPlace; readonly location: Location | null }[]
}

/**
 * Turns places into lines and columns, at the very end and only for what will be shown, and sorts by place: by
 * file, line, column, rule, fingerprint. One file at a time is held open.
 */
export function locateProblems(
  problems: readonly Problem[],
  source: Source,
  known?: KnownSpots,
): LocatedProblem[] {
  const locate = locator(source, known)
  const inFileOrder = [...problems].sort((a, b) => compareText(a.at.file, b.at.file))
  const located = inFileOrder.map((problem) => ({
    problem,
    fingerprint: fingerprintOf(problem),
    location: locate(problem.at),
  }))
  const withRelated = located.map((entry) => ({
    ...entry,
    related: entry.problem.related.map((related) => ({ related, location: locate(related.place) })),
  }))
  return withRelated.sort(
    (a, b) =>
      compareText(a.problem.at.file, b.problem.at.file) ||
      (a.location?.line ?? 0) - (b.location?.line ?? 0) ||
      (a.location?.column ?? 0) - (b.location?.column ?? 0) ||
      compareText(a.problem.rule, b.problem.rule) ||
      compareText(a.fingerprint, b.fingerprint),
  )
}

/** An excepted problem with its spot, sorted like the problems. */
export interface LocatedException extends ExceptedProblem {
  readonly location: Location | null
  readonly fingerprint: string
}

export function locateExceptions(
  excepted: readonly ExceptedProblem[],
  source: Source,
  known?: KnownSpots,
): LocatedException[] {
  const locate = locator(source, known)
  return [...excepted]
    .sort((a, b) => compareText(a.problem.at.file, b.problem.at.file))
    .map((entry) => ({
      ...entry,
      location: locate(entry.problem.at),
      fingerprint: fingerprintOf(entry.problem),
    }))
    .sort(
      (a, b) =>
        compareText(a.problem.at.file, b.problem.at.file) ||
        (a.location?.line ?? 0) - (b.location?.line ?? 0) ||
        compareText(a.problem.rule, b.problem.rule) ||
        compareText(a.fingerprint, b.fingerprint),
    )
}

/** Where a place is in its file; those that are known are not looked for. */
export function locator(source: Source, known?: KnownSpots): (place: Place) => Location | null {
  let open: { file: string; located: ReturnType<typeof locatable> | null } | undefined
  return (place) => {
    const spot = known?.get(place)
    if (spot !== undefined) return spot
    if (open?.file !== place.file) {
      const read = source.read(place.file)
      open = { file: place.file, located: 'refused' in read ? null : locatable(read.bytes) }
    }
    if (!open.located) return null
    return place.span
      ? open.located.locateSpan(place.span)
      : open.located.locate(place.path, place.onKey ?? false)
  }
}
