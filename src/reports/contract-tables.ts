import { isoOf } from '../measure/calendar.js'
import type { Cell, Row, Table } from '../types.js'
import {
  answerCells,
  answerColumns,
  clusteredShareCells,
  daysLateCells,
  daysLateColumns,
  outcomeCells,
  outcomeColumns,
  shareOfCells,
  shareOfColumns,
  spanColumns,
} from './contract-cells.js'
import type { CheckFacts } from './contract-checks.js'
import type { SpanFacts } from './contract-collect.js'
import type { ComplaintFact } from './contract-complaints.js'
import { countOf } from './contract-outcomes.js'
import type { ContractSpan } from './contract-spans.js'
import type { VisitDueFact } from './contract-visits.js'

export const noContractWords = 'no contract states how often'

/** What was settled of the visits due: what is still to come and what cannot be told is not among them. */
export function settledVisits(visits: readonly VisitDueFact[]): VisitDueFact[] {
  return visits.filter(({ outcome }) => outcome !== 'not yet due' && outcome !== 'cannot be told')
}

export function spanCells({ site, contract, from }: ContractSpan): Record<string, Cell> {
  return {
    site,
    'contract-since': contract ? isoOf(from) : 'no contract',
    contractor: contract?.contractor ?? null,
  }
}

/** `monthly, 5 days of grace, in recess too` */
export function termsWords({ contract }: ContractSpan): string {
  if (!contract) return noContractWords
  const { grace } = contract
  return [
    contract['routine-visits'],
    ...(grace === undefined ? [] : [`${grace} of grace`]),
    ...(contract['in-recess'] === 'yes' ? ['in recess too'] : []),
  ].join(', ')
}

export function visitsTable(facts: readonly SpanFacts[]): Table {
  return {
    id: 'visits',
    title: 'Routine visits due and on record',
    columns: [
      ...spanColumns(facts.map(({ span }) => span)),
      { id: 'asked', title: 'asked' },
      { id: 'due', title: 'due', decimals: 0 },
      ...outcomeColumns(facts.flatMap(({ visits }) => visits)),
      ...daysLateColumns,
      { id: 'beyond', title: 'beyond due', decimals: 0 },
    ],
    rows: facts.map(
      ({ span, visits, beyond }): Row => ({
        cells: {
          ...spanCells(span),
          asked: termsWords(span),
          due: span.contract ? settledVisits(visits).length : null,
          ...outcomeCells(visits),
          ...daysLateCells(visits),
          beyond: beyond.length,
        },
        records: unique([
          span.siteFile,
          ...visits.flatMap(({ files }) => files),
          ...beyond.map(({ file }) => file),
        ]),
      }),
    ),
    empty: 'The records answer for no site in this period.',
  }
}

export function complaintsTable(facts: readonly SpanFacts[]): Table {
  const shown = facts.filter(({ complaints }) => complaints.length > 0)
  const all = shown.flatMap(({ complaints }) => complaints)
  return {
    id: 'complaints',
    title: 'Complaints received and answered',
    columns: [
      ...spanColumns(shown.map(({ span }) => span)),
      { id: 'asked', title: 'within' },
      { id: 'received', title: 'received', decimals: 0 },
      ...outcomeColumns(all),
      ...daysLateColumns.filter((column) => column.for === 'work'),
      ...answerColumns,
      ...shareOfColumns,
    ],
    rows: shown.map(
      ({ span, complaints }): Row => ({
        cells: { ...spanCells(span), asked: answerWords(complaints), ...complaintCells(complaints) },
        records: unique([span.siteFile, ...complaints.flatMap(({ files }) => files)]),
      }),
    ),
    empty: 'No complaint was received in this period.',
  }
}

export function complaintCells(complaints: readonly ComplaintFact[]): Record<string, Cell> {
  const ripe = complaints.filter(({ timeIsUp }) => timeIsUp)
  return {
    received: complaints.length,
    ...outcomeCells(complaints),
    ...daysLateCells(complaints),
    ...answerCells(complaints),
    ...shareOfCells(countOf(ripe, 'in time'), ripe.length),
  }
}

/** `5 days`; `5 days (rulebook)` where it is not the contract that says so. */
function answerWords(complaints: readonly ComplaintFact[]): string {
  const words = complaints.map(({ days, askedBy }) =>
    days === undefined
      ? 'nothing says how soon'
      : `${days} ${days === 1 ? 'day' : 'days'}${askedBy === 'contract' ? '' : ` (${askedBy})`}`,
  )
  return unique(words).join(', ')
}

export function checksTable(facts: readonly SpanFacts[]): Table {
  const shown = facts.filter(({ checks }) => checks.some(hasSomething))
  const rows = shown.flatMap(({ span, checks }) =>
    (['contract', 'plan', 'rulebook'] as const).flatMap((askedBy): Row[] => {
      const group = checks.find((one) => one.askedBy === askedBy)
      return group && hasSomething(group) ? [checksRow(span, group)] : []
    }),
  )
  return {
    id: 'device-checks',
    title: 'Checks of devices due and on record',
    columns: [
      ...spanColumns(shown.map(({ span }) => span)),
      { id: 'asked-by', title: 'asked by' },
      { id: 'interval', title: 'interval' },
      ...checkColumns,
      ...daysLateColumns.filter((column) => column.for === 'work'),
      ...shareOfColumns,
    ],
    rows,
    empty: 'No check of a device was due in this period.',
  }
}

export const checkColumns: Table['columns'] = [
  { id: 'due', title: 'due', decimals: 0 },
  { id: 'in-time', title: 'in time', decimals: 0 },
  { id: 'late', title: 'late', decimals: 0 },
  { id: 'no-record', title: 'no record', decimals: 0 },
  { id: 'not-yet-due', title: 'not yet due', decimals: 0, for: 'work' },
  { id: 'told-elsewhere', title: 'of these with another gap', decimals: 0, for: 'work' },
  { id: 'no-access', title: 'no access', decimals: 0 },
]

function checksRow(span: ContractSpan, group: CheckFacts): Row {
  return {
    cells: {
      ...spanCells(span),
      'asked-by': group.askedBy,
      interval: [...group.intervals].sort().join(', '),
      ...checkCells([group]),
    },
    records: unique([span.siteFile, ...group.files, ...group.late.flatMap(({ files }) => files)]),
  }
}

export function checkCells(groups: readonly CheckFacts[]): Record<string, Cell> {
  const late = groups.flatMap((group) => group.late)
  const inTime = sum(groups.map((group) => group.inTime))
  return {
    due: inTime + late.length,
    'in-time': inTime,
    late: countOf(late, 'late'),
    'no-record': countOf(late, 'no record'),
    'not-yet-due': sum(groups.map(({ running }) => running)),
    'told-elsewhere': late.filter(({ toldBy }) => toldBy !== undefined).length,
    'no-access': sum(groups.map(({ noAccess }) => noAccess)),
    ...daysLateCells(late),
    ...clusteredShareCells(groups.flatMap(({ together }) => [...together.values()])),
  }
}

export function hasSomething({ inTime, late, noAccess }: CheckFacts): boolean {
  return inTime + late.length + noAccess > 0
}

export function unique(texts: readonly string[]): string[] {
  return [...new Set(texts)]
}

export const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0)
