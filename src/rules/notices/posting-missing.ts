import type { Treatment } from '../../ledger/treatments.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { postingAssessments } from './assess-posting.js'
import { gelInCracks, noticeOf, postingDuties, signs } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { momentText } from './moments.js'
import { dueWords, forWhat } from './words.js'

type MissingArgs = {
  /** `72 hours before`; empty where no term is set. */
  readonly term: string
  /** Last moment at which it could be put up, on the clocks of the district; empty where no term is set. */
  readonly latest: string
  readonly how: Treatment['how']
  /** How many more uses it is told of together. */
  readonly more: number
}

export const postingMissing = siteRule<MissingArgs>({
  id: 'posting-missing',
  title: 'no sign is recorded where signs are asked for',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'A sign is the only notice for whoever comes by: substitutes, visitors, children who play there after school.',
  remedy:
    'If signs hung, write them down, in notices/2026-03-09-marsh.yaml: `application: 2026-03-12-okafor` and `posted: {places: [kitchen door, main entrance], at: 07:30, at-the: [treated-area, each-entrance], size: 8.5 x 11 in, says: [trade-name, date]}`.',
  source: askedByRulebooks('postings'),
  actor: 'coordinator',
  gap: true,
  says: ({ term, latest, how, more }) =>
    `No sign is recorded for ${forWhat(how, more)}${
      term === '' ? '' : `; signs were due ${dueWords(term, latest)}`
    }.`,
  *check(view) {
    const faults = postingAssessments(view).flatMap(({ treatment, asked, signs }) =>
      signs.length === 0
        ? [
            {
              treatment,
              asked,
              citation: asked.citation,
              certain: true,
              at: treatment.at('product'),
              strictness: asked.latest?.earliest ?? Number.MAX_SAFE_INTEGER,
            },
          ]
        : [],
    )
    for (const { strictest, more, finding } of mergedFaults(view, faults)) {
      const { term, latest } = strictest.asked
      const { how } = strictest.treatment
      yield { args: { term, latest: latest ? momentText(view.district, latest) : '', how, more }, ...finding }
    }
  },
  failing: `${underOwnRulebook(postingDuties)}${gelInCracks('', 'product: bait-a # expect: posting-missing')}`,
  passing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs())}`,
})
