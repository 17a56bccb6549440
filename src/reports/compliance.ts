import { covers } from '../check/exceptions.js'
import { districtProblems, siteProblems } from '../check/run-check.js'
import type { Source } from '../files/source.js'
import type { ReadLedger } from '../ledger/read-ledger.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import { digestOf } from '../ledger/site-digest.js'
import { isoOf } from '../measure/calendar.js'
import type { Problem, Report, Table } from '../types.js'
import type { ListedRulebook } from './compliance-clauses.js'
import { byClauseTable, holdsLaw, notCovered, rulebooksListed, rulebooksTable } from './compliance-clauses.js'
import type { Application, SiteUses } from './compliance-collect.js'
import { collectUses } from './compliance-collect.js'
import { exceptionsCautions, exceptionsTable } from './compliance-exceptions.js'
import { complianceHeadline } from './compliance-headline.js'
import { collectKeeping, keepingCautions, keepingTable } from './compliance-keeping.js'
import { papersCautions, papersTable } from './compliance-papers.js'
import { collectPapers } from './compliance-papers-collect.js'
import { peopleCautions, peopleNotExamined, peopleTables } from './compliance-people.js'
import { collectPeople } from './compliance-people-collect.js'
import { collectStorage, storageCautions, storageTable } from './compliance-storage.js'
import {
  dutiesTable,
  notApplicableTable,
  openTable,
  shownTable,
  treatmentsTable,
} from './compliance-tables.js'
import { heldYearly, yearlyTable } from './compliance-yearly.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { counted } from './outcomes.js'
import type { Period } from './period.js'
import { cutCautions, periodOf } from './period.js'

export interface ComplianceOptions extends ReportOptions {
  /** What ties the page to the records: a commit, or that there is none. */
  readonly revision?: string
}

/**
 * The auditor's report: every duty in force held against every application of a period, each with its clause and its
 * record. It reads the ledger once, a site at a time.
 */
export function complianceReport(source: Source, options: ComplianceOptions): Report {
  const { asOf, site } = options
  const period = periodOf(options)
  const uses: SiteUses[] = []
  const digests: SiteDigest[] = []
  const named: Problem[] = []
  const people: ReturnType<typeof collectPeople>[] = []
  const papers: ReturnType<typeof collectPapers>[] = []
  const storage: ReturnType<typeof collectStorage>[] = []
  const keeping: ReturnType<typeof collectKeeping>[] = []
  const read = readLedger(source, options, (view) => {
    digests.push(digestOf(view))
    if (site !== undefined && site !== view.id) return
    const { exceptions } = view.district
    // Every rule is run only where an exception may cover what some rule finds.
    const all = exceptions.length === 0 ? undefined : siteProblems(view)
    uses.push(collectUses(view, period, all))
    people.push(collectPeople(view, period))
    papers.push(collectPapers(view, period))
    storage.push(collectStorage(view, period))
    keeping.push(collectKeeping(view, period))
    for (const problem of all ?? [])
      if (exceptions.some((exception) => covers(exception, problem))) named.push(problem)
  })
  const { district } = read
  if (!district) return nothing(read, options, period)
  if (district.exceptions.length > 0) named.push(...districtProblems(district, digests))
  const applications = uses
    .flatMap((one) => one.applications)
    .sort((a, b) => a.day - b.day || (a.file < b.file ? -1 : a.file > b.file ? 1 : 0))
  const yearly = heldYearly(district, digests, period)
  const listed = rulebooksListed(district, period)
  const clauses = byClauseTable(district, period, applications, yearly)
  const hasLaw = holdsLaw(listed, clauses)
  const wasExamined = uses.length > 0
  const none = wasExamined ? 'None recorded in this period.' : 'Not examined.'
  const tables: Table[] = [
    treatmentsTable(applications, none),
    openTable(applications, 'not shown'),
    openTable(applications, 'cannot be checked'),
    yearlyTable(yearly, period),
    shownTable(applications),
    notApplicableTable(applications),
    dutiesTable(applications, none),
    clauses,
    ...peopleTables(people, district, period, asOf),
    papersTable(papers, district, period, asOf),
    storageTable(storage, district, period, asOf),
    keepingTable(keeping, district, period, asOf),
    exceptionsTable(named, district, period, asOf, site),
    rulebooksTable(listed),
    signatureTable(options, period),
  ]
  const unknown = applications.filter(({ duties }) => duties.every(({ outcome }) => outcome !== 'shown'))
  const isUnread = read.notChecked.length > 0 || listed.some(({ data }) => data === undefined)
  return {
    report: 'compliance',
    title: 'What do the records show of every duty?',
    headline: complianceHeadline({ applications, yearly, sites: uses, period, options, isUnread, hasLaw }),
    asOf: isoOf(asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [
      { label: 'district', value: district.district.data.name },
      ...(site === undefined ? [] : [{ label: 'only site', value: site }]),
      {
        label: 'law in force in the ledger',
        value: hasLaw
          ? lawOf(listed, clauses)
          : 'none: no rulebook that district.yaml lists for this period holds any; only the label and the federal act are held',
      },
      { label: 'records', value: revisionOf(options) },
    ],
    tables: wasExamined ? tables : tables.map((table) => ({ ...table, empty: 'Not examined.' })),
    cautions: [
      ...ownCautions,
      ...peopleCautions,
      ...papersCautions,
      ...storageCautions,
      ...keepingCautions,
      ...exceptionsCautions,
      ...cutCautions(options),
    ],
    notExamined: [
      ...notExaminedOf(read),
      ...leftOutLines(uses),
      ...unknownLines(applications),
      ...peopleNotExamined(people),
      ...notCovered(listed),
      'local code: no rulebook tells it, and it wins over everything here.',
    ],
    incomplete: isUnread || unknown.some(isOfUnknownProduct),
  }
}

const ownCautions: readonly string[] = [
  '`Not shown` says what the record does not show, not that it was not done; `shown` says what the record shows, not that it was so.',
  'A duty of a class of uses is taken to hold unless the record shows an exemption. Where what it holds for hangs on a fact that is not recorded, it cannot be checked.',
  'A label is held as far as the register has it in data; the printed label decides. Limits that the register leaves out stand as one row that cannot be checked.',
  'Rows `beside the duties` are what other rules find of an application, such as on need or custom; where they find nothing there is no such row.',
  'Bait of one product put into devices on one visit is one application here; where the answers differ between devices, the row names them.',
  'This page is no approval, and no legal advice: the text of the law, local code and the label decide.',
]

function revisionOf({ asOf, revision }: ComplianceOptions): string {
  return `as of ${isoOf(asOf)}, ${revision ?? 'no revision is known'}`
}

function lawOf(listed: readonly ListedRulebook[], clauses: Table): string {
  const withLaw = new Set(
    clauses.rows.filter(({ cells }) => cells.kind === 'law').map(({ cells }) => String(cells.rulebook)),
  )
  return listed
    .filter(({ id }) => withLaw.has(id))
    .map(({ id, data }) => `${data?.title ?? id} (${id}, read ${data?.['read-on'] ?? 'never'})`)
    .join('; ')
}

function signatureTable(options: ComplianceOptions, period: Period): Table {
  const line = '_'.repeat(32)
  const row = (what: string, value: string) => ({ cells: { what, value }, records: [] })
  return {
    id: 'signature',
    title: 'Read and signed',
    columns: [
      { id: 'what', title: 'what' },
      { id: 'value', title: 'by hand' },
    ],
    rows: [
      row('records', revisionOf(options)),
      row('period', `${isoOf(period.from)} to ${isoOf(period.to)}`),
      row('read by', line),
      row('date', line),
      row('signature', line),
    ],
    empty: '',
    for: 'people',
  }
}

/** What was not held against anything, counted; never passed over in silence. */
function leftOutLines(sites: readonly SiteUses[]): string[] {
  return sites.flatMap(({ site, begins, planned, cancelled, beforeRecords, noPesticide, notRecorded }) => [
    ...(planned === 0
      ? []
      : [`${site}: ${counted(planned, 'application')} planned and not recorded as done.`]),
    ...(cancelled === 0 ? [] : [`${site}: ${counted(cancelled, 'application')} cancelled.`]),
    ...(beforeRecords === 0
      ? []
      : [`${site}: ${counted(beforeRecords, 'use')} before the records begin there on ${isoOf(begins)}.`]),
    ...(noPesticide === 0
      ? []
      : [`${site}: ${counted(noPesticide, 'use')} of what the register does not have as a pesticide.`]),
    ...notRecorded.map(
      (day) =>
        `${site}: a visit of ${isoOf(day)} tells of a pesticide, and no application of it is recorded.`,
    ),
  ])
}

function isOfUnknownProduct({ duties, product }: Application): boolean {
  return duties.some(({ absent }) => absent.includes(`products/${product}/product.yaml`))
}

function unknownLines(applications: readonly Application[]): string[] {
  const unknown = new Set(applications.filter(isOfUnknownProduct).map(({ product }) => product))
  return [...unknown].map(
    (product) =>
      `${product}: no record in the register that can be used; every duty of its uses stands as one that cannot be checked.`,
  )
}

function nothing(read: ReadLedger, options: ComplianceOptions, period: Period): Report {
  return {
    report: 'compliance',
    title: 'What do the records show of every duty?',
    headline: 'Nothing could be examined.',
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [],
    cautions: [],
    notExamined: notExaminedOf(read),
    incomplete: true,
  }
}
