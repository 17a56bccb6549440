import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { gelInCracks, noticeOf, postingDuties, signs } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import type { IncompleteArgs } from './notice-incomplete.js'
import { incompleteWords } from './notice-incomplete.js'
import { hungInTime, signFaults } from './sign-faults.js'
import { allOf } from './words.js'

export const postingIncomplete = siteRule<IncompleteArgs>({
  id: 'posting-incomplete',
  title: 'a sign did not say everything it has to say, or the record does not show that it did',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'Whoever stands in front of a sign wants to know what was used, where, and until when to stay out.',
  remedy:
    'Hold the sign against the words here, and list what it said: `posted: {says: [warning-words, trade-name, date, location]}`. What it did not say, add to it while it hangs.',
  source: askedByRulebooks('postings'),
  actor: 'coordinator',
  gap: true,
  says: (args) => incompleteWords('This sign', args),
  *check(view) {
    const faults = signFaults(
      view,
      'signs',
      (sign) => (hungInTime(sign) ? sign.contents.outcome : 'shown'),
      ({ says }) => (says === undefined ? { path: ['posted'], onKey: true } : { path: ['posted', 'says'] }),
    )
    for (const { strictest, faults: broken, finding } of mergedFaults(view, faults))
      yield {
        args: {
          missing: allOf(broken.map(({ sign }) => sign.contents.missing)),
          recorded: strictest.sign.contents.recorded,
        },
        ...finding,
      }
  },
  failing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    signs({ says: 'says: [date] # expect: posting-incomplete' }),
  )}`,
  passing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs())}`,
})
