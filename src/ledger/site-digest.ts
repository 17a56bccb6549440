import { minutesOf } from '../measure/calendar.js'
import type { Day, Place } from '../types.js'
import type { LoadedEvent } from './loaded.js'
import type { SiteView } from './site-view.js'

/** The little that district-wide rules need of a site, so that sites can be read and judged apart. */
export interface SiteDigest {
  readonly site: string
  readonly presences: readonly Presence[]
}

/** Someone was in a building between two times of a day. */
export interface Presence {
  readonly person: string
  readonly site: string
  readonly day: Day
  readonly start: number
  readonly end: number
  readonly at: Place
}

export function digestOf(view: SiteView): SiteDigest {
  return {
    site: view.id,
    presences: [
      ...view.visits.flatMap(presencesOf),
      ...view.applications.filter((application) => application.data.status === 'done').flatMap(presencesOf),
    ],
  }
}

function presencesOf(event: LoadedEvent<'visit'> | LoadedEvent<'application'>): Presence[] {
  const time = event.data.time
  if (time === undefined) return []
  const [start, end] = time.split(' to ').map((text) => minutesOf(text.slice(0, 5)))
  if (typeof start !== 'number' || typeof end !== 'number' || end <= start) return []
  return [event.data.by, ...('with' in event.data ? (event.data.with ?? []) : [])].map((person) => ({
    person,
    site: event.site ?? '',
    day: event.day,
    start,
    end,
    at: { file: event.file, path: ['time'] },
  }))
}
