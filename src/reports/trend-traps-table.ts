import { exactRate } from '../measure/poisson-rate.js'
import type { SprungTrapRule, TrapIndex } from '../measure/trap-index.js'
import { trapIndex } from '../measure/trap-index.js'
import { deviceTable } from '../records/tables.js'
import type { Cell, Column, Row, Table } from '../types.js'
import type { MeasuredColumn } from './measured.js'
import { measuredCells, measuredColumns } from './measured.js'
import { pestName } from './pest-name.js'
import type { TrapCatch } from './trend-traps.js'
import { closesWhenSprung } from './trend-traps.js'
import { compareSeries, unitInTitle, whereCells, whereColumns } from './trend-words.js'

interface IndexColumn extends MeasuredColumn {
  readonly rule: SprungTrapRule
  readonly forPeople: boolean
}

const per100 = { unit: 'per 100 trap-nights', decimals: 1 } as const

const indices: readonly IndexColumn[] = [
  { id: 'plain', title: 'plain', rule: 'none', forPeople: true, ...per100 },
  { id: 'corrected', title: 'corrected', rule: 'all-sprung', forPeople: true, ...per100 },
  { id: 'without-captures', title: 'field protocol', rule: 'all-but-captures', forPeople: false, ...per100 },
]

/** Catches of traps per 100 trap-nights, with and without the effort that sprung traps cost. */
export function trapIndexTable(catches: readonly TrapCatch[]): Table {
  const rows = catches.map((one) => ({ one, sums: sumsOf(one), answers: answersOf(one) }))
  rows.sort(
    (a, b) =>
      (b.answers[0]?.index?.per100 ?? -1) - (a.answers[0]?.index?.per100 ?? -1) ||
      compareSeries(a.one, b.one) ||
      (a.one.kind < b.one.kind ? -1 : 1),
  )
  return {
    id: 'trap-index',
    title:
      'Snap traps and multiple-catch traps: caught in trap-nights, and per 100 of them, plain and corrected for sprung traps',
    columns: columns(),
    shownToPeople: Math.min(
      mostShown,
      Math.max(fewestShown, rows.filter(({ sums }) => sums.captures > 0).length),
    ),
    rows: rows.map(({ one, sums, answers }): Row => {
      return {
        cells: {
          ...whereCells(one),
          pest: pestName(one.pest),
          device: deviceTable()[one.kind].name,
          'caught-shown': `${sums.captures} in ${sums.trapNights}`,
          'trap-shown': deviceTable()[one.kind].name.replace(/ trap$/, ''),
          'sprung-shown': closesWhenSprung(one.kind) ? sums.sprungEmpty + sums.otherCaptures : null,
          captured: sums.captures,
          'trap-nights': sums.trapNights,
          'sprung-empty': sums.sprungEmpty,
          'other-animals': sums.otherCaptures,
          ...Object.assign({}, ...answers.map(indexCells)),
          method:
            'Plain: caught per 100 trap-nights. Corrected: a trap that went off counts for half its interval, catches too (Nelson & Clark 1973); field protocol: the same, but not the catches (Bio-protocol, exchange detail 1401385). Limits: exact for the count (Garwood 1936), effort taken as known and catches as independent.',
          why: whyOf(one, answers),
        },
        records: one.files,
      }
    }),
    empty: 'No such trap was read in this period, as far as was asked.',
  }
}

const mostShown = 12
const fewestShown = 3

interface Answer {
  readonly column: IndexColumn
  /** Null for a trap that a catch does not close. */
  readonly index: TrapIndex | null
  readonly captures: number
}

function answersOf(one: TrapCatch): Answer[] {
  const { captures } = sumsOf(one)
  return indices.map((column) => ({
    column,
    captures,
    index: column.rule === 'none' || closesWhenSprung(one.kind) ? trapIndex(one.spells, column.rule) : null,
  }))
}

function columns(): Column[] {
  const work = { decimals: 0, for: 'work' } as const
  return unitInTitle([
    ...whereColumns,
    { id: 'pest', title: 'pest' },
    { id: 'trap-shown', title: 'trap', for: 'people' },
    { id: 'device', title: 'trap', for: 'work' },
    { id: 'caught-shown', title: 'caught', for: 'people' },
    { id: 'sprung-shown', title: 'else sprung', decimals: 0, for: 'people' },
    { id: 'captured', title: 'caught', unit: 'animals', ...work },
    { id: 'trap-nights', title: 'effort', unit: 'trap-nights', ...work },
    { id: 'sprung-empty', title: 'found sprung and empty', unit: 'traps', ...work },
    { id: 'other-animals', title: 'with other animals', unit: 'traps', ...work },
    ...indices.flatMap((column) => [
      ...measuredColumns(column).filter(({ for: whom }) => column.forPeople || whom === 'work'),
      { id: `${column.id}-trap-nights`, title: `effort, ${column.title}`, unit: 'trap-nights', ...work },
    ]),
    { id: 'method', title: 'method', for: 'work' },
    { id: 'why', title: 'because', for: 'work' },
  ])
}

function indexCells({ column, index, captures }: Answer): Record<string, Cell> {
  const effort = index?.effectiveTrapNights ?? 0
  const rate = index?.per100 == null ? null : exactRate(captures, effort)
  return {
    ...measuredCells(
      column,
      rate && { value: rate.rate * 100, low: rate.lower * 100, high: rate.upper * 100 },
    ),
    [`${column.id}-trap-nights`]: index === null || effort < 0 ? null : effort,
  }
}

function whyOf({ kind }: TrapCatch, [plain, corrected]: readonly Answer[]): string {
  if (plain?.index?.per100 == null) return 'no effort'
  if (!closesWhenSprung(kind)) return 'a catch does not close this trap, so nothing is to be corrected'
  if (corrected?.index?.per100 == null) return 'more traps were found sprung than stood there'
  return 'both can be told'
}

function sumsOf({ spells }: TrapCatch) {
  const sums = { trapNights: 0, captures: 0, otherCaptures: 0, sprungEmpty: 0 }
  for (const spell of spells) {
    sums.trapNights += spell.trapNights
    sums.captures += spell.captures
    sums.otherCaptures += spell.otherCaptures
    sums.sprungEmpty += spell.sprungEmpty
  }
  return sums
}
