import type { ReferenceKind } from '../records/fields.js'
import type { RecordKind } from '../records/kinds.js'
import { builtInRulebooks, pestTable } from '../records/tables.js'
import type { DistrictView } from './district-view.js'
import type { SiteView } from './site-view.js'

/** Whether a name leads somewhere, and the names it could have meant. */
export interface Resolver {
  /** True also for a record that is there but broken: it is blamed once, where it is broken. */
  exists(to: ReferenceKind, name: string): boolean
  known(to: ReferenceKind): Iterable<string>
}

/** Names of the district's own records. Things inside sites are unknown here and always accepted. */
export function districtResolver(view: DistrictView): Resolver {
  const records: Partial<Record<ReferenceKind, ReadonlyMap<string, unknown>>> = {
    person: view.people,
    firm: view.firms,
    product: view.products,
    plan: view.plans,
  }
  const brokenOf = (kind: RecordKind, name: string) => view.broken.has(`${kind} ${name}`)
  return {
    exists(to, name) {
      const found = records[to]
      if (found) return found.has(name) || brokenOf(to as RecordKind, name)
      if (to === 'site') return view.siteIds.has(name)
      if (to === 'rulebook')
        return isBuiltIn(name) || view.ownRulebooks.has(name) || brokenOf('rulebook', name)
      if (to === 'pest') return pestTable().has(name) || view.plans.has(name) || brokenOf('plan', name)
      return true
    },
    known(to) {
      if (to === 'site') return view.siteIds
      if (to === 'rulebook') return [...builtInRulebooks, ...view.ownRulebooks.keys()]
      if (to === 'pest') return [...pestTable().keys(), ...view.plans.keys()]
      return records[to]?.keys() ?? []
    },
  }
}

/** Names a site's records can use: the district's, and the site's own areas, devices, events and things in them. */
export function siteResolver(view: SiteView): Resolver {
  const district = districtResolver(view.district)
  const ids = (kind: RecordKind, events: readonly { readonly id: string }[]) =>
    new Set([...events, ...view.later.filter((path) => path.kind === kind)].map((event) => event.id))
  const own: Partial<Record<ReferenceKind, ReadonlySet<string>>> = {
    area: new Set(view.areas.keys()),
    device: new Set([
      ...view.devices.map((device) => device.id),
      ...view.visits.flatMap((visit) => Object.keys(visit.data.set ?? {})),
    ]),
    run: new Set(Object.keys(view.site.data.runs ?? {})),
    complaint: ids('complaint', view.complaints),
    application: ids('application', view.applications),
    visit: ids('visit', view.visits),
    sighting: new Set(view.sightings.flatMap((sighting) => [sighting.id, sighting.name])),
    condition: new Set(view.conditions.flatMap((condition) => [condition.id, condition.name])),
  }
  return {
    exists: (to, name) => own[to]?.has(name) ?? district.exists(to, name),
    known: (to) => own[to] ?? district.known(to),
  }
}

function isBuiltIn(name: string): boolean {
  return (builtInRulebooks as readonly string[]).includes(name)
}
