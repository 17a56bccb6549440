import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import type { NoticeContent } from '../records/use-words.js'
import type { WordingFor } from '../records/wording.js'
import { ownWords, wordingFor } from '../records/wording.js'
import type { Group, NoticeAsked } from '../rules/notices/asked-notices.js'
import { statementAssessments } from '../rules/notices/assess-emergency-statement.js'
import { noticeAssessments } from '../rules/notices/assess-notice.js'
import { postingAssessments } from '../rules/notices/assess-posting.js'
import type { WordsSet } from '../rules/notices/contents.js'
import { groupWords, listed } from '../rules/notices/words.js'
import type { Citation } from '../types.js'
import { clauseAlone } from './clause-alone.js'
import { noticeBlank, noticeFact, sourceOfFact } from './notice-facts.js'
import type { ApplicationStatus } from './notice-own-words.js'
import { factWords, orderOfLines, ownOpening } from './notice-own-words.js'
import type { Wording } from './notice-wording.js'
import { textName, wordingOf } from './notice-wording.js'

export const textIds = [...wordingFor, 'statement'] as const
export type TextId = (typeof textIds)[number]

/** One line of a text, and why it stands there. */
export interface TextLine {
  /** What a rulebook asks for; `frame` for what stands around it. */
  readonly about: NoticeContent | 'frame' | 'contents' | 'decided-by' | 'signed'
  readonly text: string
  readonly askedBy: readonly Citation[]
  /** Where what it leaves blank can be found; undefined where nothing is. */
  readonly missing: string | undefined
}

/** A notice to one group, the sign, or the statement of an emergency, ready to be checked and sent. */
export interface NoticeText {
  readonly id: TextId
  /** `Notice to parents who asked` */
  readonly title: string
  /** What to do with it; no part of the text. */
  readonly instructions: readonly string[]
  readonly language: string
  readonly heading: string
  readonly lines: readonly TextLine[]
  readonly remarks: readonly string[]
  readonly asked: readonly Citation[]
}

/** What one duty wants said. */
interface Asked {
  readonly says: readonly NoticeContent[]
  readonly words: WordsSet
  readonly citation: Citation
}

/** Every text that the rulebooks in force ask for on account of a treatment. */
export function noticeTexts(
  view: SiteView,
  treatment: Treatment,
  status: ApplicationStatus,
  language: string,
): NoticeText[] {
  const write = (to: WordingFor, title: string, asked: readonly Asked[], how: readonly string[]) =>
    textOf(view, treatment, ownOpening(to, status, isEmergency(treatment)), language, to, title, asked, how)
  const notices = noticeAssessments(view).filter((one) => one.treatment === treatment)
  const signs = postingAssessments(view)
    .filter((one) => one.treatment === treatment)
    .map(({ asked }) => asked)
  const groups = (['parents', 'staff'] as const).flatMap((group) => {
    const asked = notices.filter((one) => one.asked.group === group).map((one) => one.asked)
    return asked.length === 0
      ? []
      : [write(group, `Notice to ${groupWords(asked)}`, asked, [toWhom(group, asked)])]
  })
  const sizes = [...new Set(signs.flatMap(({ size }) => size ?? []))]
  const places = [...new Set(signs.flatMap((asked) => asked.places))]
  const how = [
    `Print it large${sizes.length === 0 ? '' : `, on at least ${sizes.join(' and ')}`}.`,
    ...(places.length === 0
      ? []
      : [`One hangs at each of: ${places.map((place) => placeWords[place]).join(', ')}.`]),
  ]
  return [
    ...groups,
    ...(signs.length === 0 ? [] : [write('sign', 'Sign', signs, how)]),
    ...statementOf(view, treatment),
  ]
}

/** As wide as the widest that is asked. */
function toWhom(group: Group, asked: readonly NoticeAsked[]): string {
  const reaches = asked.map(({ reach }) => reach)
  if (reaches.includes('all')) return `It goes to all ${group}.`
  return reaches.includes('all or those who asked')
    ? `It goes to all ${group}, or to those of them who asked to be told.`
    : `It goes to those ${group} who asked to be told.`
}

const placeWords = {
  'treated-area': 'the treated area',
  'each-entrance': 'each entrance',
  'common-area': 'a place where people regularly see it',
} as const

function textOf(
  view: SiteView,
  treatment: Treatment,
  opening: string | undefined,
  language: string,
  to: WordingFor,
  title: string,
  asked: readonly Asked[],
  instructions: readonly string[],
): NoticeText {
  const names = new Map([
    ['school', view.site.data.name],
    ['district', view.district.district.data.name],
  ])
  const words = wordingOf(view.district, to, language, opening, isEmergency(treatment), names)
  const wanted = orderOfLines.filter((content) => asked.some(({ says }) => says.includes(content)))
  const lines = wanted.flatMap((content) => linesOf(view, treatment, words, names, content, asked))
  return {
    id: to,
    title,
    instructions,
    language: words.language,
    heading: words.heading,
    lines: [
      ...lines.filter(isWarning),
      frame([...names.values()].join(', ')),
      ...(words.opening === undefined ? [] : [frame(words.opening)]),
      ...(lines.length === 0 ? [nothingSet(to, asked)] : lines.filter((line) => !isWarning(line))),
      ...(words.closing === undefined ? [] : [frame(words.closing)]),
      frame(words.cautions),
    ],
    remarks: [...words.remarks],
    asked: asked.map(({ citation }) => citation),
  }
}

/** A warning stands above everything else. */
function isWarning({ about }: TextLine): boolean {
  return about === 'warning-words'
}

function isEmergency({ application }: Treatment): boolean {
  return application?.emergency !== undefined
}

function frame(text: string): TextLine {
  return { about: 'frame', text, askedBy: [], missing: undefined }
}

/** A duty to tell people that does not say what they are told. */
function nothingSet(to: WordingFor, asked: readonly Asked[]): TextLine {
  return {
    about: 'contents',
    text: noticeBlank,
    askedBy: asked.map(({ citation }) => citation),
    missing: `the rulebooks in force ask for ${textName[to]} and set none of its contents: at the least what, where and when`,
  }
}

function linesOf(
  view: SiteView,
  treatment: Treatment,
  words: Wording,
  names: ReadonlyMap<string, string>,
  content: NoticeContent,
  asked: readonly Asked[],
): TextLine[] {
  const asking = asked.filter(({ says }) => says.includes(content))
  const askedBy = asking.map(({ citation }) => citation)
  const sources = askedBy.map(({ text }) => text)
  const line = (value: string, missing: string | undefined): TextLine => ({
    about: content,
    text: words.line(content, new Map([...names, [content, value]])),
    askedBy,
    missing,
  })
  if (words.holdsItself(content)) {
    words.remarks.add(
      `The words for ${content} are the district's own: hold them against ${clauses(sources)}.`,
    )
    return [line('', undefined)]
  }
  const set = [...new Set(asking.flatMap((one) => one.words[content] ?? []))]
  if (set.length > 0) {
    words.remarks.add(
      `The words for ${content} are quoted from ${clauses(sources)}: hold them against the text.`,
    )
    return set.map((value) => line(value, undefined))
  }
  const fact = noticeFact(content, view, treatment, factWords(words.language))
  const source = sourceOfFact(content, view, treatment)
  if (fact?.includes(noticeBlank)) return [line(fact, source)]
  if (fact !== undefined) return [line(fact, undefined)]
  const blank = ownWords.has(content) ? `[... ${clauses(sources)}]` : noticeBlank
  return [line(blank, ownWords.has(content) ? `${source}: ${clauses(sources)}` : source)]
}

/** The clause itself, without what it says. */
function clauses(sources: readonly string[]): string {
  return listed([...new Set(sources.map(clauseAlone))])
}

function statementOf(view: SiteView, treatment: Treatment): NoticeText[] {
  const asked = statementAssessments(view).filter((one) => one.treatment === treatment)
  const emergency = treatment.application?.emergency
  if (asked.length === 0 || !emergency) return []
  const askedBy = asked.map((one) => one.asked.citation)
  const of = (about: TextLine['about'], label: string, value: string | undefined, key: string): TextLine => ({
    about,
    text: `${label}: ${value ?? noticeBlank}`,
    askedBy,
    missing: value === undefined ? `${treatment.record.file}: emergency.${key}` : undefined,
  })
  const decider = emergency['decided-by']
  const name = decider === undefined ? undefined : (view.district.people.get(decider)?.data.name ?? decider)
  const prevents = asked.some((one) => one.asked.says.prevention !== undefined)
  const isSigned = asked.some((one) => one.asked.says.statement === 'signed')
  return [
    {
      id: 'statement',
      title: 'Statement of the emergency',
      instructions: ['It is kept with the records of the application.'],
      language: 'en',
      heading: 'Statement of an emergency',
      lines: [
        frame(`${view.site.data.name}, ${view.district.district.data.name}`),
        of('emergency-problem', 'What the emergency was', emergency.problem, 'problem'),
        of('emergency-reason', 'Why it could not wait', emergency.why, 'why'),
        ...(prevents
          ? [of('emergency-prevention', 'How the next one is prevented', emergency.prevention, 'prevention')]
          : []),
        of('decided-by', 'Decided by', name, 'decided-by'),
        ...(isSigned ? [of('signed', 'Signed on', emergency.signed, 'signed')] : []),
      ],
      remarks: [],
      asked: askedBy,
    },
  ]
}
