import type { InstantRange } from '../../ledger/instants.js'
import { instantOn, timesOf } from '../../ledger/instants.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { Group, NoticeAsked, Reach } from './asked-notices.js'
import { noticesAsked } from './asked-notices.js'
import type { ContentsShown } from './contents.js'
import { contentsShown } from './contents.js'
import type { Outcome } from './outcome.js'
import { happenedBy, happenedFrom, rankOf, worstOf } from './outcome.js'
import { noticesAbout, treatmentsToldOf } from './told-about.js'

/** A notice record that tells of a notice sent. */
export type SentNotice = LoadedEvent<'notice'> & {
  readonly data: { readonly sent: NonNullable<LoadedEvent<'notice'>['data']['sent']> }
}

/** Whether a notice was sent in time; what may be amiss where that is not shown. */
export interface Timing {
  readonly outcome: Outcome
  readonly amiss?: 'late' | 'after the application' | 'early'
}

/** What the records show of one duty to tell one group about one treatment. */
export type NoticeAssessment = {
  readonly treatment: Treatment
  readonly asked: NoticeAsked
  readonly outcome: Outcome
} & (
  | { readonly told: 'nobody' }
  /** Those who asked, where all are to be told. */
  | { readonly told: 'too few'; readonly notice: SentNotice }
  /** Nobody is on the list of those who asked. */
  | { readonly told: 'nobody to tell'; readonly notice: SentNotice }
  | {
      readonly told: 'enough'
      readonly notice: SentNotice
      readonly timing: Timing
      readonly contents: ContentsShown
    }
)

const known = new WeakMap<SiteView, readonly NoticeAssessment[]>()

/** Every duty to tell people about the pesticides put to use at a site, by day; worked out once for all who ask. */
export function noticeAssessments(view: SiteView): readonly NoticeAssessment[] {
  const found = known.get(view)
  if (found) return found
  const made = treatmentsToldOf(view).flatMap((treatment) =>
    noticesAsked(view, treatment).map((asked) => assessNotice(view, treatment, asked)),
  )
  known.set(view, made)
  return made
}

/** One duty held against the notices about the treatment; of several to enough people the best one counts. */
export function assessNotice(view: SiteView, treatment: Treatment, asked: NoticeAsked): NoticeAssessment {
  const sent = noticesAbout(view, treatment).filter(
    (notice): notice is SentNotice =>
      notice.data.sent !== undefined && reaches(notice.data.sent.to, asked.group),
  )
  const enough = sent.filter(({ data }) => isEnough(data.sent.to, asked.reach))
  const first = sent[0]
  if (!first) return { treatment, asked, told: 'nobody', outcome: 'not shown' }
  if (enough.length === 0) return { treatment, asked, told: 'too few', notice: first, outcome: 'not shown' }
  const nobodyAsked = enough.find(
    ({ data }) => data.sent.to === 'those who asked' && data.sent.recipients === 0,
  )
  if (nobodyAsked) return { treatment, asked, told: 'nobody to tell', notice: nobodyAsked, outcome: 'shown' }
  const judged = enough.map((notice) => ({
    notice,
    timing: timingOf(view, treatment, asked, notice),
    contents: contentsShown(notice.data.sent.says, notice.data.text, asked.says),
  }))
  const [best] = judged.sort(
    (a, b) =>
      rankOf(a.timing.outcome) - rankOf(b.timing.outcome) ||
      rankOf(a.contents.outcome) - rankOf(b.contents.outcome) ||
      a.contents.missing.length - b.contents.missing.length,
  )
  if (!best) return { treatment, asked, told: 'nobody', outcome: 'not shown' }
  const outcome = worstOf([best.timing.outcome, best.contents.outcome])
  return { treatment, asked, told: 'enough', ...best, outcome }
}

type Audience = SentNotice['data']['sent']['to']

function reaches(to: Audience, group: Group): boolean {
  return to === 'everyone' || to === 'those who asked' || to === `all ${group}`
}

function isEnough(to: Audience, reach: Reach): boolean {
  return to !== 'those who asked' || reach !== 'all'
}

function timingOf(view: SiteView, treatment: Treatment, asked: NoticeAsked, notice: SentNotice): Timing {
  const sent = instantOn(view.district, notice.day, notice.data.sent.at)
  return timing(sent, asked.latest, asked.earliest, timesOf(view.district, treatment).start, asked.when)
}

/** Too late is looked for first: what came too late did not come too early. */
export function timing(
  done: InstantRange,
  latest: InstantRange | undefined,
  earliest: InstantRange | undefined,
  start: InstantRange,
  when: NoticeAsked['when'],
): Timing {
  const inTime = latest ? happenedBy(done, latest) : 'shown'
  if (inTime !== 'shown') {
    const afterwards = when === 'before' && done.earliest > start.latest
    return { outcome: inTime, amiss: afterwards ? 'after the application' : 'late' }
  }
  const notEarly = earliest ? happenedFrom(done, earliest) : 'shown'
  return notEarly === 'shown' ? { outcome: 'shown' } : { outcome: notEarly, amiss: 'early' }
}
