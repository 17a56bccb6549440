import type { Loaded } from '../../ledger/loaded.js'
import type { Resolver } from '../../ledger/resolve.js'
import { dayOfUndated } from '../../ledger/undated.js'
import type { Unresolved } from '../../ledger/unresolved.js'
import { unresolvedIn, unresolvedInDistrict } from '../../ledger/unresolved.js'
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
    // The site's own record is of today; the devices of a run may be set by a visit after the as-of day.
    const mayBeSetLater = view.later.some((path) => path.kind === 'visit')
    const { names, resolver } = unresolvedIn(view)
    for (const name of names) {
      if (mayBeSetLater && name.record.kind === 'site' && name.to === 'device') continue
      yield* dangling(name, resolver)
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
        from: dayOfUndated(view),
      }
    }
  },
  *checkDistrict(view) {
    const { names, resolver } = unresolvedInDistrict(view)
    for (const name of names) yield* dangling(name, resolver)
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

function* dangling(
  { record, day, to, name, path, onKey }: Unresolved,
  resolver: Resolver,
): Iterable<Finding> {
  if (elsewhere.has(to)) return
  if (to === 'condition' && onKey && isStateless(record, name)) return
  yield finding(record.file, path, onKey, to, name, resolver, day)
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
