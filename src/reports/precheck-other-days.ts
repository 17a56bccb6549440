import type { OtherDay } from '../check/precheck-other-days.js'
import { isoOf } from '../measure/calendar.js'
import type { Row, Table } from '../types.js'
import { cannotBeSaid, lastDayText } from './precheck-moments.js'
import { inOrder, problemColumns, problemRow } from './precheck-problems.js'

/** What would be told of the draft on each of its other days and not on the first, and the other way round. */
export function otherDaysTable(days: readonly OtherDay[]): Table {
  return {
    id: 'other-days',
    title: 'On its other days, what differs from the first',
    columns: [
      { id: 'day', title: 'day' },
      { id: 'differs', title: 'how it differs' },
      { id: 'last-day', title: 'last day', for: 'work' },
      ...problemColumns,
    ],
    rows: days.flatMap((day) => {
      const rows = rowsOf(day)
      const none: Row = { cells: { differs: sameOrNot(day) }, records: [] }
      return (rows.length === 0 ? [none] : rows).map(({ cells, records }) => ({
        cells: { day: isoOf(day.day), ...cells },
        records,
      }))
    }),
    empty: 'It has none.',
  }
}

function rowsOf({ broken, stillToDo, onlyFirst, found }: OtherDay): Row[] {
  const told = (differs: string, { cells, records }: Row): Row => ({ cells: { differs, ...cells }, records })
  return [
    ...inOrder(broken).map((problem) => told('broken then', problemRow(problem))),
    ...stillToDo.map((one) => {
      const lastDay = lastDayText(found, one)
      const { cells, records } = told(
        lastDay === cannotBeSaid ? 'to do, until when cannot be said' : `to do by ${lastDay}`,
        problemRow(one.problem),
      )
      return { cells: { ...cells, 'last-day': lastDay }, records }
    }),
    ...inOrder(onlyFirst).map((problem) => told('not broken then', problemRow(problem))),
  ]
}

function sameOrNot({ found }: OtherDay): string {
  return found.view && found.treatment ? 'nothing' : 'could not be looked at'
}
