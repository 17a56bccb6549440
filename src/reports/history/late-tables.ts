import { compareText } from '../../ledger/compare-text.js'
import { isoOf } from '../../measure/calendar.js'
import type { Column, Row, Table } from '../../types.js'
import { commitCells, commitColumns } from './asked.js'
import type { LateEntry } from './late.js'

/** Rows that a person is shown: a whole year typed at once would bury everything else. */
const shown = 20

const columns: readonly Column[] = [
  { id: 'record', title: 'record' },
  { id: 'day', title: 'happened' },
  { id: 'last', title: 'to be written by' },
  { id: 'days', title: 'after the event', unit: 'days', decimals: 0 },
  { id: 'paper', title: 'on paper' },
  { id: 'entered-by', title: 'entered by' },
  ...commitColumns,
  { id: 'source', title: 'rests on', for: 'work' },
]

export function lateTable(entries: readonly LateEntry[]): Table {
  return {
    id: 'late',
    title: 'Records committed late',
    columns,
    rows: rowsOf(entries),
    shownToPeople: shown,
    empty: 'No record came into git after its term.',
  }
}

export function typedTable(entries: readonly LateEntry[]): Table {
  return {
    id: 'typed',
    title: 'On paper in time, and typed later: no late records',
    columns,
    rows: rowsOf(entries),
    shownToPeople: shown,
    empty: 'None.',
  }
}

function rowsOf(entries: readonly LateEntry[]): Row[] {
  return [...entries]
    .sort((a, b) => b.committed - b.day - (a.committed - a.day) || compareText(a.path, b.path))
    .map(rowOf)
}

function rowOf({ path, day, last, committed, onPaper, enteredBy, commit, sources }: LateEntry): Row {
  return {
    cells: {
      record: path,
      day: isoOf(day),
      last: isoOf(last),
      days: committed - day,
      paper: onPaper === undefined ? (enteredBy === undefined ? null : 'not stated') : isoOf(onPaper),
      'entered-by': enteredBy ?? null,
      ...commitCells(commit),
      source: [...new Set(sources.map(({ text }) => text))].join('; '),
    },
    records: [path],
  }
}
