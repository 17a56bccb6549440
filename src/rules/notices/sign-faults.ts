import type { SiteView } from '../../ledger/site-view.js'
import type { KeyPath } from '../../types.js'
import type { PostingAssessment, SignsShown } from './assess-posting.js'
import { postingAssessments } from './assess-posting.js'
import type { Fault } from './merge-faults.js'
import type { Outcome } from './outcome.js'

export interface SignFault extends Fault {
  readonly assessment: PostingAssessment
  readonly sign: SignsShown
}

/** Records of signs that are not shown to be as a duty asks, in one respect. */
export function signFaults(
  view: SiteView,
  of: 'signs' | 'gone',
  respect: (sign: SignsShown) => Outcome,
  at: (posted: SignsShown['posting']['data']['posted']) => {
    readonly path: KeyPath
    readonly onKey?: boolean
  },
  strictness: (assessment: PostingAssessment) => number = () => 0,
): SignFault[] {
  return postingAssessments(view).flatMap((assessment) =>
    assessment[of]
      .filter((sign) => respect(sign) !== 'shown')
      .map((sign) => ({
        treatment: assessment.treatment,
        assessment,
        sign,
        citation: assessment.asked.citation,
        certain: respect(sign) === 'not shown',
        at: { file: sign.posting.file, ...at(sign.posting.data.posted) },
        record: sign.posting.file,
        strictness: strictness(assessment),
      })),
  )
}

/** Signs put up only after the application are told as that, and not held against the rest as well. */
export function hungInTime({ timing }: SignsShown): boolean {
  return timing.amiss !== 'after the application'
}
