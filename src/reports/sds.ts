import type { PdfRead } from '../files/pdf-text.js'
import { isoOf } from '../measure/calendar.js'
import { sheetHeadings } from '../rules/products/sheet-headings.js'
import type { Day, Report, Row } from '../types.js'
import type { Compared, InRegister } from './sds-compare.js'
import { compared, isOpen } from './sds-compare.js'
import { entryOf } from './sds-entry.js'
import type { SheetFacts } from './sds-facts.js'
import { factsOf } from './sds-facts.js'
import type { Heading } from './sds-headings.js'

/** One sheet that was asked about. */
export interface AskedSheet {
  /** Its path as the reader knows it. */
  readonly path: string
  /** As an entry of the register names it: from the folder of the product. */
  readonly file: string
  readonly sha256: string
  readonly read: PdfRead | { readonly refused: string; readonly detail: string }
  readonly register?: InRegister
}

export interface SdsPage {
  readonly report: Report
  /** Something differs, is missing, or could be either. */
  readonly isOpen: boolean
}

interface Looked {
  readonly asked: AskedSheet
  readonly facts?: SheetFacts
  readonly rows: readonly Compared[]
  /** Why it could not be read, or not in full. */
  readonly notExamined: readonly string[]
}

const cautions = [
  'What stands under the headings is not judged. In an emergency the sheet itself counts.',
  'The register was not changed: look at the entry, correct it, and paste it yourself.',
]

/** What safety data sheets say on paper, beside what the register says of them. Changes nothing. */
export function sdsReport(sheets: readonly AskedSheet[], subject: string, asOf: Day): SdsPage {
  const looked = sheets.map(look)
  const isSeveral = sheets.length > 1
  const open = looked.flatMap(({ rows }) => rows.filter(isOpen))
  const notExamined = looked.flatMap((one) => one.notExamined.map((why) => `${one.asked.path}: ${why}.`))
  const sheetColumn = { id: 'sheet', title: 'sheet', ...(isSeveral ? {} : { for: 'work' as const }) }
  const entries = looked.flatMap(({ asked: { file, sha256, register }, facts }) =>
    facts && facts.notASheet === undefined
      ? entryOf(facts, { file, sha256, register, asOf: isoOf(asOf) })
      : [],
  )
  const report: Report = {
    report: 'sds',
    title: `Safety data sheet${isSeveral ? 's' : ''}, ${subject}`,
    headline: headlineOf(looked, open),
    asOf: isoOf(asOf),
    facts: looked.map(({ asked, facts }) => ({ label: 'Sheet', value: factOf(asked, facts) })),
    tables: [
      {
        id: 'compared',
        title: 'What the PDF says, and what the register says',
        columns: [
          sheetColumn,
          { id: 'what', title: 'what' },
          { id: 'pdf', title: 'in the PDF' },
          { id: 'register', title: 'in the register' },
          { id: 'result', title: 'result' },
        ],
        rows: looked.flatMap(({ asked, rows }) =>
          rows.map(({ what, sheet, register, result }) =>
            rowOf(asked, {
              what,
              pdf: sheet ?? null,
              register: register ?? null,
              result: result ?? null,
            }),
          ),
        ),
        empty: 'Nothing could be read.',
      },
      {
        id: 'headings',
        title: 'The sixteen headings (29 CFR 1910.1200, Appendix D)',
        columns: [
          sheetColumn,
          { id: 'number', title: 'no.' },
          { id: 'heading', title: 'heading' },
          { id: 'pdf', title: 'in the PDF' },
          { id: 'register', title: 'register' },
          { id: 'page', title: 'page', for: 'work' },
          { id: 'state', title: 'state', for: 'work' },
          { id: 'written', title: 'as written', for: 'work' },
        ],
        rows: looked.flatMap((one) =>
          (one.facts && one.facts.notASheet === undefined ? one.facts.headings.headings : []).map((heading) =>
            headingRow(one.asked, heading),
          ),
        ),
        empty: 'Not examined.',
      },
    ],
    cautions: entries.length === 0 ? cautions.slice(0, 1) : cautions,
    notExamined,
    incomplete: notExamined.length > 0,
    ...(entries.length === 0
      ? {}
      : { paste: { title: pasteTitle(sheets), text: ['sds:', ...entries, ''].join('\n') } }),
  }
  return { report, isOpen: open.length > 0 }
}

function look(asked: AskedSheet): Looked {
  const { read, register, sha256 } = asked
  if ('refused' in read) return { asked, rows: [], notExamined: [read.detail] }
  const facts = factsOf(read)
  if (facts.notASheet !== undefined)
    return { asked, facts, rows: [], notExamined: [facts.notASheet, ...facts.unread, ...facts.doubtful] }
  const rows = compared(facts, sha256, register)
  // A page without text matters where something was not found that may stand on it.
  const isLacking = rows.some(({ result }) => result === 'not found') || facts.headings.found.length < 16
  return { asked, facts, rows, notExamined: [...facts.unread, ...(isLacking ? facts.doubtful : [])] }
}

function headlineOf(looked: readonly Looked[], open: readonly Compared[]): string {
  const unread = looked.filter(({ rows }) => rows.length === 0).length
  if (looked.length === 0) return 'The register has no sheet of this product.'
  if (unread === looked.length)
    return looked.length === 1
      ? 'This file could not be read as a safety data sheet.'
      : `None of the ${looked.length} files could be read as a safety data sheet.`
  const some = unread === 0 ? '' : `${unread} of ${looked.length} files could not be read as one. `
  const isEntered = looked.some(({ asked }) => asked.register?.entry !== undefined)
  if (!isEntered && open.every(({ result }) => result === 'not in register'))
    return looked.some(({ asked }) => asked.register)
      ? 'This sheet is not in the register yet; what an entry takes was found.'
      : 'What an entry takes was found; no product was named to hold it against.'
  if (open.length === 0) return `${some}What was looked for was found, and agrees with the register.`
  const whats = [...new Set(open.map(({ what, result }) => `${what} (${result})`))]
  return `${some}${open.length === 1 ? 'One thing needs' : `${open.length} things need`} a look: ${whats.join(', ')}.`
}

function factOf({ path, register }: AskedSheet, facts: SheetFacts | undefined): string {
  const entry = register?.entry?.sheet
  return [
    path,
    ...(facts ? [facts.pageCount === 1 ? '1 page' : `${facts.pageCount} pages`] : []),
    ...(entry
      ? [`in the register from ${entry.from}${entry.until === undefined ? '' : ` until ${entry.until}`}`]
      : register
        ? ['not in the register']
        : []),
    ...(facts && facts.notASheet === undefined ? facts.doubtful : []),
  ].join('; ')
}

function headingRow(asked: AskedSheet, { number, state, page, written }: Heading): Row {
  const listed = asked.register?.entry?.sheet.sections
  return rowOf(asked, {
    number,
    heading: sheetHeadings[number - 1] ?? '',
    pdf: inWords(state, page),
    register: listed === undefined ? null : listed.includes(number) ? 'listed' : 'not listed',
    page: page ?? null,
    state,
    written: written ?? null,
  })
}

function inWords(state: Heading['state'], page: number | undefined): string {
  if (state === 'found') return `page ${page}`
  return page === undefined ? state : `${state}, page ${page}`
}

function rowOf(asked: AskedSheet, cells: Row['cells']): Row {
  const { register, path, file } = asked
  return { cells: { sheet: file, ...cells }, records: register ? [register.product.file, path] : [path] }
}

function pasteTitle(sheets: readonly AskedSheet[]): string {
  const record = sheets.find(({ register }) => register)?.register?.product.file ?? 'product.yaml'
  return `To paste into ${record}, as items of its list \`sds\`:`
}
