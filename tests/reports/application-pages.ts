import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import { workTree } from '../../src/files/work-tree.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportMarkdown } from '../../src/output/report-markdown.js'
import { reportText } from '../../src/output/report-text.js'
import { applicationReport } from '../../src/reports/application.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import type { Report } from '../../src/types.js'
import { day } from '../ledger/small-site.js'

export const example = (name: string) =>
  workTree(new URL(`../../examples/${name}/`, import.meta.url).pathname)
export const district = example('district')

export interface Asked {
  readonly asOf?: string
  readonly withNames?: boolean
  readonly withRecords?: boolean
}

export function reportOf(source: Source, id: string, asked: Asked = {}): Report {
  const [site = '', name = ''] = id.split('/')
  const { asOf = '2026-06-30', withNames = false, withRecords = false } = asked
  const page = applicationReport(
    source,
    { asOf: day(asOf), withNames, withRecords },
    `sites/${site}/applications/${name}.yaml`,
  )
  if (!('report' in page)) throw new Error(`there is no page: ${JSON.stringify(page)}`)
  return page.report
}

/** The page as answers by table and question, and the other tables as rows. */
export function pageOf(source: Source, id: string, asked: Asked = {}) {
  const report = reportOf(source, id, asked)
  const says: Record<string, Record<string, string>> = {}
  const rows: Record<string, string[]> = {}
  for (const { id: table, rows: all } of report.tables) {
    says[table] = Object.fromEntries(all.map(({ cells }) => [String(cells.question), String(cells.answer)]))
    rows[table] = all.map(({ cells }) => Object.values(cells).join(' | '))
  }
  return {
    ...report,
    says,
    lines: rows,
    stated: Object.fromEntries(report.facts.map((f) => [f.label, f.value])),
  }
}

export const plain = { strong: (text: string) => text, faint: (text: string) => text } as never

/** Everything any format shows of a report. */
export function everythingOf(report: Report, showWork = false): string {
  return [
    reportText(report, { paint: plain, showWork }),
    reportMarkdown(report, { showWork }),
    reportJson(report),
    ...report.tables.map(({ id }) => reportCsv(report, id)),
  ].join('\n')
}

/** The ledger of the rules' examples with one application of 12 March 2026, a Thursday, and other files. */
export function oak(application: string, others = '', date = '2026-03-12'): Source {
  return memorySource(
    ledgerWith(`\n=== sites/oak/applications/${date}-okafor.yaml\n${application.trim()}\n${others}`),
  )
}
export const oakPage = (application: string, others = '', asked: Asked = {}) =>
  pageOf(oak(application, others), 'oak/2026-03-12-okafor', { asOf: '2026-03-20', ...asked })

/** As little as a record can say. */
export const bare = `
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {}}
method: crack-and-crevice`

/** A spray that is told to the end; the label of spray-a says to stay out until it is dry. */
export const spray = `
by: okafor
status: done
product: spray-a
pest: german-cockroach
areas: {kitchen: {amount: 2 fl oz}}
method: spot
amount: 2 fl oz
time: 15:40 to 16:05
dry: {at: 16:30, by: okafor}
reopened: {at: 17:00, by: lind}`

export const waiting = (wait: string) => `
=== rulebooks/own.yaml
title: Own duties
jurisdiction: Example District
read-on: 2026-03-01
covers: re-entry
does-not-cover: [anything else]
reentry:
  wait:
    - {from: 2026-01-01, wait: ${wait}, label: if longer, source: "Invented Pest Act, section 8", kind: law, confidence: read}
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: [{from: 2026-01-01, rulebook: own}]
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`
