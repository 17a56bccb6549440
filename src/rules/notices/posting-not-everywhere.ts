import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import type { PostingPlace } from './asked-postings.js'
import { postingAssessments } from './assess-posting.js'
import { gelInCracks, noticeOf, postingDuties, signs } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { hungInTime } from './sign-faults.js'
import { allOf, listed } from './words.js'

type PlacesArgs = {
  readonly missing: readonly PostingPlace[]
  readonly shown: 'not shown' | 'not recorded'
}

const inWords: Readonly<Record<PostingPlace, string>> = {
  'treated-area': 'at the treated area',
  'each-entrance': 'at each entrance',
  'common-area': 'where everyone passes',
}

export const postingNotEverywhere = siteRule<PlacesArgs>({
  id: 'posting-not-everywhere',
  title: 'signs are not recorded at every kind of place they are asked for',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'A sign at the front door tells nobody who comes in by the yard.',
  remedy:
    'Say of the places listed which kinds they are: `posted: {at-the: [treated-area, each-entrance]}`. Where a sign did not hang, put one up, and write that as a record of its own.',
  source: askedByRulebooks('postings'),
  actor: 'coordinator',
  gap: true,
  says: ({ missing, shown }) => {
    const places = listed(missing.map((place) => inWords[place]))
    return shown === 'not shown'
      ? `No sign is recorded ${places}.`
      : `The record does not show that signs hung ${places}: it leaves out which kinds of places they were.`
  },
  *check(view) {
    const faults = postingAssessments(view).flatMap((assessment) => {
      const { treatment, asked, signs, places, placesMissing } = assessment
      const [first] = signs
      if (!first || places === 'shown' || !hungInTime(first)) return []
      const { posted } = first.posting.data
      return [
        {
          treatment,
          placesMissing,
          citation: asked.citation,
          certain: places === 'not shown',
          at: {
            file: first.posting.file,
            path: ['posted', posted['at-the'] === undefined ? 'places' : 'at-the'],
          },
        },
      ]
    })
    for (const { faults: broken, certain, finding } of mergedFaults(view, faults))
      yield {
        args: {
          missing: allOf(broken.map(({ placesMissing }) => placesMissing)),
          shown: certain ? 'not shown' : 'not recorded',
        },
        ...finding,
      }
  },
  failing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    signs({ 'at-the': 'at-the: [treated-area] # expect: posting-not-everywhere' }),
  )}`,
  passing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs())}`,
})
