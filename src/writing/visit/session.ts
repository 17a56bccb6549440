import { answerCondition, answerNewCondition } from './answer-conditions.js'
import { answerDevices } from './answer-devices.js'
import { answerPhoto, answerPhotoShows } from './answer-files.js'
import { answerMovedStands, answerMovedTo, answerTakenUp } from './answer-moved.js'
import { answerOnPaper, answerWhoTypes } from './answer-people.js'
import { answerPlant, answerPlantDry, answerPlantWhat } from './answer-plants.js'
import { answerSetKind, answerSetMarked, answerSetName, answerSetStands } from './answer-set.js'
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
  const state = withoutTold(session.plan, withHint(session.state, outcome.state))
  return { session: { ...session, answers, state } }
}

/** Bait put in says that someone may have to have supervised it: said once, and never asked. */
function withHint(before: VisitState, after: VisitState): VisitState {
  if (after.draft.supervisedBy !== undefined || hasBait(before) || !hasBait(after)) return after
  const hint = 'Bait was put in: if someone certified supervised it, write supervised-by and who.'
  return { ...after, understood: [...after.understood, hint] }
}

function hasBait({ draft }: VisitState): boolean {
  const told = [...Object.values(draft.readings), ...Object.values(draft.set)]
  return told.some((facts) => facts !== 'none' && facts['bait-added'] !== undefined)
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
    case 'entered-by':
      return answerWhoTypes(plan, state, text)
    case 'on-paper':
      return answerOnPaper(plan, state, text)
    case 'where':
      return answerWhere(plan, state, step.told, text)
    case 'moved-to':
      return answerMovedTo(plan, state, step.device, text)
    case 'moved-stands':
      return answerMovedStands(plan, state, step.device, text)
    case 'taken-up':
      return answerTakenUp(plan, state, step.device, text)
    case 'set-kind':
      return answerSetKind(plan, state, step, text)
    case 'set-name':
      return answerSetName(plan, state, step, text)
    case 'set-marked':
      return answerSetMarked(state, step.device, text)
    case 'set-stands':
      return answerSetStands(plan, state, step.device, text)
    case 'plant':
      return answerPlant(plan, state, step.area, text)
    case 'plant-what':
      return answerPlantWhat(plan, state, step, text)
    case 'plant-dry':
      return answerPlantDry(plan, state, step.name, text)
    case 'photo':
      return answerPhoto(plan, state, text)
    case 'photo-shows':
      return answerPhotoShows(state, step, text)
    case 'confirm':
      return { complaint: 'Enter writes the record; u takes the last answer back; ? lists the rest.' }
  }
}
