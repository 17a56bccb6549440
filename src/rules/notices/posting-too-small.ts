import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { gelInCracks, noticeOf, postingDuties, signs } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { hungInTime, signFaults } from './sign-faults.js'

type SizeArgs = {
  /** As recorded; empty where it is not. */
  readonly size: string
  readonly asked: readonly string[]
}

export const postingTooSmall = siteRule<SizeArgs>({
  id: 'posting-too-small',
  title: 'a sign is smaller than it has to be, or its size is not recorded',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'A sign that is read only from arm’s length is read when one already stands in the door.',
  remedy:
    'Print it on a larger sheet: a letter sheet is 8.5 x 11 in, and an A4 sheet is narrower than that. If the size was not written down: `posted: {size: 8.5 x 11 in}`.',
  source: askedByRulebooks('postings'),
  actor: 'coordinator',
  gap: false,
  says: ({ size, asked }) =>
    size === ''
      ? `The record does not show how large these signs were; at least ${asked.join(' and ')} is asked.`
      : `These signs measured ${size}; at least ${asked.join(' and ')} is asked.`,
  *check(view) {
    const faults = signFaults(
      view,
      'signs',
      (sign) => (hungInTime(sign) ? sign.size : 'shown'),
      ({ size }) => (size === undefined ? { path: ['posted'], onKey: true } : { path: ['posted', 'size'] }),
    )
    for (const { strictest, faults: broken, finding } of mergedFaults(view, faults))
      yield {
        args: {
          size: strictest.sign.posting.data.posted.size ?? '',
          asked: [...new Set(broken.map(({ assessment }) => assessment.asked.size ?? ''))],
        },
        ...finding,
      }
  },
  failing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    signs({ size: 'size: 21 x 29.7 cm # expect: posting-too-small' }),
  )}`,
  passing: `${underOwnRulebook(postingDuties)}${gelInCracks()}${noticeOf('2026-03-09', signs({ size: 'size: 11 x 8.5 in' }))}`,
})
