import type { Table } from '../../types.js'
import { commitCells, commitColumns } from './asked.js'
import { keyText, valueText } from './changed-keys.js'
import type { Lost } from './facts.js'

/** What a merge does not have, though a parent had it and the other did not take it out. */
export function mergesTable(lost: readonly Lost[]): Table {
  return {
    id: 'merges',
    title: 'Lost in a merge',
    columns: [
      { id: 'record', title: 'record' },
      { id: 'key', title: 'key' },
      { id: 'value', title: 'what was there' },
      { id: 'parent', title: 'parent that had it' },
      ...commitColumns,
    ],
    rows: lost.map(({ path, key, value, parent, commit }) => ({
      cells: {
        record: path,
        key: key.length === 0 ? null : keyText(key),
        value: key.length === 0 ? 'the whole record' : valueText(value),
        parent: parent.slice(0, 12),
        ...commitCells(commit),
      },
      records: [path],
    })),
    shownToPeople: 20,
    empty: 'No merge dropped a record or an entry of one.',
  }
}
