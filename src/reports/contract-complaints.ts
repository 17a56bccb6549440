import type { SiteView } from '../ledger/site-view.js'
import type { FollowedTime } from '../measure/kaplan-meier.js'
import { complaintsDue } from '../rules/inspection/complaints-due.js'
import { lateness } from '../rules/inspection/lapse.js'
import type { Day } from '../types.js'
import type { DueOutcome, Settled } from './contract-outcomes.js'
import { settled } from './contract-outcomes.js'
import { spanIndexOn } from './contract-spans.js'
import type { Period } from './period.js'

/** A complaint of the period that was not withdrawn, and how soon it was answered. */
export interface ComplaintFact extends Settled {
  readonly index: number
  readonly complaint: string
  readonly day: Day
  /** Days in which it is to be answered, and who says so; undefined where nothing does. */
  readonly days: number | undefined
  readonly askedBy: 'contract' | 'district' | 'rulebook' | undefined
  readonly answered: Day | undefined
  /** Its time was up on the as-of day, so that it tells of the share in time. */
  readonly timeIsUp: boolean
  /** Undefined where its answer is dated before it. */
  readonly followed: FollowedTime | undefined
  readonly why: string
  readonly files: readonly string[]
}

/** Complaints received in a period, as the rule about unanswered complaints counts their days. */
export function complaintFacts(view: SiteView, { from, to }: Period): ComplaintFact[] {
  const facts: ComplaintFact[] = []
  for (const { complaint, asked, answer } of complaintsDue(view)) {
    const { day } = complaint
    if (day < from || day > to) continue
    const lastDay = asked && day + asked.days
    const stands = standOf(view, day, lastDay, answer?.day)
    facts.push({
      index: spanIndexOn(view, day),
      complaint: complaint.id,
      day,
      days: asked?.days,
      askedBy: asked?.by,
      answered: answer?.day,
      ...stands,
      timeIsUp: stands.outcome !== 'cannot be told' && lastDay !== undefined && lastDay < view.asOf,
      followed: followedOf(view, day, answer?.day),
      files: [complaint.file, ...(answer ? [answer.file] : [])],
    })
  }
  return facts
}

interface Stand extends Settled {
  readonly outcome: DueOutcome
  readonly why: string
}

function standOf(view: SiteView, day: Day, lastDay: Day | undefined, answered: Day | undefined): Stand {
  const cannotTell = (why: string): Stand => ({ outcome: 'cannot be told', daysLate: 0, why })
  if (lastDay === undefined) return cannotTell('no contract, district or rulebook states how soon')
  if (answered !== undefined && answered < day) return cannotTell('its answer is dated before it')
  const found = settled(answered, lastDay, view.asOf)
  if (found.outcome === 'no record' && !lateness(view, lastDay + 1))
    return cannotTell('the site was closed before its time was up')
  return { ...found, why: '' }
}

function followedOf(view: SiteView, day: Day, answered: Day | undefined): FollowedTime | undefined {
  const end = answered ?? Math.min(view.asOf, view.ends ?? view.asOf)
  return end < day ? undefined : { time: end - day, mended: answered !== undefined }
}
