import { minutesOf } from '../measure/calendar.js'
import type { Day, Place } from '../types.js'
import { instantOn, timesOf } from './instants.js'
import type { LoadedEvent } from './loaded.js'
import type { SiteView } from './site-view.js'
import type { Treatment } from './treatments.js'
import { isPesticide } from './treatments.js'
import { dutiesFor } from './use-classes.js'

/** The little that district-wide rules need of a site, so that sites can be read and judged apart. */
export interface SiteDigest {
  readonly site: string
  readonly presences: readonly Presence[]
  readonly yearlyUses: readonly YearlyUse[]
}

/** Someone was in the building between two times of a day, in minutes. There is one for nearly every visit, so they are kept small. */
export interface Presence {
  readonly person: string
  readonly day: Day
  readonly start: number
  readonly end: number
  /** The record that says so, under `time`. */
  readonly file: string
}

/** A use of a product that a yearly duty holds for, which asks for a list of products or only of years with a use. */
export interface YearlyUse {
  readonly site: string
  readonly rulebook: string
  /** Name of the duty in the section `yearly` of that rulebook. */
  readonly duty: string
  readonly product: string
  readonly productName: string
  readonly day: Day
  /** Where the record names the product. */
  readonly at: Place
  /** A notice of this one application went to all parents and all staff before it began. */
  readonly toldAll: boolean
}

export function digestOf(view: SiteView): SiteDigest {
  return {
    site: view.id,
    presences: [
      ...view.visits.flatMap(presencesOf),
      ...view.applications.filter((application) => application.data.status === 'done').flatMap(presencesOf),
    ],
    yearlyUses: view.treatments
      .filter((treatment) => treatment.day >= view.begins && isPesticide(treatment))
      .flatMap((treatment) => yearlyUsesOf(view, treatment)),
  }
}

function yearlyUsesOf(view: SiteView, treatment: Treatment): YearlyUse[] {
  return dutiesFor(view, 'yearly', treatment)
    .filter(({ says }) => says['lists-products'] === 'yes' || says['only-if-used'] === 'yes')
    .map(({ rulebook, name }) => ({
      site: view.id,
      rulebook,
      duty: name,
      product: treatment.productId,
      productName: treatment.product?.data.name ?? treatment.productId,
      day: treatment.day,
      at: treatment.at('product'),
      toldAll: isToldToAll(view, treatment),
    }))
}

/** How long before is asked elsewhere; a notice of the same day that states no hour is given the benefit of the doubt. */
function isToldToAll(view: SiteView, treatment: Treatment): boolean {
  const { start } = timesOf(view.district, treatment)
  const told = new Set(
    view.notices
      .filter(({ day, data }) => {
        if (treatment.application === undefined || data.application !== treatment.id || !data.sent)
          return false
        return instantOn(view.district, day, data.sent.at).earliest < start.latest
      })
      .map(({ data }) => data.sent?.to),
  )
  return told.has('everyone') || (told.has('all parents') && told.has('all staff'))
}

function presencesOf(event: LoadedEvent<'visit'> | LoadedEvent<'application'>): Presence[] {
  const time = event.data.time
  if (time === undefined) return []
  const [start, end] = time.split(' to ').map((text) => minutesOf(text.slice(0, 5)))
  if (typeof start !== 'number' || typeof end !== 'number' || end <= start) return []
  return [event.data.by, ...('with' in event.data ? (event.data.with ?? []) : [])].map((person) => ({
    person,
    day: event.day,
    start,
    end,
    file: event.file,
  }))
}
