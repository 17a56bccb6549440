import { asCarriedOut, draftFacts } from '../check/draft.js'
import { overlaid } from '../files/overlaid.js'
import type { Source } from '../files/source.js'
import type { ReadLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn } from '../ledger/spans.js'
import { dayOf, isoOf } from '../measure/calendar.js'
import { siteOfPath } from '../records/paths.js'
import type { Applied } from '../rules/reentry/applications.js'
import type { Day, Report, Table } from '../types.js'
import { afterwardsTable, askTable, papersTable } from './application-afterwards.js'
import { wordsTable } from './application-glossary.js'
import type { Page, Status } from './application-page.js'
import { areaNames, dayWords, pestWords } from './application-page.js'
import { isBrokenProduct, productName, productTable } from './application-product.js'
import { publicTextFor } from './application-public-text.js'
import { reentryTable } from './application-reentry.js'
import { signsTable, toldTable } from './application-told.js'
import { whereTable } from './application-where.js'
import { whyTable } from './application-why.js'
import { readOnlySite } from './only-site.js'
import type { ReportOptions } from './options.js'

export interface ApplicationOptions extends Pick<ReportOptions, 'asOf'> {
  /** Also the names of the people who did it and of the coordinator. */
  readonly withNames: boolean
  /** Also the records behind each row, whose file names hold names. */
  readonly withRecords: boolean
}

/** The page, or why there is none. */
export type ApplicationPage =
  | { readonly report: Report }
  | { readonly refused: 'not there' }
  | { readonly refused: 'later than as-of'; readonly day: string }
  | { readonly refused: 'not readable'; readonly why: string }

/**
 * One application for parents and for anyone who asks. One that is planned is read as if carried out as planned, so
 * that the waits of label and rulebooks can be told, and as of its own day where that is still to come.
 *
 * Of the free text of its record, the reason, the limit that was reached, what was tried first, why this product, how
 * the pest was recognized, the statement of an emergency and why it was cancelled are for the public, and are shown
 * without names and devices. Left out are the exact placements (`where`), what is looked at next (it names traps and
 * placements), lot, equipment, weather, notes, and why a record was corrected. Complaints, incidents and lists of
 * people who asked to be told are not read for it.
 */
export function applicationReport(
  source: Source,
  options: ApplicationOptions,
  file: string,
): ApplicationPage {
  const day = dayOf(/^sites\/[^/]+\/applications\/(\d{4}-\d{2}-\d{2})-[^/]+\.yaml$/.exec(file)?.[1] ?? '')
  const site = siteOfPath(file)
  if (day === null || site === undefined) return { refused: 'not there' }
  const bytes = source.read(file)
  if ('refused' in bytes)
    return bytes.refused === 'missing'
      ? { refused: 'not there' }
      : { refused: 'not readable', why: `${file}: ${bytes.detail}` }
  const stated = draftFacts(bytes.bytes).status
  // What was done on a later day is not known yet; what is planned for it, or no longer is, is.
  if (day > options.asOf && stated === 'done') return { refused: 'later than as-of', day: isoOf(day) }
  const laid = stated === 'planned' ? overlaid(source, new Map([[file, asCarriedOut(bytes.bytes)]])) : source
  const asOf = Math.max(day, options.asOf)
  const { read, view } = readOnlySite(laid, site, { asOf, asOfIsToday: false })
  const page = view && pageIn(view, file, stated, options)
  if (!page) return { refused: 'not readable', why: whyNot(read, file) }
  return { report: reportOf(page, read, options.withRecords) }
}

function whyNot({ notChecked }: ReadLedger, file: string): string {
  const [first] = notChecked.filter(({ what }) => what.startsWith('sites/') || what === 'the whole ledger')
  return first ? `${first.what}: ${first.why}` : `${file} is no record that can be used`
}

function pageIn(
  view: SiteView,
  file: string,
  stated: string | undefined,
  { asOf, withNames }: ApplicationOptions,
): Page | undefined {
  const record = view.applications.find((application) => application.file === file)
  if (!record) return undefined
  const placements = Object.values(record.data.areas).flatMap(({ where }) =>
    where === undefined ? [] : [where.replace(/\s+/g, ' ').trim()],
  )
  return {
    view,
    record,
    treatment: view.treatments.find((one) => one.record.file === file),
    status: statusOf(stated, record.day, asOf),
    known: asOf,
    withNames,
    text: publicTextFor({ view, placements, withNames }),
  }
}

function statusOf(stated: string | undefined, day: Day, asOf: Day): Status {
  if (stated === 'planned') return day < asOf ? 'passed' : 'planned'
  return stated === 'cancelled' ? 'cancelled' : 'done'
}

function reportOf(page: Page, read: ReadLedger, withRecords: boolean): Report {
  const { view, record, treatment, known } = page
  const papers = papersTable(page)
  const notExamined = [
    ...unreadLines(page, read),
    ...papers.unreadable.map((path) => `${path} could not be read.`),
  ]
  const incomplete = notExamined.length > 0
  const later = laterLine(page, read)
  const tables = [
    whyTable(page),
    productTable(page),
    whereTable(page),
    ...(treatment?.application ? [reentryTable(page, treatment as Applied)] : []),
    toldTable(page),
    signsTable(page),
    ...(page.status === 'cancelled' ? [] : [afterwardsTable(page)]),
    papers.table,
    askTable(page),
  ]
  const words = wordsTable(tables)
  return {
    report: 'application',
    title: `What parents may want to know, ${view.site.data.name}, ${isoOf(record.day)}`,
    headline: headlineOf(page),
    asOf: isoOf(known),
    facts: [
      { label: 'Day', value: dayWords(record.day) },
      { label: 'Done or not', value: statusWords(page) },
      ...correctedFacts(page),
    ],
    tables: [...(withRecords ? tables : tables.map(withoutRecords)), ...words],
    cautions,
    notExamined: later === undefined ? notExamined : [...notExamined, later],
    incomplete,
  }
}

const cautions = [
  'The label on the container decides, not this page.',
  'This page tells what the records show and do not show. It permits nothing.',
  'Do not touch or move bait, traps or what else was put out; tell the office.',
  // The number of the poison control centers of the United States, from memory.
  'In an emergency call 911. Poison Help, at any hour: 1-800-222-1222 (US).',
]

function headlineOf(page: Page): string {
  const { view, record, status } = page
  const { data } = record
  const at = `against ${pestWords(data.pest)} in: ${areaNames(view, Object.keys(data.areas))}.`
  switch (status) {
    case 'done':
      return `${productName(page)} was used ${at}`
    case 'planned':
      return `${productName(page)} is to be used ${at}`
    case 'passed':
      return `Planned, and not on record as done: ${productName(page)} ${at}`
    case 'cancelled':
      return `Cancelled: ${productName(page)} ${at}`
  }
}

function statusWords({ record, status, text }: Page): string {
  switch (status) {
    case 'done':
      return 'yes, by the record'
    case 'planned':
      return 'it is planned; by the record it has not been done'
    case 'passed':
      return 'it was planned; its day has passed, and the record does not show that it was done'
    case 'cancelled':
      return record.data.cancelled === undefined
        ? 'no, it was cancelled; the record does not say why'
        : `no, it was cancelled: ${text(record.data.cancelled)}`
  }
}

function correctedFacts({ record, known }: Page): Report['facts'] {
  const days = (record.data.corrections ?? []).map(({ on }) => on).filter((on) => dayIn(on) <= known)
  return days.length === 0
    ? []
    : [{ label: 'Record added to or corrected', value: [...new Set(days)].join(', ') }]
}

/** File names hold who wrote the record. */
function withoutRecords(table: Table): Table {
  return { ...table, rows: table.rows.map((row) => ({ ...row, records: [] })) }
}

/** What of the district could not be read; a person's record not by its name. */
function unreadLines(page: Page, { notChecked }: ReadLedger): string[] {
  const lines = notChecked.map(({ what, why }) =>
    /^(?:person |people\/)/.test(what)
      ? 'A record of a person cannot be used, so firm, licence or phone may be missing here.'
      : `${what.replace(/(\d{4}-\d{2}-\d{2})-[a-z0-9-]+/, '$1')}: ${why}.`,
  )
  return isBrokenProduct(page) || lines.length > 0 ? [...new Set(lines)] : []
}

function laterLine({ view, known, record }: Page, { later }: ReadLedger): string | undefined {
  const held = view.records.filter((one) => one !== record && 'day' in one && one.day > known).length
  const count = later + held
  if (count === 0) return undefined
  return count === 1
    ? 'One record dated after the as-of day was not looked at.'
    : `${count} records dated after the as-of day were not looked at.`
}
