import { asCarriedOut, draftFacts } from '../check/draft.js'
import type { DraftedApplication } from '../check/precheck.js'
import { overlaid } from '../files/overlaid.js'
import type { Source } from '../files/source.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Report, Row, Table } from '../types.js'
import { areaName } from './area-name.js'
import { recessNotKnown } from './calendar-reach.js'
import { notExaminedOf } from './not-examined.js'
import { isUncounted, momentRows, noticeMomentsTable } from './notice-moments.js'
import type { NoticeText, TextId } from './notice-texts.js'
import { noticeTexts } from './notice-texts.js'
import { readOnlySite } from './only-site.js'
import { rulebooksOn } from './rulebooks-on.js'

const cautions = [
  'Send or hang nothing that was not checked by whoever answers for it, and look for names of pupils and parents in it first.',
  'The label is the law, local code governs, and a licensed applicator decides. This does not authorise an application.',
  'What is asked by rulebooks that the district does not list, by local code or by the label is not in it.',
]

const noneAsked = 'No rulebook that the district lists asks for any.'

export interface NoticeOptions {
  readonly today: Day
  /** One text alone. */
  readonly only?: TextId
  readonly language: string
}

/** The report for machines and for `texts` to be set below; how many blanks are left. */
export interface NoticeReport {
  readonly report: Report
  readonly texts: readonly NoticeText[]
  readonly blanks: number
}

/** The picture with the application carried out, or why there is none. */
type Looked = {
  readonly view: SiteView | undefined
  readonly treatment: Treatment | undefined
  /** Why it cannot be said what is asked; empty where it can. */
  readonly unsaid: readonly string[]
  readonly notExamined: readonly string[]
}

/** The notices, the sign and the statement that the rulebooks in force ask for on account of one application. */
export function noticeReport(
  source: Source,
  draft: DraftedApplication,
  options: NoticeOptions,
): NoticeReport {
  const { today, only, language } = options
  const looked = lookAt(source, draft, today)
  const { view, treatment, unsaid } = looked
  // Told to people beforehand, it is still to come, whatever its record says by now.
  const isDone = draftFacts(draft.text).status === 'done' && draft.path.day <= today
  const isWanted = ({ id }: NoticeText) => only === undefined || id === only
  const texts =
    view && treatment && unsaid.length === 0
      ? noticeTexts(view, treatment, isDone ? 'done' : 'planned', language).filter(isWanted)
      : []
  const blanks = texts.flatMap(({ lines }) => lines).filter(({ missing }) => missing !== undefined).length
  const ids = texts.map(({ id }) => id)
  const rows = view && treatment ? momentRows(view, treatment, today, ids) : []
  const cannotBeSaid = rows.some(isUncounted)
  const report: Report = {
    report: 'notice',
    title: `Notices and signs for an application, ${view?.site.data.name ?? draft.path.site}`,
    headline: headlineOf(looked, texts, blanks, cannotBeSaid, only),
    asOf: isoOf(today),
    facts: factsOf(looked, draft),
    tables: [
      noticeMomentsTable(rows, unsaid.length > 0 ? 'Cannot be said.' : noneAsked),
      missingTable(texts),
      textsTable(texts),
    ],
    cautions: [...cautions, ...new Set(texts.flatMap(({ remarks }) => remarks))],
    notExamined: looked.notExamined,
    incomplete: unsaid.length > 0 || looked.notExamined.length > 0 || cannotBeSaid,
  }
  return { report, texts, blanks }
}

/** What was recorded since the application counts too: a notice after an emergency comes later than it. */
function lookAt(source: Source, { path, text }: DraftedApplication, today: Day): Looked {
  const { file, day, site } = path
  const laid = overlaid(source, new Map([[file, asCarriedOut(text)]]))
  const { read, view } = readOnlySite(laid, site, { asOf: Math.max(day, today), asOfIsToday: false })
  const notExamined = notExaminedOf({ ...read, later: 0 })
  const treatment = view?.treatments.find(({ record, how }) => how === 'application' && record.file === file)
  if (!view || !treatment) return { view, treatment, unsaid: ['it could not be read'], notExamined }
  return { view, treatment, unsaid: unsaidOf(view, treatment), notExamined }
}

function unsaidOf(view: SiteView, treatment: Treatment): string[] {
  const { district, begins } = view
  if (!treatment.product)
    return [
      district.broken.has(`product ${treatment.productId}`)
        ? `the record of ${treatment.productId} in the register of products cannot be used`
        : `${treatment.productId} is not in the register of products`,
    ]
  if (treatment.day < begins) return [`the records of this site begin on ${isoOf(begins)}`]
  const recess = recessNotKnown(view, treatment)
  return recess === undefined
    ? []
    : [`what is asked hangs on whether ${isoOf(treatment.day)} lies in a recess, and ${recess}`]
}

function headlineOf(
  { view, treatment, unsaid }: Looked,
  texts: readonly NoticeText[],
  blanks: number,
  cannotBeSaid: boolean,
  only: TextId | undefined,
): string {
  if (unsaid.length > 0) return `It cannot be said what is asked: ${unsaid.join('; ')}.`
  if (texts.length === 0) {
    if (view && treatment && !isPesticide(treatment))
      return 'The register does not have this product as a pesticide; rulebooks are asked about pesticides only. Local code, the label or the contract may ask for a notice or a sign all the same.'
    const what = only === undefined ? 'a notice or a sign' : wantedWords[only]
    return `No rulebook that the district lists for that day asks for ${what} for this application, as recorded. Local code, the label or the contract may.`
  }
  const parts = [
    `Asked for: ${texts.map(({ title }) => title.charAt(0).toLowerCase() + title.slice(1)).join(', ')}`,
    blanks === 0
      ? 'no blank is left to fill in'
      : blanks === 1
        ? 'one blank is left to fill in'
        : `${blanks} blanks are left to fill in`,
    ...(cannotBeSaid ? ['NOT EVERY MOMENT CAN BE SAID'] : []),
  ]
  return `${parts.join('; ')}. This is no permission.`
}

const wantedWords: Readonly<Record<TextId, string>> = {
  parents: 'a notice to parents',
  staff: 'a notice to staff',
  sign: 'a sign',
  statement: 'a statement of an emergency',
}

function factsOf({ view, treatment }: Looked, { path }: DraftedApplication): Report['facts'] {
  const facts = [{ label: 'application', value: path.file }]
  if (!view || !treatment) return facts
  return [
    ...facts,
    { label: 'product', value: treatment.product?.data.name ?? treatment.productId },
    { label: 'where', value: treatment.areas.map(({ id }) => areaName(view, id)).join(', ') },
    { label: 'when', value: `${isoOf(treatment.day)} ${treatment.application?.time ?? '(no hours stated)'}` },
    { label: 'rulebooks asked', value: rulebooksOn(view.district.district.data.rulebooks, path.day) },
  ]
}

function missingTable(texts: readonly NoticeText[]): Table {
  const missing = new Map<
    string,
    { readonly about: string; readonly where: string; readonly ids: string[] }
  >()
  for (const { id, lines } of texts)
    for (const { about, missing: where } of lines) {
      if (where === undefined) continue
      const known = missing.get(`${about} ${where}`)
      if (known) known.ids.push(id)
      else missing.set(`${about} ${where}`, { about, where, ids: [id] })
    }
  return {
    id: 'missing',
    title: 'Blanks to fill in',
    columns: [
      { id: 'about', title: 'what' },
      { id: 'texts', title: 'in' },
      { id: 'where', title: 'where it is found' },
    ],
    rows: [...missing.values()].map(({ about, where, ids }) => ({
      cells: { about, texts: ids.join(', '), where },
      records: [],
    })),
    empty: texts.length === 0 ? 'No text was drafted.' : 'None.',
  }
}

export const textsTableId = 'texts'

/** The texts line by line, for machines; people read them as they are sent. */
function textsTable(texts: readonly NoticeText[]): Table {
  return {
    id: textsTableId,
    title: 'Texts',
    columns: [
      { id: 'text', title: 'text' },
      { id: 'language', title: 'language' },
      { id: 'about', title: 'about' },
      { id: 'line', title: 'line' },
      { id: 'asked-by', title: 'asked by' },
      { id: 'blank', title: 'blank' },
    ],
    rows: texts.flatMap(({ id, language, heading, lines }) =>
      [{ about: 'frame', text: heading, askedBy: [], missing: undefined }, ...lines].map(
        ({ about, text, askedBy, missing }): Row => ({
          cells: {
            text: id,
            language,
            about,
            line: text,
            'asked-by': [...new Set(askedBy.map((citation) => citation.text))].join('; ') || null,
            blank: missing === undefined ? 'no' : 'yes',
          },
          records: [],
        }),
      ),
    ),
    empty: 'No text was drafted.',
  }
}
