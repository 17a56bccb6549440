import type { RecordOf } from '../records/kinds.js'
import type { Day, Place } from '../types.js'
import type { SiteView } from './site-view.js'

type PlantEntry = NonNullable<RecordOf<'visit'>['plants']>[string]

/** A plant taken away to be treated off the property and not recorded as put back. */
export interface PlantAway {
  readonly name: string
  readonly area: string | undefined
  readonly since: Day
  readonly why: string | undefined
  /** Whether someone saw it dry after it was treated; undefined where it was not treated. */
  readonly dry: boolean | undefined
  readonly at: Place
}

/** Plants that are away at the end of the as-of day, in the order in which they were taken. */
export function plantsAway(view: SiteView): PlantAway[] {
  const away = new Map<string, PlantAway>()
  for (const visit of view.visits) {
    for (const [name, entry] of Object.entries(visit.data.plants ?? {})) {
      const before = away.get(name)
      if (entry.returned !== undefined) {
        away.delete(name)
        continue
      }
      if (entry.removed === undefined && !before) continue
      away.set(name, {
        name,
        area: entry.area ?? before?.area,
        since: before?.since ?? visit.day,
        why: entry.removed ?? before?.why,
        dry: drynessAfter(entry, before?.dry),
        at: before?.at ?? { file: visit.file, path: ['plants', name] },
      })
    }
  }
  return [...away.values()]
}

function drynessAfter(entry: PlantEntry, before: boolean | undefined): boolean | undefined {
  if (entry.dry !== undefined) return true
  return entry.sprayed !== undefined ? false : before
}
