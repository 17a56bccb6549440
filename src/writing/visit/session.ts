import { answerCondition, answerNewCondition } from './answer-conditions.js'
import { answerDevices } from './answer-devices.js'
import {
  answerArea,
  answerBy,
  answerComplaint,
  answerComplaintLog,
  answerEnd,
  answerPurpose,
  answerSiteManager,
  answerStart,
  answerTimes,
  answerWord,
} from './answer-visit.js'
import { answerWhere, commanded } from './commands.js'
import type { VisitPlan } from './plan.js'
import type { Outcome, Step, VisitState } from './state.js'
import { firstState, nextStep, stepKey } from './state.js'
import { withoutTold } from './walk.js'

/** One answer as it was typed, and what it was given to. */
export interface Answer {
  readonly to: string
  readonly text: string
}

/** A visit that is being told: the answers in order. Everything else follows from them and the plan. */
export interface Session {
  readonly plan: VisitPlan
  readonly answers: readonly Answer[]
  readonly state: VisitState
}

export function begun(plan: VisitPlan): Session {
  return { plan, answers: [], state: firstState(plan) }
}

export function nextQuestion({ state }: Session): Step {
  return nextStep(state)
}

/** The session with one more answer, or what is wrong with the answer; then the same question stands. */
export function answer(
  session: Session,
  typed: string,
): { readonly session: Session } | { readonly complaint: string } {
  const text = typed.replace(/\s+/g, ' ').trim()
  if (hidden.test(text))
    return {
      complaint: 'That holds a character that cannot be seen, such as of an arrow key; type it again.',
    }
  const step = nextStep(session.state)
  const outcome = commanded(session.plan, session.state, text) ?? outcomeOf(session, step, text)
  if ('complaint' in outcome) return outcome
  const answers = [...session.answers, { to: stepKey(step), text }]
  return { session: { ...session, answers, state: withoutTold(session.plan, outcome.state) } }
}

/** Control characters, and characters that hide or turn text around: no record may hold them. */
const hidden = /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/

/** Without the last answer. */
export function undone({ plan, answers }: Session): Session {
  return resumed(plan, answers.slice(0, -1)).session
}

/** A session from its answers. Those from the first on that no longer fits are handed back, never guessed at. */
export function resumed(
  plan: VisitPlan,
  answers: readonly Answer[],
): { readonly session: Session; readonly unfit: readonly Answer[] } {
  let session = begun(plan)
  for (const [at, { to, text }] of answers.entries()) {
    const next = stepKey(nextStep(session.state)) === to ? answer(session, text) : undefined
    if (next === undefined || 'complaint' in next) return { session, unfit: answers.slice(at) }
    session = next.session
  }
  return { session, unfit: [] }
}

function outcomeOf({ plan, state }: Session, step: Step, text: string): Outcome {
  switch (step.is) {
    case 'by':
      return answerBy(plan, state, text)
    case 'word':
      return answerWord(plan, state, text)
    case 'times':
      return answerTimes(state, text)
    case 'start':
      return answerStart(state, text)
    case 'end':
      return answerEnd(state, text)
    case 'purpose':
      return answerPurpose(plan, state, text)
    case 'site-manager':
      return answerSiteManager(plan, state, text)
    case 'complaint-log':
      return answerComplaintLog(state, text)
    case 'area':
      return answerArea(plan, state, step, text)
    case 'devices':
      return answerDevices(plan, { ...state, area: step.area }, step, text)
    case 'condition':
      return answerCondition(plan, { ...state, area: step.area }, step, text)
    case 'new-condition':
      return answerNewCondition(state, step.name, text)
    case 'complaint':
      return answerComplaint(state, step.id, text)
    case 'where':
      return answerWhere(plan, state, step.told, text)
    case 'confirm':
      return { complaint: 'Enter writes the record; u takes the last answer back; ? lists the rest.' }
  }
}
