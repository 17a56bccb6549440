import { isoOf } from '../../measure/calendar.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { gelInCracks, noticeDuties, noticeOf } from './example-ledgers.js'
import { mergedFaults } from './merge-faults.js'
import { momentText } from './moments.js'
import { hourMissing, sentText, timingFaults } from './timing-faults.js'
import { dueWords, groupWords } from './words.js'

type LateArgs = {
  readonly groups: string
  readonly sent: string
  readonly term: string
  /** Last moment at which it could be sent, on the clocks of the district. */
  readonly latest: string
  /** Day of the application. */
  readonly day: string
  readonly shown: 'late' | 'after the application' | 'not recorded'
  /** Whose hour is not known, where that leaves it open. */
  readonly hour: 'notice' | 'application'
}

export const noticeLate = siteRule<LateArgs>({
  id: 'notice-late',
  title: 'a notice was sent too late',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'A notice is for arranging to be elsewhere, and that takes the days the rule gives for it.',
  remedy:
    'If it went out earlier than the record says, write that down: `sent: {at: 15:10}`. What was sent late stays late; another time send it sooner, or put the application off until the time is over.',
  source: askedByRulebooks('notices'),
  actor: 'coordinator',
  gap: false,
  says: ({ groups, sent, term, latest, day, shown, hour }) => {
    const due = `it was due ${dueWords(term, latest)}`
    if (shown === 'after the application')
      return `This notice to ${groups} is dated ${sent}, after the application of ${day}; ${due}.`
    if (shown === 'late') return `This notice to ${groups} was sent ${sent}; ${due}.`
    return `The record does not show whether this notice to ${groups}, sent ${sent}, was in time: ${due}, and the hour of the ${hour} is not known.`
  },
  *check(view) {
    const faults = timingFaults(
      view,
      ({ asked, timing }) => asked.when === 'before' && timing.amiss !== 'early',
      ({ asked }) => asked.latest?.earliest ?? 0,
    )
    for (const { strictest, faults: broken, certain, finding } of mergedFaults(view, faults)) {
      const { told, treatment } = strictest
      const { asked, notice, timing } = told
      yield {
        args: {
          groups: groupWords(broken.map((fault) => fault.told.asked)),
          sent: sentText(view, notice),
          term: asked.term,
          latest: asked.latest ? momentText(view.district, asked.latest) : '',
          day: isoOf(treatment.day),
          shown: !certain ? 'not recorded' : timing.amiss === 'after the application' ? timing.amiss : 'late',
          hour: hourMissing(told),
        },
        ...finding,
      }
    }
  },
  failing: `${underOwnRulebook(noticeDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    `
sent:
  to: everyone
  at: 15:41 # expect: notice-late
  how: email
  says: [trade-name, date]
`,
  )}`,
  passing: `${underOwnRulebook(noticeDuties)}${gelInCracks()}${noticeOf(
    '2026-03-09',
    'sent: {to: everyone, at: 15:40, how: email, says: [trade-name, date]}',
  )}`,
})
