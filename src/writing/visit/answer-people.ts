import { dayOf } from '../../measure/calendar.js'
import type { VisitPlan } from './plan.js'
import type { Outcome, VisitState } from './state.js'
import { answered } from './state.js'
import { matched } from './words.js'

/** `supervised-by vale`: the certified applicator who supervised the bait put into devices. */
export function supervisedTold(plan: VisitPlan, state: VisitState, told: string): Outcome {
  const { supervisedBy: _before, ...draft } = state.draft
  if (told === '-') return { state: { ...state, draft, understood: ['supervised by nobody said'] } }
  if (told === '')
    return { complaint: 'Write who supervised after it, by the id of the person: supervised-by vale.' }
  const found = matched(told, plan.people, 'person')
  if ('complaint' in found) return found
  if (found.word === draft.by)
    return { complaint: `${found.word} made the visit; nobody supervises oneself.` }
  return {
    state: {
      ...state,
      draft: { ...draft, supervisedBy: found.word },
      understood: [`supervised by ${found.word}`],
    },
  }
}

/** `with lind marsh`: who else took part. */
export function withTold(plan: VisitPlan, state: VisitState, told: string): Outcome {
  const { draft } = state
  if (told === '-')
    return { state: { ...state, draft: { ...draft, with: [] }, understood: ['with nobody else'] } }
  let people = draft.with
  for (const typed of told.split(/[ ,]+/).filter((one) => one !== '' && one.toLowerCase() !== 'and')) {
    const found = matched(typed, plan.people, 'person')
    if ('complaint' in found) return found
    if (found.word === draft.by)
      return { complaint: `${found.word} made the visit; write who else took part.` }
    people = [...people.filter((one) => one !== found.word), found.word]
  }
  if (people.length === 0) return { complaint: 'Write who else took part after it, as: with lind.' }
  return { state: { ...state, draft: { ...draft, with: people }, understood: [`with ${people.join(', ')}`] } }
}

/** Who types a past visit; Enter is whoever made it. Of a page that someone else types, the day it was filled in is asked. */
export function answerWhoTypes(plan: VisitPlan, state: VisitState, text: string): Outcome {
  const { by } = state.draft
  if (text === '' || text === '-' || text === by) return answered(state, {})
  const found = matched(text, plan.people, 'person')
  if ('complaint' in found) return found
  return answered(
    state,
    { enteredBy: found.word },
    {
      next: plan.onPaper === undefined ? [{ is: 'on-paper' }] : [],
      understood: [`typed by ${found.word}`],
    },
  )
}

/** The day the page was filled in; Enter is the day of the visit, `-` that there is no page. */
export function answerOnPaper(plan: VisitPlan, state: VisitState, text: string): Outcome {
  if (text === '-') return answered(state, {})
  const day = text === '' ? plan.day : text
  if (dayOf(day) === null) return { complaint: `${day} is no day, such as ${plan.day}.` }
  if (day < plan.day) return { complaint: `A page about ${plan.day} was not filled in before it, on ${day}.` }
  return answered(state, { onPaper: day })
}
