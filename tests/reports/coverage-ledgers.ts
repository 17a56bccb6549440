import { memorySource } from '../../src/files/memory.js'
import { coverageReport } from '../../src/reports/coverage.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string>>

export const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  ...more,
})

/** A plan in force since the records begin; `says` are its thresholds and where one is enough. */
export const plan = (says: string) => `spans: [{from: 2026-01-01, ${says}, tactics: {clean: {do: Clean}}}]`

export const complaint = (pest: string, area?: string) =>
  `by: lind\nfrom: staff\n${area === undefined ? '' : `area: ${area}\n`}pest: ${pest}\nsays: small and quick\n`

export const board = (area: string, pest = 'german-cockroach', traps = 1) =>
  `{kind: sticky-trap, area: ${area}, for: [${pest}], traps: ${traps}}`

export function coverageOn(visits: Texts, others: Texts = {}, more: Partial<ReportOptions> = {}): Report {
  return coverageReport(memorySource(oakFiles(visits, others)), options(more))
}

export function rowsOf(report: Report, table: string): readonly Row[] {
  const found = report.tables.find(({ id }) => id === table)
  if (!found) throw new Error(`there is no table ${table}`)
  return found.rows
}

export function cellsOf(report: Report, table: string, ...ids: readonly string[]) {
  return rowsOf(report, table).map(({ cells }) => ids.map((id) => cells[id]))
}

/** Needs in short: place, pest, what, and how many to add. */
export const needsOf = (report: Report) => cellsOf(report, 'needs', 'site', 'area', 'pest', 'need', 'to-add')

/**
 * A second site with six rooms, in each a board that caught 1, 1 and 7 cockroaches in 20 nights each. Mean 3, χ² = (4 + 4 +
 * 16)/3 = 8 with 2 degrees of freedom; Σ(1 − ⅓)·3 over three readings is 6, so c = (8 − 2)/6 = 1, and six times that is 1 too.
 */
export function clumpedElm(): Record<string, string> {
  const rooms = [1, 2, 3, 4, 5, 6]
  const files: Record<string, string> = {
    'sites/elm/site.yaml': `
name: Elm School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: []
areas: {${rooms.map((at) => `room-${at}: {kind: office}`).join(', ')}}
`,
    'sites/elm/visits/2026-01-01-okafor.yaml': `purpose: set-up\nby: okafor\nset: {${rooms.map((at) => `E${at}: ${board(`room-${at}`)}`).join(', ')}}\n`,
  }
  for (const [date, count] of [
    ['2026-01-21', 1],
    ['2026-02-10', 1],
    ['2026-03-02', 7],
  ] as const)
    files[`sites/elm/visits/${date}-okafor.yaml`] =
      `purpose: follow-up\nby: okafor\nreadings: {${rooms.map((at) => `E${at}: {german-cockroach: ${count}, renewed: yes}`).join(', ')}}\n`
  return files
}
