import { newCondition } from './answer-conditions.js'
import { devicesTold } from './answer-devices.js'
import { newSighting } from './answer-sighting.js'
import { answerWord } from './answer-visit.js'
import { actionDone, deviceSet, deviceTakenUp } from './answer-work.js'
import type { VisitPlan } from './plan.js'
import { areaIn } from './plan.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered, nextStep } from './state.js'
import { insideAgain } from './walk.js'
import { firstWord, matched } from './words.js'

/** What can be typed at any question, beside its answer; undefined for what is an answer. */
export function commanded(plan: VisitPlan, state: VisitState, text: string): Outcome | undefined {
  const step = nextStep(state)
  const [word, rest] = firstWord(text)
  if (word === 'c' || word === 's') return placed(plan, state, word, rest)
  // These take free words, and a sentence may well begin with one of the words below.
  if (['complaint', 'by', 'word', 'purpose'].includes(step.is)) return undefined
  switch (word) {
    case 'set':
    case 'did':
      return placed(plan, state, word, rest)
    case 'up':
      return deviceTakenUp(plan, state, rest)
    case 'go':
      return goTo(plan, state, rest)
    case 'note':
    case 'advise':
      return remarked(state, word, rest)
    case 'word':
      return rest === '' ? undefined : renamed(plan, state, rest)
    default:
      return deviceElsewhere(plan, state, text)
  }
}

/** A device remembered at another question, by its full name: `K3 2`. */
function deviceElsewhere(plan: VisitPlan, state: VisitState, text: string): Outcome | undefined {
  const step = nextStep(state)
  const [word, rest] = firstWord(text)
  if (rest === '' || !['area', 'condition', 'end', 'confirm'].includes(step.is)) return undefined
  if (!plan.areas.some(({ devices }) => devices.some(({ id }) => id.toLowerCase() === word.toLowerCase())))
    return undefined
  return devicesTold(plan, state, 'area' in step ? step.area : state.area, text)
}

/** What is told of a place. */
type PlacedWord = 'c' | 's' | 'set' | 'did'

const example: Readonly<Record<PlacedWord, string>> = {
  c: 'Write what is wrong after it, as: c drip under the prep sink.',
  s: 'Write what was seen after it, as: s house-mouse droppings fresh.',
  set: 'Write the device and its kind after it, as: set K9 sticky-trap for german-cockroach.',
  did: 'Write the tactic and what was done after it, as: did vacuuming vacuumed the cable channel.',
}

/**
 * What is told of the place that is asked about, or was last, or is named at the end as `@hall`; if no area was come to
 * yet, the place is asked for.
 */
function placed(plan: VisitPlan, state: VisitState, word: PlacedWord, rest: string): Outcome {
  if (state.draft.purpose === undefined) return { complaint: 'First the purpose of the visit; then this.' }
  const at = /^(.*?) ?@([A-Za-z0-9-]+)$/.exec(rest)
  const says = at?.[1] ?? rest
  if (says === '') return { complaint: example[word] }
  const step = nextStep(state)
  const named = at?.[2] === undefined ? undefined : areaTyped(plan, at[2])
  if (named && 'complaint' in named) return named
  const area = named?.word ?? ('area' in step ? step.area : state.area)
  if (area === undefined || areaIn(plan, area)?.isArea !== true) {
    const pending: readonly Step[] = [{ is: 'where', told: `${word} ${says}` }, ...state.pending]
    return { state: { ...state, pending, understood: [] } }
  }
  switch (word) {
    case 'c':
      return newCondition(plan, state, says, area)
    case 's':
      return newSighting(plan, state, says, area)
    case 'set':
      return deviceSet(plan, state, says, area)
    case 'did':
      return actionDone(plan, state, says, area)
  }
}

/** The place of what was told before any area was come to. */
export function answerWhere(plan: VisitPlan, state: VisitState, what: string, text: string): Outcome {
  if (text === '-') return answered(state, {})
  const found = areaTyped(plan, text)
  if ('complaint' in found) return found
  if (areaIn(plan, found.word)?.isArea !== true)
    return { complaint: `${found.word} is no area of this site on this day.` }
  const inArea = { ...state, area: found.word, pending: state.pending.slice(1) }
  return commanded(plan, inArea, `${what} @${found.word}`) ?? answered(state, {})
}

function goTo(plan: VisitPlan, state: VisitState, typed: string): Outcome {
  if (state.draft.purpose === undefined)
    return { complaint: 'First the purpose of the visit; then the areas.' }
  const found = areaTyped(plan, typed)
  if ('complaint' in found) return found
  const isArea = areaIn(plan, found.word)?.isArea === true
  return {
    state: {
      ...state,
      pending: [
        ...(isArea
          ? [{ is: 'area', area: found.word, again: true } as const]
          : insideAgain(plan, found.word)),
        ...state.pending,
      ],
      understood: [],
    },
  }
}

/** An area by its id or by its name. */
function areaTyped(plan: VisitPlan, typed: string) {
  const named = plan.areas.find(({ name }) => name.toLowerCase() === typed.toLowerCase())
  return named
    ? { word: named.id }
    : matched(
        typed,
        plan.areas.map(({ id }) => id).filter((id) => id !== ''),
        'area',
      )
}

/** Another name for the record, where one of that day and person was written in the meantime. */
function renamed(plan: VisitPlan, state: VisitState, word: string): Outcome {
  const outcome = answerWord(plan, { ...state, pending: [state.pending[0] ?? { is: 'confirm' }] }, word)
  if ('complaint' in outcome) return outcome
  return {
    state: { ...outcome.state, pending: state.pending, understood: [`named with ${word}`] },
  }
}

function remarked(state: VisitState, word: 'note' | 'advise', text: string): Outcome {
  if (text === '') return { complaint: `${word} what? Write it after it.` }
  const { draft } = state
  return {
    state: {
      ...state,
      draft:
        word === 'note'
          ? { ...draft, notes: [...draft.notes, text] }
          : { ...draft, recommended: [...draft.recommended, text] },
      understood: [`${word === 'note' ? 'noted' : 'advice'}: ${text}`],
    },
  }
}
