import type { Loaded } from '../../ledger/loaded.js'
import type { Resolver } from '../../ledger/resolve.js'
import { districtResolver, siteResolver } from '../../ledger/resolve.js'
import type { RecordKind } from '../../records/kinds.js'
import { nearest } from '../../records/nearest.js'
import type { Args, Day } from '../../types.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'
import { statesIn } from './stated-states.js'

/** A name that leads nowhere: every reference of every record, found from the schemas alone. */
export const danglingReference = siteRule<Args>({
  id: 'dangling-reference',
  title: 'a name leads nowhere',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'What hangs on a name that is not there (a licence, a label, a device, an area) cannot be looked up by anyone.',
  remedy: 'Write the id of a record or thing that exists, or add the missing one.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ to, name, meant }) =>
    `There is no ${to} \`${name}\`${meant === undefined ? '.' : `; did you mean \`${meant}\`?`}`,
  *check(view) {
    const resolver = siteResolver(view)
    // The site's own record is of today; the devices of a run may be set by a visit after the as-of day.
    const mayBeSetLater = view.later.some((path) => path.kind === 'visit')
    for (const record of view.records) {
      for (const found of dangling(record, resolver, 'day' in record ? (record.day as Day) : view.begins)) {
        if (!(mayBeSetLater && record.kind === 'site' && found.args.to === 'device')) yield found
      }
    }
    for (const visit of view.visits) {
      const manager = visit.data['site-manager']
      if (
        manager === undefined ||
        manager === 'left word' ||
        manager === 'designee' ||
        resolver.exists('person', manager)
      )
        continue
      yield finding(visit.file, ['site-manager'], false, 'person', manager, resolver, visit.day)
    }
    for (const mention of view.conditionMentions) {
      if (mention.fault !== 'unknown' || !resolver.exists('condition', mention.name)) continue
      yield {
        args: { to: 'earlier condition', name: mention.name },
        at: { ...mention.at, onKey: true },
        from: view.begins,
      }
    }
  },
  *checkDistrict(view) {
    const resolver = districtResolver(view)
    for (const record of view.records) yield* dangling(record, resolver, view.recordsBegin)
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
inspected: [kitchn] # expect: dangling-reference
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
inspected: [kitchen]
`,
})

/** Pests, products and rules have rules of their own. */
const elsewhere = new Set(['pest', 'product', 'rule'])

function* dangling(record: Loaded<RecordKind>, resolver: Resolver, from: Day): Iterable<Finding> {
  for (const { role, value, path, onKey } of record.mentions) {
    if (role.role !== 'reference' || elsewhere.has(role.to) || resolver.exists(role.to, value)) continue
    if (role.to === 'condition' && onKey && isStateless(record, value)) continue
    yield finding(record.file, path, onKey, role.to, value, resolver, from)
  }
}

/** A condition without a state may well have been meant as new: the rule condition-state speaks of it. */
function isStateless(record: Loaded<RecordKind>, condition: string): boolean {
  if (record.kind !== 'visit') return false
  const entry = (record as Loaded<'visit'>).data.conditions?.[condition]
  return entry !== undefined && statesIn(entry).length === 0
}

function finding(
  file: string,
  path: readonly (string | number)[],
  onKey: boolean,
  to: string,
  name: string,
  resolver: Resolver,
  from: Day,
): Finding {
  const meant = nearest(name, resolver.known(to as Parameters<Resolver['known']>[0]))
  return { args: { to, name, ...(meant === undefined ? {} : { meant }) }, at: { file, path, onKey }, from }
}
