import { isoOf } from '../../measure/calendar.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { gelInCracks, inventedAct, noticeOf } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { momentText } from './moments.js'
import { hourMissing, sentText, timingFaults } from './timing-faults.js'
import { groupWords } from './words.js'

type EarlyArgs = {
  readonly groups: string
  readonly sent: string
  /** First moment at which it could be sent, on the clocks of the district. */
  readonly earliest: string
  /** Day of the application. */
  readonly day: string
  readonly shown: 'early' | 'not recorded'
  /** Whose hour is not known, where that leaves it open. */
  readonly hour: 'notice' | 'application'
}

const duty = `
notices:
  parents: [{${inventedAct(3)}, to: parents, reach: all, lead: 2 business days, not-before: 7 days}]
`

export const noticeTooEarly = siteRule<EarlyArgs>({
  id: 'notice-too-early',
  title: 'a notice was sent so early that it may be forgotten',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'What was read a month ago is not in mind on the day; that is why some rules set a longest time.',
  remedy:
    'Send it again within the time the rule gives, and write that as a notice of its own. When an application is put off, so is its notice.',
  source: askedByRulebooks('notices'),
  actor: 'coordinator',
  gap: false,
  says: ({ groups, sent, earliest, day, shown, hour }) =>
    shown === 'early'
      ? `This notice to ${groups} was sent ${sent}, too long before the application of ${day}; the time for it began ${earliest}.`
      : `The record does not show whether this notice to ${groups}, sent ${sent}, was not too early: the time for it began ${earliest}, and the hour of the ${hour} is not known.`,
  *check(view) {
    const faults = timingFaults(
      view,
      ({ timing }) => timing.amiss === 'early',
      ({ asked }) => -(asked.earliest?.latest ?? 0),
    )
    for (const { strictest, faults: broken, certain, finding } of mergedFaults(view, faults)) {
      const { told, treatment } = strictest
      yield {
        args: {
          groups: groupWords(broken.map((fault) => fault.told.asked)),
          sent: sentText(view, told.notice),
          earliest: told.asked.earliest ? momentText(view.district, told.asked.earliest) : '',
          day: isoOf(treatment.day),
          shown: certain ? 'early' : 'not recorded',
          hour: hourMissing(told),
        },
        ...finding,
      }
    }
  },
  failing: `${underOwnRulebook(duty)}${gelInCracks()}${noticeOf(
    '2026-03-04',
    `
sent:
  to: all parents
  at: 15:00 # expect: notice-too-early
`,
  )}`,
  passing: `${underOwnRulebook(duty)}${gelInCracks()}${noticeOf('2026-03-05', 'sent: {to: all parents, at: 07:00}')}`,
})
