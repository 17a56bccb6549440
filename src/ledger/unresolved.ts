import type { ReferenceKind, Role } from '../records/fields.js'
import type { RecordKind } from '../records/kinds.js'
import { recordKinds } from '../records/kinds.js'
import { meaningfulIn } from '../records/schema-walk.js'
import type { Day, KeyPath } from '../types.js'
import type { DistrictView } from './district-view.js'
import type { Loaded } from './loaded.js'
import type { Resolver } from './resolve.js'
import { districtResolver, siteResolver } from './resolve.js'
import type { SiteView } from './site-view.js'
import { dayOfUndated } from './undated.js'

/** A name in a record that leads nowhere. */
export interface Unresolved {
  readonly record: Loaded<RecordKind>
  /** Day of the record, or the first day the ledger answers for. */
  readonly day: Day
  readonly to: ReferenceKind
  readonly name: string
  readonly path: KeyPath
  readonly onKey: boolean
}

export interface UnresolvedNames {
  readonly names: readonly Unresolved[]
  readonly resolver: Resolver
}

const known = new WeakMap<SiteView | DistrictView, UnresolvedNames>()

/** Names in a site's records that lead nowhere, in one walk for all the rules that ask. */
export function unresolvedIn(view: SiteView): UnresolvedNames {
  return remembered(view, () => find(view.records, siteResolver(view), dayOfUndated(view)))
}

/** The same for the district's own records. */
export function unresolvedInDistrict(view: DistrictView): UnresolvedNames {
  return remembered(view, () => find(view.records, districtResolver(view), dayOfUndated(view)))
}

function remembered(view: SiteView | DistrictView, make: () => UnresolvedNames): UnresolvedNames {
  const found = known.get(view) ?? make()
  known.set(view, found)
  return found
}

function find(records: readonly Loaded<RecordKind>[], resolver: Resolver, begins: Day): UnresolvedNames {
  const leadsNowhere = (role: Role, name: string) =>
    role.role === 'reference' && !resolver.exists(role.to, name)
  const names: Unresolved[] = []
  for (const record of records) {
    const day = 'day' in record ? Number(record.day) : begins
    for (const { role, value, path, onKey } of meaningfulIn(
      recordKinds[record.kind].schema,
      record.data,
      leadsNowhere,
    )) {
      if (role.role === 'reference') names.push({ record, day, to: role.to, name: value, path, onKey })
    }
  }
  return { names, resolver }
}
