import type { PdfLine } from '../files/pdf-lines.js'
import { sheetHeadings } from '../rules/products/sheet-headings.js'

/** How one of the sixteen headings stands on a sheet; only the first two are the heading with its number. */
export type HeadingState =
  | 'found'
  | 'out of order'
  | 'other heading'
  | 'without number'
  | 'in a list of contents'
  | 'not found'

export interface Heading {
  readonly number: number
  readonly state: HeadingState
  readonly page?: number
  readonly written?: string
  /** Place of its line among the lines of the sheet, where it is found in order. */
  readonly line?: number
}

export interface HeadingsOnSheet {
  readonly headings: readonly Heading[]
  /** Numbers of those that stand there, in order or not. */
  readonly found: readonly number[]
  /** How many of 1 to 16 stand before some heading, in whatever language. */
  readonly numbered: number
}

/**
 * How the headings are worded on sheets, as letters alone and from their beginning: 29 CFR 1910.1200, Appendix D,
 * Table D.1, and the like wordings of the European Union (Regulation (EC) 1907/2006, Annex II; from memory).
 */
const wordings: readonly RegExp[] = [
  /^(?:(?:chemical)?(?:product|company|substance|material|supplier|manufacturer|preparation|mixture|and|of|the))*identification/,
  /^(?:hazards?identification|identificationof(?:the)?hazards?)/,
  /^composition(?:and)?(?:information|dataon|ofingredients|oningredients)/,
  /^firstaid(?:measures?|procedures?|information)?/,
  /^fire(?:fighting|andexplosion)(?:measures?|procedures?|information)/,
  /^accidentalrelease(?:measures?|procedures?|information)/,
  /^(?:handlingandstorage|storageandhandling)/,
  /^exposurecontrols?(?:and)?(?:personal|individual)protection/,
  /^(?:physical(?:and)?chemical|chemical(?:and)?physical)(?:properties|characteristics|data)/,
  /^(?:stabilityandreactivity|reactivityandstability)/,
  /^toxicolog(?:ical|y)(?:information|data)/,
  /^eco(?:toxico)?log(?:ical|y)(?:information|data)/,
  /^(?:waste)?disposal(?:considerations?|information|methods?)/,
  /^transport(?:ation)?(?:information|data)/,
  /^regulat(?:ory|ions?)(?:information|data)/,
  /^(?:any)?otherinformation/,
]

/** A number that begins a line, with or without the word before it; `1.1` is none. What follows is the rest. */
const numberedLine =
  /^[([]?\s*(?:(section|sec\.?|part)\s*)?(?:no\.?\s*|number\s*|#\s*)?0?([1-9]|1[0-6])(?!\d)(?!\s?[.,]\s?\d)[\s.:;)\]\-|·•*]*(.*)$/i

/** Headings are lines, not paragraphs: what may follow the words, in letters. */
const longestRest = 90
/** Headings on lines that follow one another, with nothing between them, are a list of contents from here on. */
const listOfContents = 6

interface Candidate {
  readonly number: number
  /** First and last line. */
  readonly at: number
  readonly last: number
  readonly page: number
  readonly written: string
}

export function headingsOn(lines: readonly PdfLine[]): HeadingsOnSheet {
  const plain = lines.map(({ text, page }) => ({ text: plainText(text), page }))
  const candidates = plain.flatMap((_, at) => candidateAt(plain, at) ?? [])
  const contents = contentsAmong(candidates, plain)
  const body = candidates.filter((candidate) => !contents.has(candidate))
  const inOrder = longestRise(body)
  const headings = sheetHeadings.map((_, index): Heading => {
    const number = index + 1
    const isOfNumber = (candidate: Candidate) => candidate.number === number
    const told = (state: HeadingState, { page, written }: Pick<Candidate, 'page' | 'written'>) =>
      ({ number, state, page, written }) as const
    const found = inOrder.find(isOfNumber)
    if (found) return { ...told('found', found), line: found.at }
    const elsewhere = body.find(isOfNumber)
    if (elsewhere) return told('out of order', elsewhere)
    const unnumbered = plain.find(({ text }) => isWhollyHeading(text, number))
    if (unnumbered) return told('without number', { page: unnumbered.page, written: unnumbered.text })
    const other = plain.find(({ text }) => isOtherHeading(text, number))
    if (other) return told('other heading', { page: other.page, written: other.text })
    const listed = candidates.find(isOfNumber)
    if (listed) return told('in a list of contents', listed)
    return { number, state: 'not found' }
  })
  return {
    headings,
    found: headings
      .filter(({ state }) => state === 'found' || state === 'out of order')
      .map(({ number }) => number),
    numbered: numbersBeforeWords(plain),
  }
}

function candidateAt(lines: readonly PdfLine[], at: number): Candidate | undefined {
  const line = lines[at]
  const match = line && numberedLine.exec(line.text)
  if (!line || !match) return undefined
  const number = Number(match[2])
  const wording = wordings[number - 1]
  let letters = lettersOf(match[3] ?? '')
  let written = line.text
  for (let last = at; last < at + 3; last++) {
    if (last > at) {
      const next = lines[last]
      // A heading over several lines: short ones, on one page, and the next does not begin another section.
      if (!next || next.page !== line.page || letters.length > 40 || numberedLine.test(next.text))
        return undefined
      letters += lettersOf(next.text)
      written = `${written.replace(/-$/, '')} ${next.text}`
    }
    const found = wording?.exec(letters)
    if (found && letters.length - found[0].length <= longestRest)
      return { number, at, last, page: line.page, written: written.slice(0, 120) }
  }
  return undefined
}

/** Candidates that only list what is to come: several in a row, or with the number of a page behind dots. */
function contentsAmong(candidates: readonly Candidate[], lines: readonly PdfLine[]): ReadonlySet<Candidate> {
  const contents = new Set(candidates.filter(({ written }) => /\.{4,}|…{2,}|(?:\. ){4,}/.test(written)))
  let row: Candidate[] = []
  const end = () => {
    if (row.length >= listOfContents) for (const candidate of row) contents.add(candidate)
  }
  for (const candidate of candidates) {
    const before = row.at(-1)
    const between = before === undefined ? [] : lines.slice(before.last + 1, candidate.at)
    const goesOn = before === undefined || before.number < candidate.number
    if (!goesOn || between.some(({ text }) => /\p{L}/u.test(text))) {
      end()
      row = []
    }
    row.push(candidate)
  }
  end()
  return contents
}

/** The longest series of candidates whose numbers rise: the sheet's own order, whatever else names a section. */
function longestRise(candidates: readonly Candidate[]): Candidate[] {
  const bounded = candidates.slice(0, 2000)
  // Best series that ends at each number; sixteen of them, whatever the file.
  const best = new Map<number, Candidate[]>()
  for (const candidate of bounded) {
    let before: Candidate[] = []
    for (const [number, series] of best)
      if (number < candidate.number && series.length > before.length) before = series
    const known = best.get(candidate.number)
    if (known === undefined || before.length + 1 > known.length)
      best.set(candidate.number, [...before, candidate])
  }
  return [...best.values()].reduce<Candidate[]>(
    (longest, one) => (one.length > longest.length ? one : longest),
    [],
  )
}

function isWhollyHeading(text: string, number: number): boolean {
  const letters = lettersOf(text)
  return letters.length > 8 && wordings[number - 1]?.exec(letters)?.[0].length === letters.length
}

function isOtherHeading(text: string, number: number): boolean {
  const match = numberedLine.exec(text)
  return (
    match?.[1] !== undefined &&
    Number(match[2]) === number &&
    /^\p{Lu}/u.test(match[3] ?? '') &&
    (match[3] ?? '').length <= longestRest
  )
}

/** `SECCIÓN 4: …`, `4. …`: in a sheet of any language, most of 1 to 16 stand before words. */
function numbersBeforeWords(lines: readonly PdfLine[]): number {
  const numbers = new Set<string>()
  for (const { text } of lines) {
    const match = /^(?:\p{L}{3,12}\s*)?0?([1-9]|1[0-6])(?![\d.,]*\d)\s*[.:)-]?\s*\p{L}{2}/u.exec(text)
    if (match) numbers.add(match[1] ?? '')
  }
  return numbers.size
}

/** Ligatures, odd dashes and blanks as anyone would type them; letters set wide apart drawn together. */
function plainText(text: string): string {
  const plain = text
    .normalize('NFKC')
    .replace(/\u00ad/g, '')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/\s+/g, ' ')
    .trim()
  const parts = plain.split(' ')
  const isSpaced = parts.length >= 8 && parts.filter((part) => part.length === 1).length >= parts.length * 0.8
  return isSpaced ? parts.join('') : plain
}

function lettersOf(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\(s\)/gi, 's')
    .replace(/&/g, 'and')
    .replace(/[^A-Za-z]/g, '')
    .toLowerCase()
}
