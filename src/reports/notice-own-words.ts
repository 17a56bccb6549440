import type { RecordOf } from '../records/kinds.js'
import type { NoticeContent } from '../records/use-words.js'
import type { WordingFor } from '../records/wording.js'
import type { FactWords } from './notice-facts.js'
import { asRecorded } from './notice-facts.js'

/** The program's own words, for matters and parts of which the district has none. */
export const ownLines: Readonly<Record<NoticeContent, string>> = {
  'warning-words': '{warning-words}',
  'trade-name': 'Product: {trade-name}',
  'common-name': 'Common name: {common-name}',
  'active-ingredients': 'Active ingredients: {active-ingredients}',
  registration: 'EPA registration number: {registration}',
  manufacturer: 'Made by: {manufacturer}',
  location: 'Where: {location}',
  date: 'Date: {date}',
  time: 'Time: {time}',
  'rain-dates': 'If the weather does not allow it, instead on: {rain-dates}',
  reason: 'Why: {reason}',
  'emergency-problem': 'What the emergency was: {emergency-problem}',
  'emergency-reason': 'Why it could not wait: {emergency-reason}',
  'emergency-prevention': 'How the next one is prevented: {emergency-prevention}',
  'reentry-time': 'Nobody comes back earlier than: {reentry-time}',
  'adverse-effects': 'What it can do to people, as label and safety data sheet say: {adverse-effects}',
  'label-safety-instructions':
    'What the label says for the safety of the public: {label-safety-instructions}',
  'sensitive-persons-statement': '{sensitive-persons-statement}',
  'coordinator-contact': 'Questions to the pest management coordinator: {coordinator-contact}',
  'applicator-contact': 'Applicator: {applicator-contact}',
}

/** The order in which matters are read; each asked one stands once. */
export const orderOfLines = Object.keys(ownLines) as NoticeContent[]

export const ownHeading = 'Notice of a pesticide application'

export const ownCautions =
  'The label of the product is the law, local code governs, and a licensed applicator decides. This paper does not authorise an application.'

export type ApplicationStatus = RecordOf<'application'>['status']

/** First words of a notice; a sign has none. */
export function ownOpening(
  to: WordingFor,
  status: ApplicationStatus,
  emergency: boolean,
): string | undefined {
  if (to === 'sign') return undefined
  const why = emergency ? ' in an emergency' : ''
  return status === 'done'
    ? `A pesticide was used here${why}.`
    : `It is planned to use a pesticide here${why}.`
}

/**
 * Days in the words of a language. Language and zone are stated, so that neither those of the machine have a say; where
 * the engine has no words of the language, a day is written as in the ledger.
 */
export function factWords(language: string): FactWords {
  const tag = language === 'en' ? 'en-US' : language
  const hours = language.startsWith('en')
    ? asRecorded.hours
    : (start: string, end: string) => `${start}–${end}`
  if (!isSpoken(tag)) return { day: asRecorded.day, hours }
  const format = new Intl.DateTimeFormat(tag, {
    dateStyle: 'full',
    timeZone: 'UTC',
    calendar: 'gregory',
    numberingSystem: 'latn',
  })
  return { day: (day) => format.format(day * millisecondsPerDay), hours }
}

const millisecondsPerDay = 86_400_000

export function isSpoken(tag: string): boolean {
  try {
    return Intl.DateTimeFormat.supportedLocalesOf(tag).length > 0
  } catch {
    return false
  }
}
