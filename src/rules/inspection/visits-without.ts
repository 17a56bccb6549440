import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Lapse } from './lapse.js'
import { lapse } from './lapse.js'

type Visit = LoadedEvent<'visit'>

export const readTheLog = ({ data }: Visit) => data['complaint-log'] === 'read'
export const toldTheSiteManager = ({ data }: Visit) => data['site-manager'] !== undefined

/** Routine visits that lack something, each lacking it until the next routine visit that has it. */
export function* routineVisitsWithout(
  view: SiteView,
  has: (visit: Visit) => boolean,
): Iterable<{ readonly visit: Visit; readonly lacking: Lapse }> {
  const found: { visit: Visit; lacking: Lapse }[] = []
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
