import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import type { DistrictView } from '../../src/ledger/district-view.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import type { Period } from '../../src/reports/period.js'
import type { Table } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

export type Texts = Readonly<Record<string, string>>

/** A district in Oregon that is judged by its own rulebook alone, unless others are named. */
export const districtWith = (
  begin: string,
  duties: string,
  more = '',
  others: readonly string[] = [],
): Texts => ({
  'district.yaml': `format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: ${begin}
coordinator: [{from: ${begin}, who: marsh}]
rulebooks:
${['own', ...others].map((rulebook) => `  - {from: ${begin}, rulebook: ${rulebook}}`).join('\n')}
calendar: []
${more}`,
  'rulebooks/own.yaml': `title: Invented rulebook
jurisdiction: Invented
state: OR
read-on: 2026-01-01
covers: what the test asks
does-not-cover: [everything else]
${duties}`,
})

/** What every duty of an invented law has. */
export const act = (section: number) =>
  `from: 2020-01-01, kind: law, confidence: read, source: "Invented Pest Act, section ${section}"`

export const person = (id: string, name: string, more = ''): Texts => ({
  [`people/${id}.yaml`]: `name: ${name}\nroles: [applicator]\n${more}`,
})

/** A licence in spans of days. */
export const licences = (number: string, spans: string, facts = 'state: OR, categories: [structural]') =>
  `licences:\n  one: {number: ${number}, kind: applicator, ${facts}, spans: [${spans}]}\n`

export const product = (id: string, facts: string): Texts => ({
  [`products/${id}/product.yaml`]: `name: Invented ${id}\n${facts}\n`,
})

export const applied = (date: string, of = 'gel', who = 'okafor', more = ''): Texts => ({
  [`sites/oak/applications/${date}-${who}.yaml`]: `by: ${who}\nstatus: done\nproduct: ${of}\npest: german-cockroach\nmethod: bait-placement\nareas: {kitchen: {amount: 2 g}}\n${more}`,
})

export const period = (from: string, to: string): Period => ({ from: day(from), to: day(to) })

export interface Read<F> {
  readonly facts: readonly F[]
  readonly district: DistrictView
}

/** The facts of every site of a ledger over a period, with the picture of the district. */
export function factsOf<F>(
  files: Source | Texts,
  collect: (view: SiteView, period: Period) => F,
  over: Period,
  asOf = over.to,
): Read<F> {
  const source = 'list' in files ? (files as Source) : memorySource(oakFiles({}, files as Texts))
  const facts: F[] = []
  const { district, notChecked } = readLedger(source, { asOf, asOfIsToday: false }, (view) => {
    facts.push(collect(view, over))
  })
  // A slip in the records of a site is not to pass for an empty picture; records of the district may be broken.
  if (notChecked.some(({ what }) => what.startsWith('sites/')))
    throw new Error(`a site of this test cannot be read: ${JSON.stringify(notChecked)}`)
  if (!district) throw new Error('the district of this test cannot be read')
  return { facts, district }
}

/** Rows of a table as text, a dash for what is empty. */
export function rowsOf(table: Table | undefined, ...columns: string[]): string[] {
  if (!table) throw new Error('there is no such table')
  const known = new Set(table.columns.map(({ id }) => id))
  const unknown = columns.filter((column) => !known.has(column))
  if (unknown.length > 0) throw new Error(`there is no column ${unknown.join(', ')}`)
  return table.rows.map(({ cells }) => columns.map((column) => cells[column] ?? '–').join(' | '))
}
