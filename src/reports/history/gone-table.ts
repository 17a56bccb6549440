import { dayIn } from '../../ledger/spans.js'
import { recordPathOf } from '../../records/paths.js'
import type { Row, Table } from '../../types.js'
import type { District } from './asked.js'
import { commitCells, commitColumns } from './asked.js'
import type { Gone } from './facts.js'
import { shortId } from './facts.js'

/** Records that a commit deleted or renamed. */
export function goneTable(gone: readonly Gone[]): Table {
  return {
    id: 'gone',
    title: 'Records deleted or renamed',
    columns: [
      { id: 'record', title: 'record' },
      { id: 'what', title: 'what' },
      { id: 'to', title: 'new name' },
      ...commitColumns,
      { id: 'since', title: 'since' },
    ],
    rows: gone.map(rowOf),
    shownToPeople: 20,
    empty: 'No record was deleted or renamed.',
  }
}

/** Whether anything is still to be said of it. */
export function isSettled({ backIn, stated }: Gone): boolean {
  return backIn !== undefined || stated !== undefined
}

/** Whether district.yaml states that such records were discarded, their time of keeping being over. */
export function isDiscarded({ path }: Gone, district: District | undefined): boolean {
  const record = recordPathOf(path)
  if (record === null || 'stray' in record || record.day === undefined) return false
  const { kind, day } = record
  const what = kind === 'application' ? 'applications' : kind === 'notice' ? 'notices' : undefined
  return (district?.discarded ?? []).some((entry) => entry.what === what && day < dayIn(entry.before))
}

function rowOf({ path, to, commit, backIn, stated }: Gone): Row {
  return {
    cells: {
      record: path,
      what: to === undefined ? 'deleted' : 'renamed',
      to: to ?? null,
      ...commitCells(commit),
      since:
        backIn !== undefined
          ? `there again since ${shortId(backIn)}`
          : stated === undefined
            ? null
            : `stated by ${stated.by} on ${stated.on}: ${stated.why}`,
    },
    records: to === undefined ? [path] : [path, to],
  }
}
