import { describe, expect, it } from 'vitest'
import { reportJson } from '../../../src/output/report-json.js'
import { reviewJson } from '../../../src/output/review-json.js'
import { complaintsReport } from '../../../src/reports/complaints.js'
import { complianceReport } from '../../../src/reports/compliance.js'
import { conditionsReport } from '../../../src/reports/conditions.js'
import { contractReport } from '../../../src/reports/contract.js'
import { coverageReport } from '../../../src/reports/coverage.js'
import { effectReport } from '../../../src/reports/effect.js'
import { hotspotsReport } from '../../../src/reports/hotspots.js'
import type { ReportOptions } from '../../../src/reports/options.js'
import { useReport } from '../../../src/reports/use.js'
import type { Report } from '../../../src/types.js'
import { day } from '../../ledger/small-site.js'
import { example, reviewIn } from './reviews.js'

type JsonRow = Readonly<Record<string, unknown>>
interface JsonTable {
  readonly id: string
  readonly rows: readonly JsonRow[]
}

const source = example()
const reports: Readonly<Record<string, (options: ReportOptions) => Report>> = {
  complaints: (options) => complaintsReport(source, options),
  compliance: (options) => complianceReport(source, options),
  conditions: (options) => conditionsReport(source, options),
  contract: (options) => contractReport(source, options),
  coverage: (options) => coverageReport(source, options),
  effect: (options) => effectReport(source, { ...options, window: 90 }),
  hotspots: (options) => hotspotsReport(source, options),
  use: (options) => useReport(source, options),
}

/** Tables of an answer show all rows of these, and of the others those that the question is about. */
const whole = [
  'contract-on-visits',
  'contract-visits',
  'contract-device-checks',
  'coverage-by-site',
  'conditions-open',
  'complaints-answered',
  'complaints-answered-by-site',
  'effect-tactics',
  'effect-not-judged',
  'use-before',
  'use-products',
  'use-over-time',
  'compliance-treatments',
  'compliance-yearly',
]

/** Numbers of a row, by column. Text can lose a name on the way to the page; a number never changes. */
const numbersOf = (row: JsonRow, columns: readonly string[]) =>
  JSON.stringify(columns.map((column) => [column, row[column]]))

const numeric = (rows: readonly JsonRow[]) => [
  ...new Set(rows.flatMap((row) => Object.keys(row).filter((column) => typeof row[column] === 'number'))),
]

describe.each([
  ['of all sites', undefined],
  ['of one site', 'ottermere'],
  ['of another', 'quarry-road'],
])('the numbers of a review %s', (_, site) => {
  const asked = { ...(site === undefined ? {} : { site }) }
  const json = JSON.parse(reviewJson(reviewIn(source, asked))) as {
    readonly period: { readonly from: string; readonly to: string }
    readonly answers: readonly { readonly tables: readonly JsonTable[]; readonly commands: string[] }[]
  }
  const options: ReportOptions = {
    asOf: day('2026-06-30'),
    asOfIsToday: false,
    from: day(json.period.from),
    to: day(json.period.to),
    ...asked,
  }
  const tables = json.answers.flatMap((answer) => answer.tables)

  it.each(Object.keys(reports))('are those of report %s', (name) => {
    const told = JSON.parse(reportJson((reports[name] as (o: ReportOptions) => Report)(options))) as {
      readonly tables: readonly JsonTable[]
    }
    const compared = told.tables.flatMap((table) => {
      const shown = tables.filter(
        ({ id }) =>
          id === `${name}-${table.id}` ||
          (table.id === 'time-to-repair' && id.startsWith(`${name}-${table.id}-by-`)) ||
          id === `${name}-${table.id}-log`,
      )
      return shown.map((one) => {
        const columns = numeric(one.rows)
        const known = table.rows.map((row) => numbersOf(row, columns))
        for (const row of one.rows) expect(known).toContain(numbersOf(row, columns))
        if (whole.includes(one.id)) expect(one.rows.length, one.id).toBe(table.rows.length)
        return one.id
      })
    })
    expect(compared.length, `tables of ${name} in the review`).toBeGreaterThan(0)
  })

  it('are told with the command that tells them whole', () => {
    const commands = json.answers.flatMap((answer) => answer.commands)
    for (const name of Object.keys(reports))
      expect(commands).toContain(
        `doorsweep report ${name} --from ${json.period.from} --to ${json.period.to}${site === undefined ? '' : ` --site ${site}`} --as-of 2026-06-30`,
      )
  })
})
