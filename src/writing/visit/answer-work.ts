import { tactics } from '../../records/action.js'
import type { VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import type { Outcome, VisitState } from './state.js'
import { firstWord, nameFor, wordIn } from './words.js'

/** `did vacuuming vacuumed the cable channel`: a tactic carried out here. */
export function actionDone(plan: VisitPlan, state: VisitState, told: string, area: string): Outcome {
  const [typed, did] = firstWord(told)
  const tactic = wordIn(typed, tactics)
  if (tactic === undefined || did === '')
    return {
      complaint: `Write the tactic and what was done, as: did vacuuming vacuumed the cable channel. Tactics: ${tactics.join(', ')}.`,
    }
  const { actions } = state.draft
  const name = nameFor(`${area} ${tactic}`, new Set(Object.keys(actions)))
  return {
    state: {
      ...state,
      draft: { ...state.draft, actions: { ...actions, [name]: { did, tactic, area } } },
      understood: [`done in ${areaIn(plan, area)?.name ?? area} (${tactic}): ${did}`],
    },
  }
}
