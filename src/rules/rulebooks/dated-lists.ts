import type { DatedSpan } from '../../ledger/spans.js'
import type { RecordOf } from '../../records/kinds.js'
import { dutySections } from '../../records/rulebook-duties.js'
import type { KeyPath } from '../../types.js'

/** One value, class or duty of a rulebook with all its dated versions, and where they stand. */
export interface DatedList {
  readonly name: string
  readonly path: KeyPath
  readonly versions: readonly (DatedSpan & {
    readonly 'holds-for'?: readonly string[] | undefined
    readonly 'not-for'?: readonly string[] | undefined
  })[]
}

/** Everything in a rulebook that is written in dated versions. */
export function* datedLists(rulebook: RecordOf<'rulebook'>): Iterable<DatedList> {
  for (const section of ['parameters', 'uses', ...dutySections] as const) {
    for (const [name, versions] of Object.entries(rulebook[section] ?? {}))
      yield { name, path: [section, name], versions }
  }
}
