import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'
import { askedByRulebooks } from '../licences/asked-by-rulebooks.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import type { NoticeAsked } from './asked-notices.js'
import type { NoticeAssessment } from './assess-notice.js'
import { noticeAssessments } from './assess-notice.js'
import {
  emergencyDuty,
  gelInCracks,
  noticeDuties,
  noticeOf,
  signs,
  statedEmergency,
} from './example-ledgers.js'
import type { Fault } from './merge-faults.js'
import { mergedFaults } from './merge-faults.js'
import { dayAfterTerm, momentText } from './moments.js'
import type { TimingFault } from './timing-faults.js'
import { sentText, timingFaults } from './timing-faults.js'
import { dueWords, groupWords } from './words.js'

type EmergencyArgs = {
  readonly groups: string
  /** `within 24 hours` */
  readonly term: string
  /** Last moment at which it could be sent, on the clocks of the district; empty where no term is set. */
  readonly latest: string
  /** When it was sent; empty where none is recorded. */
  readonly sent: string
  readonly shown: 'missing' | 'late' | 'not recorded'
}

const notice = (at: string) =>
  noticeOf(
    '2026-03-13',
    `
sent:
  to: everyone
  at: ${at}
  how: email
  says: [trade-name, emergency-problem]
`,
  )
const sign = noticeOf('2026-03-12', signs({ at: 'at: 15:30' }))

export const emergencyNoticeLate = siteRule<EmergencyArgs>({
  id: 'emergency-notice-late',
  title: 'notice after an emergency application is missing or came too late',
  level: 'error',
  judgedOn: 'the day of the application; it is true when the term has passed',
  why: 'An emergency puts notice off by hours; it does not do away with it.',
  remedy:
    'Send it now, with what the emergency was and why it could not wait, and write it down: `application: 2026-03-12-okafor` and `sent: {to: everyone, at: 08:10, how: email, says: [trade-name, emergency-problem, emergency-reason]}`.',
  source: askedByRulebooks('emergencies'),
  actor: 'coordinator',
  gap: true,
  says: ({ groups, term, latest, sent, shown }) => {
    const due = `it ${latest === '' ? 'is' : 'was'} due ${dueWords(term, latest)}`
    if (shown === 'missing') return `No notice to ${groups} is recorded after this emergency; ${due}.`
    if (shown === 'late') return `This notice to ${groups} after an emergency was sent ${sent}; ${due}.`
    return `The record does not show whether this notice to ${groups} after an emergency, sent ${sent}, was in time: ${due}, and not every hour is known.`
  },
  *check(view) {
    const missing = noticeAssessments(view).flatMap((told) => missingAfterwards(told))
    for (const { strictest, faults, finding } of mergedFaults(view, missing))
      yield {
        args: argsOf(
          view,
          faults.map(({ asked }) => asked),
          strictest.asked,
          '',
          'missing',
        ),
        ...finding,
        from: dayAfterTerm(view.district, strictest.asked, strictest.treatment.day),
      }
    const late = timingFaults(
      view,
      ({ asked }) => asked.when === 'after an emergency',
      ({ asked }) => asked.latest?.earliest ?? 0,
    )
    for (const { strictest, faults, certain, finding } of mergedFaults(view, late))
      yield {
        args: argsOf(
          view,
          faults.map(({ told }) => told.asked),
          strictest.told.asked,
          sentText(view, strictest.told.notice),
          certain ? 'late' : 'not recorded',
        ),
        ...finding,
        from: lateFrom(view, strictest),
      }
  },
  failing: `${underOwnRulebook(noticeDuties + emergencyDuty)}${gelInCracks(statedEmergency())}${sign}${notice(
    '12:01 # expect: emergency-notice-late',
  )}`,
  passing: `${underOwnRulebook(noticeDuties + emergencyDuty)}${gelInCracks(statedEmergency())}${sign}${notice('12:00')}`,
})

function missingAfterwards({ treatment, asked, told }: NoticeAssessment): (Fault & { asked: NoticeAsked })[] {
  if (told !== 'nobody' || asked.when !== 'after an emergency') return []
  const at = { ...treatment.at('emergency'), onKey: true }
  const strictness = asked.latest?.earliest ?? Number.MAX_SAFE_INTEGER
  return [{ treatment, asked, citation: asked.citation, certain: true, at, strictness }]
}

function argsOf(
  { district }: SiteView,
  all: readonly NoticeAsked[],
  { term, latest }: NoticeAsked,
  sent: string,
  shown: EmergencyArgs['shown'],
): EmergencyArgs {
  return { groups: groupWords(all), term, latest: latest ? momentText(district, latest) : '', sent, shown }
}

/** Of a notice sent later on the last day of the term it is known that day already. */
function lateFrom(view: SiteView, { told, treatment }: TimingFault): Day {
  const after = dayAfterTerm(view.district, told.asked, treatment.day)
  return Math.min(after, Math.max(after - 1, told.notice.day))
}
