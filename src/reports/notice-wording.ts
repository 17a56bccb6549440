import type { DistrictView } from '../ledger/district-view.js'
import type { Loaded } from '../ledger/loaded.js'
import type { NoticeContent } from '../records/use-words.js'
import type { WordingFor } from '../records/wording.js'
import { filledIn, leavesItOut, unknownBlanks } from '../records/wording.js'
import { isSpoken, ownCautions, ownHeading, ownLines } from './notice-own-words.js'

/** The words of one text: those of the district in a language, and ours where it has none. */
export interface Wording {
  readonly language: string
  /** The record of the district's words; undefined where they are all ours. */
  readonly file: string | undefined
  /** A line with its facts put in, and whether it needs none since it holds the words themselves. */
  readonly line: (content: NoticeContent, values: ReadonlyMap<string, string>) => string
  readonly holdsItself: (content: NoticeContent) => boolean
  readonly heading: string
  readonly opening: string | undefined
  readonly closing: string | undefined
  readonly cautions: string
  /** What the reader must know of where the words are from; grows as lines are made. */
  readonly remarks: Set<string>
}

/** Languages in which the district has words, in order of the alphabet. */
export function languagesOf({ wordings }: DistrictView): string[] {
  return [...new Set([...wordings.values()].map(({ data }) => data.language))].sort()
}

/** The district's record for a text and language; the first by name where there are several. */
export function wordingRecord({ wordings }: DistrictView, to: WordingFor, language: string) {
  return [...wordings.values()]
    .filter(({ data }) => data.language === language && data.for.includes(to))
    .sort((a, b) => (a.id < b.id ? -1 : 1))
}

/** `opening` is our own where the district has none. */
export function wordingOf(
  district: DistrictView,
  to: WordingFor,
  language: string,
  opening: string | undefined,
  emergency: boolean,
  common: ReadonlyMap<string, string>,
): Wording {
  const remarks = new Set<string>()
  const [record, ...others] = wordingRecord(district, to, language)
  if (!record) return oursAlone(to, language, opening, remarks)
  if (others.length > 0) remarks.add(`Several wordings fit; ${record.file} is taken.`)
  return theirs(record, opening, emergency, common, remarks)
}

function oursAlone(
  to: WordingFor,
  language: string,
  opening: string | undefined,
  remarks: Set<string>,
): Wording {
  if (language !== 'en')
    remarks.add(`No wording of the district in \`${language}\` is for ${textName[to]}: it is in English.`)
  return {
    language: 'en',
    file: undefined,
    line: (content, values) => filledIn(ownLines[content], values),
    holdsItself: () => false,
    heading: ownHeading,
    opening,
    closing: undefined,
    cautions: ownCautions,
    remarks,
  }
}

function theirs(
  { file, data }: Loaded<'wording'>,
  opening: string | undefined,
  emergency: boolean,
  common: ReadonlyMap<string, string>,
  remarks: Set<string>,
): Wording {
  const english = data.language === 'en' ? '' : ', in English'
  const without = (what: string) => remarks.add(`${file} has no ${what}: ours stands there${english}.`)
  const part = (key: 'heading' | 'opening' | 'opening-in-emergency' | 'closing' | 'cautions') => {
    const text = data[key]
    if (text === undefined) return undefined
    if (unknownBlanks(text, undefined).length === 0) return filledIn(text, common)
    remarks.add(`The \`${key}\` of ${file} has a blank that is none there; it is not used.`)
    return undefined
  }
  const orOurs = <T extends string | undefined>(key: Parameters<typeof part>[0], ours: T): string | T => {
    const text = part(key)
    if (text === undefined && ours !== undefined) without(`\`${key}\` that can be used`)
    return text ?? ours
  }
  const usable = (content: NoticeContent) => {
    const line = data.lines[content]
    if (line === undefined) return undefined
    return unknownBlanks(line, content).length > 0 || leavesItOut(line, content) ? undefined : line
  }
  if (!isSpoken(data.language))
    remarks.add(`No words for days are known in \`${data.language}\`; they stand as in the ledger.`)
  if (data.language !== 'en')
    remarks.add(
      'What comes from the ledger, such as the reason, stands as written there: translate it by hand.',
    )
  return {
    language: data.language,
    file,
    line(content, values) {
      const line = usable(content)
      if (line === undefined) without(`line for ${content} that can be used`)
      return filledIn(line ?? ownLines[content], values)
    },
    holdsItself: (content) => usable(content)?.includes(`{${content}}`) === false,
    heading: orOurs('heading', ownHeading),
    opening: orOurs(emergency ? 'opening-in-emergency' : 'opening', opening),
    closing: part('closing'),
    cautions: orOurs('cautions', ownCautions),
    remarks,
  }
}

export const textName: Readonly<Record<WordingFor, string>> = {
  parents: 'the notice to parents',
  staff: 'the notice to staff',
  sign: 'the sign',
}
