import { isoOf } from '../../measure/calendar.js'
import type { Row, Table } from '../../types.js'
import { commitCells, commitColumns } from './asked.js'
import { keyText, valueText } from './changed-keys.js'
import type { Change } from './facts.js'
import { shortId } from './facts.js'

/** Committed records that were changed without a word, key by key. */
export function changedTable(changes: readonly Change[]): Table {
  return {
    id: 'changed',
    title: 'Committed records changed without a stated correction',
    columns: [
      { id: 'record', title: 'record' },
      { id: 'what', title: 'what' },
      { id: 'key', title: 'key' },
      { id: 'before', title: 'before' },
      { id: 'after', title: 'after' },
      ...commitColumns,
      { id: 'since', title: 'since' },
    ],
    rows: changes.map(rowOf),
    shownToPeople: 20,
    empty: 'No event and no past dated span was changed without a word.',
  }
}

function rowOf({ path, what, key, commit, settled }: Change): Row {
  return {
    cells: {
      record: path,
      what,
      key: keyText(key.path),
      before: valueText(key.before),
      after: valueText(key.after),
      ...commitCells(commit),
      since: settled === undefined ? null : settledWords(settled),
    },
    records: [path],
  }
}

function settledWords({ how, commit }: NonNullable<Change['settled']>): string {
  if (how === 'puts back') return 'puts back what was there'
  const day = commit.committerDay === undefined ? '' : `, ${isoOf(commit.committerDay)}`
  return `${how === 'put back' ? 'put back' : 'stated later'} in ${shortId(commit)}${day}`
}
