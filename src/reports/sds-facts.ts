import type { PdfLine } from '../files/pdf-lines.js'
import { linesOf } from '../files/pdf-lines.js'
import type { PdfText } from '../files/pdf-text.js'
import type { RevisionOnSheet } from './sds-dates.js'
import { revisionOn } from './sds-dates.js'
import type { HeadingsOnSheet } from './sds-headings.js'
import { headingsOn } from './sds-headings.js'
import { productNameOn, registrationsOn, titleOn } from './sds-names.js'

/** What a sheet says, as far as its text can be read. */
export interface SheetFacts {
  readonly title: string | undefined
  /** What the file gives as its title, beside its pages. */
  readonly fileTitle: string | undefined
  readonly name: string | undefined
  readonly registrations: readonly string[]
  readonly revision: RevisionOnSheet | undefined
  readonly headings: HeadingsOnSheet
  readonly pageCount: number
  /** Why it cannot be held against the register at all. */
  readonly notASheet?: string
  /** What of it was not read. */
  readonly unread: readonly string[]
  /** Where something may stand that was not found: pages that are blank or scanned, an end that is missing. */
  readonly doubtful: readonly string[]
}

/** With fewer of the sixteen headings a text is not taken for a safety data sheet. */
const fewestHeadings = 8
/** With so many of 1 to 16 before words, in whatever language, it may be one whose headings are not the English. */
const manyNumbers = 12

export function factsOf(pdf: PdfText): SheetFacts {
  const { lines, headings } = bestReading(pdf)
  const firstSection = lines.slice(0, endOfFirstSection(lines, headings))
  const facts = {
    title: titleOn(lines),
    fileTitle: pdf.title,
    name: productNameOn(firstSection),
    registrations: registrationsOn(lines),
    revision: revisionOn(lines),
    headings,
    pageCount: pdf.pageCount,
    unread: unreadOf(pdf),
    doubtful: doubtfulIn(pdf),
  }
  const why = whyNoSheet(lines, headings)
  return why === undefined ? facts : { ...facts, notASheet: why }
}

/** Text in the order of drawing, mostly that of reading; where that shows fewer headings, from top to foot. */
function bestReading(pdf: PdfText): { lines: PdfLine[]; headings: HeadingsOnSheet } {
  const [drawn, seen] = (['as drawn', 'as seen'] as const).map((order) => {
    const lines = linesOf(pdf.pages, order)
    const headings = headingsOn(lines)
    const inOrder = headings.headings.filter(({ state }) => state === 'found').length
    return { lines, headings, worth: headings.found.length * 100 + inOrder }
  }) as [Reading, Reading]
  return seen.worth > drawn.worth ? seen : drawn
}

interface Reading {
  readonly lines: PdfLine[]
  readonly headings: HeadingsOnSheet
  readonly worth: number
}

/** The name of the product is looked for up to the second heading, or on the first page where there is none. */
function endOfFirstSection(lines: readonly PdfLine[], { headings }: HeadingsOnSheet): number {
  const second = headings.find(({ number }) => number === 2)?.line
  const nextPage = lines.findIndex(({ page }) => page > 1)
  return second ?? (nextPage === -1 ? lines.length : nextPage)
}

function whyNoSheet(lines: readonly PdfLine[], headings: HeadingsOnSheet): string | undefined {
  if (!lines.some(({ text }) => /\p{L}{2}/u.test(text)))
    return 'no text can be read from it; it may be a scan'
  const { found, numbered } = headings
  if (found.length >= fewestHeadings) return undefined
  const count = found.length === 0 ? 'none' : `only ${found.length}`
  if (numbered >= manyNumbers)
    return `its sections are numbered, but ${count} of the sixteen headings stand there in English; it may be in another language, so nothing can be said of it`
  return `it does not read as a safety data sheet: ${count} of the sixteen headings ${found.length === 1 ? 'was' : 'were'} found, and it takes ${fewestHeadings}`
}

/** Numbers of pages without any text: blank, or scanned. */
function textless(pdf: PdfText): number[] {
  return pdf.pages.flatMap((page, at) =>
    'pieces' in page && !page.pieces.some(({ text }) => text.trim() !== '') ? [at + 1] : [],
  )
}

function unreadOf(pdf: PdfText): string[] {
  const failed = pdf.pages.flatMap((page, at) => ('unreadable' in page ? [at + 1] : []))
  return [
    ...(failed.length > 0 ? [`${pagesOf(failed)} could not be read`] : []),
    ...(pdf.pages.length < pdf.pageCount
      ? [`of ${pdf.pageCount} pages the first ${pdf.pages.length} were read`]
      : []),
  ]
}

function doubtfulIn(pdf: PdfText): string[] {
  const empty = textless(pdf)
  return [
    ...(empty.length > 0 && empty.length < pdf.pages.length
      ? [`${pagesOf(empty)} without text: blank, or a scan`]
      : []),
    ...(pdf.cutOff ? ['the file does not end as a PDF does; it may be cut off'] : []),
  ]
}

function pagesOf(pages: readonly number[]): string {
  const shown = pages.slice(0, 12).join(', ')
  return `${pages.length === 1 ? 'page' : 'pages'} ${shown}${pages.length > 12 ? ', …' : ''}`
}
