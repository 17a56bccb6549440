import type { yearlyKinds } from '../../records/use-words.js'
import type { Citation } from '../../types.js'

/** What is sent or filed for a year, in words. */
export const filingWords: Record<(typeof yearlyKinds)[number], string> = {
  'annual-notice': 'annual notice',
  'report-to-the-state': 'report to the state',
  'plan-published': 'published plan',
  'programme-notified': 'notification of the programme',
}

/** Where a rule of this family rests on nothing of its own: each finding names what asked for it. */
export const askedByRulebooks: Citation = {
  kind: 'program',
  text: 'the section `yearly` of the rulebooks in force',
}
