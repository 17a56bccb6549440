import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import type { RecordOf } from '../../records/kinds.js'
import type { recordElements } from '../../records/use-words.js'
import type { Citation, Level, Place } from '../../types.js'
import { levelOfDuty } from '../adopted.js'

/** A treatment that an application record tells of. */
export type Applied = Treatment & { readonly application: RecordOf<'application'> }

/**
 * Applications of a pesticide that re-entry is asked about. Bait put into a device is told by a reading, which has no
 * place for who was there or when a room was opened again.
 */
export function* appliedPesticides(view: SiteView): Iterable<Applied> {
  for (const treatment of view.treatments) {
    if (treatment.day >= view.begins && isPesticide(treatment) && treatment.application !== undefined)
      yield treatment as Applied
  }
}

/**
 * Whether a record duty asks for a fact of every record of such an application, so that its absence is told as a
 * record that is not complete, once. Where a short form may do without the fact, it is not.
 */
export function recordAsksFor(
  view: SiteView,
  treatment: Treatment,
  element: (typeof recordElements)[number],
): boolean {
  return dutiesFor(view, 'records', treatment).some(
    ({ says }) =>
      (says.elements?.includes(element) ?? false) &&
      (says['short-form-under'] === undefined || (says['short-form']?.includes(element) ?? false)),
  )
}

/** Where a record shows too little, nothing is known to be broken: a gap, and a note where only custom asks. */
export function levelOfNotShown(sources: readonly Citation[]): Level {
  return levelOfDuty(sources) === 'note' ? 'note' : 'warning'
}

/** Where to point for a key that is not there: at the hours, which it belongs beside, or else at the status. */
export function besideTheHours({ application, at }: Applied): Place {
  return at(application.time === undefined ? 'status' : 'time')
}
