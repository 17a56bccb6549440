import { memorySource } from '../../src/files/memory.js'
import { contractReport } from '../../src/reports/contract.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

export type Texts = Readonly<Record<string, string>>

/** The site file of Oak School with a contract and, after it, whatever else is given. */
export function siteWith(contract: string, more = ''): string {
  return `name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: ${contract}
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom}
${more}`
}

/** Terms from 2026-01-01 on, when the records begin; the ledger has no school calendar, so every month is in session. */
export function terms(text: string): string {
  return `[{from: 2026-01-01, contractor: Invented Pest Services, ${text}}]`
}

export const oakSite = 'sites/oak/site.yaml'

/** Routine visits on these days, each by okafor, who read the log and met the site manager. */
export function routineOn(...dates: string[]): Record<string, string> {
  return Object.fromEntries(dates.map((date) => [date, routine()]))
}

export function routine(more = ''): string {
  return `purpose: routine\nby: okafor\nsite-manager: lind\ncomplaint-log: read\n${more}`
}

export interface Asked extends Partial<Omit<ReportOptions, 'asOf' | 'from' | 'to'>> {
  readonly asOf: string
  readonly from?: string
  readonly to?: string
}

export function options({ asOf, from, to, ...more }: Asked): ReportOptions {
  return {
    asOfIsToday: false,
    ...more,
    asOf: day(asOf),
    ...(from === undefined ? {} : { from: day(from) }),
    ...(to === undefined ? {} : { to: day(to) }),
  }
}

export function contractOf(files: ReadonlyMap<string, string>, asked: Asked): Report {
  return contractReport(memorySource(files), options(asked))
}

export function oakContract(visits: Texts, others: Texts, asked: Asked): Report {
  return contractOf(oakFiles(visits, others), asked)
}

export function rowsOf(report: Report, table: string): readonly Row[] {
  const found = report.tables.find(({ id }) => id === table)
  if (!found) throw new Error(`there is no table ${table}`)
  return found.rows
}

/** The cells of the only row of a table. */
export function onlyRow(report: Report, table: string): Row['cells'] {
  const [row, ...others] = rowsOf(report, table)
  if (!row || others.length > 0) throw new Error(`one row is asked for, not ${rowsOf(report, table).length}`)
  return row.cells
}

/** Every visit due in a few words: what it is for, its last day, the visit, and the outcome. */
export function visitsInShort(report: Report): string[] {
  return rowsOf(report, 'each-visit').map(({ cells }) => {
    const late = cells['days-late'] === null ? '' : ` by ${cells['days-late']}`
    return `${cells.about}, by ${cells['last-day']}: ${cells.made ?? 'none'}, ${cells.outcome}${late}`
  })
}
