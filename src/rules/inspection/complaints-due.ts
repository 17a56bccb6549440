import type { LoadedEvent } from '../../ledger/loaded.js'
import { daysOf } from '../../ledger/parameters.js'
import { serviceTermsOn } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Citation, Day } from '../../types.js'

export const answerParameter = 'complaint.answer'

/** How soon a complaint is to be looked at, and who says so. */
export interface AnswerTerms {
  readonly days: number
  readonly by: 'contract' | 'district' | 'rulebook'
  readonly sources: readonly Citation[]
}

/** A complaint that is to be looked at: not withdrawn, and of a day for which the ledger answers. */
export interface ComplaintDue {
  readonly complaint: LoadedEvent<'complaint'>
  /** Undefined where nothing says how soon. */
  readonly asked: AnswerTerms | undefined
  /** The first visit that answers it. */
  readonly answer: LoadedEvent<'visit'> | undefined
}

export function* complaintsDue(view: SiteView): Iterable<ComplaintDue> {
  const answers = firstAnswers(view)
  for (const complaint of view.complaints) {
    if (complaint.data.withdrawn !== undefined || complaint.day < view.begins) continue
    yield { complaint, asked: answerTermsOn(view, complaint.day), answer: answers.get(complaint.id) }
  }
}

/** By complaint, the first visit that answers it. */
export function firstAnswers(view: SiteView): Map<string, LoadedEvent<'visit'>> {
  const answers = new Map<string, LoadedEvent<'visit'>>()
  for (const visit of view.visits)
    for (const complaint of Object.keys(visit.data.answers ?? {}))
      if (!answers.has(complaint)) answers.set(complaint, visit)
  return answers
}

/** Contract, then district, then rulebooks. */
export function answerTermsOn(view: SiteView, day: Day): AnswerTerms | undefined {
  const agreed = serviceTermsOn(view, day)?.contract['complaint-days']
  if (agreed !== undefined)
    return { days: agreed, by: 'contract', sources: [{ kind: 'contract', text: view.site.file }] }
  const { district } = view.district
  const own = district.data['unanswered-complaint-days']
  if (own !== undefined)
    return {
      days: own,
      by: 'district',
      sources: [{ kind: 'standard', text: `${district.file}, set by the district` }],
    }
  const advice = view.district.parameters(answerParameter, day)
  const days = advice && daysOf(advice.value)
  return advice && typeof days === 'number' ? { days, by: 'rulebook', sources: advice.sources } : undefined
}
