import type { UnresolvedNames } from '../../ledger/unresolved.js'
import { unresolvedIn, unresolvedInDistrict } from '../../ledger/unresolved.js'
import { nearest } from '../../records/nearest.js'
import type { Args } from '../../types.js'
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
  check: (view) => unknown(unresolvedIn(view)),
  checkDistrict: (view) => unknown(unresolvedInDistrict(view)),
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

function* unknown({ names, resolver }: UnresolvedNames): Iterable<Finding> {
  for (const { record, day, to, name, path, onKey } of names) {
    if (to !== 'pest') continue
    const meant = nearest(name, resolver.known('pest'))
    yield {
      args: { pest: name, ...(meant === undefined ? {} : { meant }) },
      at: { file: record.file, path, onKey },
      from: day,
    }
  }
}
