import type { Cell, Table } from '../types.js'
import {
  daysLateCells,
  daysLateColumns,
  outcomeCells,
  outcomeColumns,
  shareOfCells,
  shareOfColumns,
} from './contract-cells.js'
import type { SpanFacts } from './contract-collect.js'
import { countOf } from './contract-outcomes.js'
import { checkCells, complaintCells, hasSomething, settledVisits } from './contract-tables.js'

/** The whole district, one row for each thing that was due. */
export function overviewTable(facts: readonly SpanFacts[]): Table {
  const visits = facts.flatMap((one) => one.visits)
  const complaints = facts.flatMap((one) => one.complaints)
  const files = [...new Set(facts.map(({ span }) => span.siteFile))]
  const row = (what: string, cells: Record<string, Cell>) => ({ cells: { what, ...cells }, records: files })
  const due = settledVisits(visits)
  const checks = (['contract', 'plan', 'rulebook'] as const).flatMap((askedBy) => {
    const groups = facts.flatMap((one) => one.checks.filter((group) => group.askedBy === askedBy))
    return groups.some(hasSomething) ? [row(`device checks (${askedBy})`, checkCells(groups))] : []
  })
  return {
    id: 'district',
    title: 'All sites',
    columns: [
      { id: 'what', title: 'what' },
      { id: 'due', title: 'due', decimals: 0 },
      ...outcomeColumns([...visits, ...complaints]),
      ...daysLateColumns,
      ...shareOfColumns,
    ],
    rows: [
      row('routine visits', {
        due: due.length,
        ...outcomeCells(visits),
        ...daysLateCells(visits),
        ...shareOfCells(countOf(due, 'in time'), due.length),
      }),
      row('complaints', { ...complaintCells(complaints), due: complaints.length }),
      ...checks,
    ],
    empty: 'The records answer for no site in this period.',
  }
}
