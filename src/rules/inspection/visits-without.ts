import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Lapse } from './lapse.js'
import { lapse } from './lapse.js'

/** Routine visits that lack something, each lacking it until the next routine visit that has it. */
export function* routineVisitsWithout(
  view: SiteView,
  has: (visit: LoadedEvent<'visit'>) => boolean,
): Iterable<{ readonly visit: LoadedEvent<'visit'>; readonly lacking: Lapse }> {
  const found: { visit: LoadedEvent<'visit'>; lacking: Lapse }[] = []
  let next: number | undefined
  for (const visit of [...view.routineVisits].reverse()) {
    if (visit.day < view.begins) break
    if (has(visit)) next = visit.day
    else {
      const lacking = lapse(view, visit.day, next)
      if (lacking) found.push({ visit, lacking })
    }
  }
  yield* found.reverse()
}
