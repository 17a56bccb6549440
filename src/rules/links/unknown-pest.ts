import type { Loaded } from '../../ledger/loaded.js'
import type { Resolver } from '../../ledger/resolve.js'
import { districtResolver, siteResolver } from '../../ledger/resolve.js'
import type { RecordKind } from '../../records/kinds.js'
import { nearest } from '../../records/nearest.js'
import type { Args, Day } from '../../types.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'

export const unknownPest = siteRule<Args>({
  id: 'unknown-pest',
  title: 'a pest is in no plan and no table',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'A misspelt pest starts a series of its own, and the real one looks as if nothing had been caught.',
  remedy: 'Write the id of the pest table or of a plan; for an animal in neither, write `other: earwig`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ pest, meant }) =>
    `\`${pest}\` is in no plan and no table of pests${meant === undefined ? '.' : `; did you mean \`${meant}\`?`}`,
  *check(view) {
    const resolver = siteResolver(view)
    for (const record of view.records)
      yield* unknown(record, resolver, 'day' in record ? (record.day as Day) : view.begins)
  },
  *checkDistrict(view) {
    const resolver = districtResolver(view)
    for (const record of view.records) yield* unknown(record, resolver, view.recordsBegin)
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {german-cockroch: 2} # expect: unknown-pest
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {other: earwig, other-count: 2}
`,
})

function* unknown(record: Loaded<RecordKind>, resolver: Resolver, from: Day): Iterable<Finding> {
  for (const { role, value, path, onKey } of record.mentions) {
    if (role.role !== 'reference' || role.to !== 'pest' || resolver.exists('pest', value)) continue
    const meant = nearest(value, resolver.known('pest'))
    yield {
      args: { pest: value, ...(meant === undefined ? {} : { meant }) },
      at: { file: record.file, path, onKey },
      from,
    }
  }
}
