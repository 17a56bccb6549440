import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { emergencyDuties } from './duties-in-emergency.js'
import type { Outcome } from './outcome.js'
import { treatmentsToldOf } from './told-about.js'

/** What the record shows of one duty to state an emergency in writing. */
export interface StatementAssessment {
  readonly treatment: Treatment
  readonly asked: Duty<'emergencies'>
  readonly outcome: Outcome
  readonly missing: readonly ('signed' | 'prevention')[]
}

/** Every duty to state an emergency, for the applications that state one. */
export function statementAssessments(view: SiteView): StatementAssessment[] {
  return treatmentsToldOf(view).flatMap((treatment) =>
    emergencyDuties(view, treatment)
      .filter(({ says }) => says.statement !== undefined || says.prevention !== undefined)
      .map((asked) => assessStatement(treatment, asked)),
  )
}

/** What happened, why it could not wait and who decided are part of every statement; signed and prevention are not. */
export function assessStatement(treatment: Treatment, asked: Duty<'emergencies'>): StatementAssessment {
  const emergency = treatment.application?.emergency
  const missing = [
    ...(asked.says.statement === 'signed' && emergency?.signed === undefined ? (['signed'] as const) : []),
    ...(asked.says.prevention === 'yes' && emergency?.prevention === undefined
      ? (['prevention'] as const)
      : []),
  ]
  return { treatment, asked, outcome: missing.length === 0 ? 'shown' : 'not shown', missing }
}
