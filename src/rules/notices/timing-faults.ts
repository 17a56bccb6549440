import { instantOn } from '../../ledger/instants.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Place } from '../../types.js'
import type { NoticeAssessment, SentNotice } from './assess-notice.js'
import { noticeAssessments } from './assess-notice.js'
import type { Fault } from './merge-faults.js'
import { applicationHoursAreToldElsewhere } from './merge-faults.js'
import { momentText } from './moments.js'

export type ToldNotice = Extract<NoticeAssessment, { told: 'enough' }>

export interface TimingFault extends Fault {
  readonly told: ToldNotice
}

/** Duties whose notice, sent to enough people, is not shown to have been sent at the right time. */
export function timingFaults(
  view: SiteView,
  isTold: (assessment: ToldNotice) => boolean,
  strictness: (assessment: ToldNotice) => number,
): TimingFault[] {
  return noticeAssessments(view).flatMap((told) => {
    if (told.told !== 'enough' || told.timing.outcome === 'shown' || !isTold(told)) return []
    const { treatment, asked, notice, timing } = told
    const certain = timing.outcome === 'not shown'
    const hourIsStated = notice.data.sent.at !== undefined
    if (!certain && hourIsStated && applicationHoursAreToldElsewhere(view, treatment)) return []
    return [
      {
        treatment,
        told,
        citation: asked.citation,
        certain,
        at: whenSent(notice),
        record: notice.file,
        strictness: strictness(told),
      },
    ]
  })
}

/** Where a notice record tells when it was sent: its hour, or else what it is about, under the date of its name. */
export function whenSent({ file, data }: SentNotice): Place {
  return { file, path: data.sent.at === undefined ? ['application'] : ['sent', 'at'] }
}

export function sentText(view: SiteView, { day, data }: SentNotice): string {
  return momentText(view.district, instantOn(view.district, day, data.sent.at))
}

/** Which hour is missing, so that it cannot be told whether a term was kept. */
export function hourMissing({ notice }: ToldNotice): 'notice' | 'application' {
  return notice.data.sent.at === undefined ? 'notice' : 'application'
}
