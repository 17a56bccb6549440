import type { Loaded } from '../../ledger/loaded.js'
import { dayIn } from '../../ledger/spans.js'
import type { RecordKind } from '../../records/kinds.js'
import type { Day, Row, Table } from '../../types.js'
import type { Asked } from './asked.js'
import { commitCells, commitColumns } from './asked.js'
import { canonical } from './changed-keys.js'
import type { CommitFacts, HistoryFacts } from './facts.js'
import type { Stated } from './stated.js'
import { statedIn, statedOf } from './stated.js'

/** A correction that a record states, and the commit that brought it. */
export interface StatedCorrection {
  readonly path: string
  readonly says: Stated
  readonly commit: CommitFacts
  /** Keys of it of which git shows a change. */
  readonly shows: readonly string[] | 'it came with the record' | 'not in this clone'
}

/** Corrections that records state, as far as git knows the records. */
export function statedCorrections(
  records: readonly Pick<Loaded<RecordKind>, 'file' | 'data'>[],
  facts: HistoryFacts,
  asked: Asked,
  asOf: Day,
): StatedCorrection[] {
  return records.flatMap(({ file, data }) => {
    const life = facts.lives.get(file)
    if (!life) return []
    const without = life.isFirstKnown ? 'it came with the record' : 'not in this clone'
    return statedIn(data).flatMap((entry) => {
      const brought = facts.stated.get(file)?.find((one) => one.entry === canonical(entry))
      const commit = brought?.commit ?? life.first
      return asked.isWanted(file, commit) && dayIn(statedOf(entry).on) <= asOf
        ? [{ path: file, says: statedOf(entry), commit, shows: brought?.shows ?? without }]
        : []
    })
  })
}

export function statedTable(corrections: readonly StatedCorrection[]): Table {
  return {
    id: 'corrections',
    title: 'Stated corrections',
    columns: [
      { id: 'record', title: 'record' },
      { id: 'on', title: 'on' },
      { id: 'by', title: 'by' },
      { id: 'why', title: 'why' },
      { id: 'keys', title: 'keys' },
      { id: 'shows', title: 'git shows' },
      ...commitColumns,
    ],
    rows: corrections.map(rowOf),
    empty: 'No record states a correction.',
  }
}

function rowOf({ path, says, commit, shows }: StatedCorrection): Row {
  return {
    cells: {
      record: path,
      on: says.on,
      by: says.by,
      why: says.why,
      keys: says.keys.join(', '),
      shows: showsWords(says.keys, shows),
      ...commitCells(commit),
    },
    records: [path],
  }
}

function showsWords(keys: readonly string[], shows: StatedCorrection['shows']): string {
  if (typeof shows === 'string') return shows
  const without = keys.filter((key) => !shows.includes(key))
  return without.length === 0 ? 'the change' : `no change of ${without.join(', ')}`
}
