import type { Treatment } from '../../ledger/treatments.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { noticeAssessments } from './assess-notice.js'
import { gelInCracks, noticeDuties, noticeOf } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { momentText } from './moments.js'
import { dueWords, forWhat, groupWords } from './words.js'

type MissingArgs = {
  readonly groups: string
  /** `72 hours before` */
  readonly term: string
  /** Last moment at which it could be sent, on the clocks of the district. */
  readonly latest: string
  /** The record states an emergency, which takes no notice's place in the rulebook that asks. */
  readonly emergency: 'yes' | 'no'
  readonly how: Treatment['how']
  /** How many more uses it is told of together. */
  readonly more: number
}

export const noticeMissing = siteRule<MissingArgs>({
  id: 'notice-missing',
  title: 'nobody was told beforehand, as far as the records show',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'People with asthma, and parents of small children, can keep away only from what they know of beforehand.',
  remedy:
    'If a notice was sent, write it down, in notices/2026-03-09-marsh.yaml: `application: 2026-03-12-okafor` and `sent: {to: everyone, at: 15:10, how: email, says: [trade-name, date]}`. Where only those who asked are told and nobody has: `sent: {to: those who asked, recipients: 0, list-of: 2026-03-09}`.',
  source: askedByRulebooks('notices'),
  actor: 'coordinator',
  gap: true,
  says: ({ groups, term, latest, emergency, how, more }) =>
    `No notice to ${groups} is recorded for ${forWhat(how, more)}; it was due ${dueWords(term, latest)}.${
      emergency === 'yes'
        ? ' The emergency that is stated does not take its place under the rules that ask for it.'
        : ''
    }`,
  *check(view) {
    const faults = noticeAssessments(view).flatMap(({ treatment, asked, told }) =>
      told === 'nobody' && asked.when === 'before'
        ? [
            {
              treatment,
              asked,
              citation: asked.citation,
              certain: true,
              at: treatment.at('product'),
              strictness: asked.latest?.earliest ?? 0,
            },
          ]
        : [],
    )
    for (const { strictest, faults: broken, more, finding } of mergedFaults(view, faults)) {
      const { asked, treatment } = strictest
      yield {
        args: {
          groups: groupWords(broken.map((fault) => fault.asked)),
          term: asked.term,
          latest: asked.latest ? momentText(view.district, asked.latest) : '',
          emergency: treatment.application?.emergency ? 'yes' : 'no',
          how: treatment.how,
          more,
        },
        ...finding,
      }
    }
  },
  failing: `${underOwnRulebook(noticeDuties)}${gelInCracks('', 'product: bait-a # expect: notice-missing')}`,
  passing: `${underOwnRulebook(noticeDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    'sent: {to: everyone, at: 15:40, how: email, says: [trade-name, date]}',
  )}`,
})
