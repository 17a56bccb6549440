import { newCondition } from './answer-conditions.js'
import { devicesTold } from './answer-devices.js'
import { photoTold } from './answer-files.js'
import { workAtAnyQuestion } from './answer-moved.js'
import { supervisedTold, withTold } from './answer-people.js'
import { plantTold } from './answer-plants.js'
import { deviceSet } from './answer-set.js'
import { newSighting } from './answer-sighting.js'
import { answerWord } from './answer-visit.js'
import { actionDone } from './answer-work.js'
import { workWordAt } from './device-work.js'
import type { VisitPlan } from './plan.js'
import { areaIn, areaTyped } from './plan-places.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered, nextStep } from './state.js'
import { insideAgain } from './walk.js'
import { firstWord } from './words.js'

/** Questions that take free words; a sentence may well begin with one of the words below. */
const freeWords: readonly Step['is'][] = [
  'complaint',
  'by',
  'word',
  'purpose',
  'entered-by',
  'taken-up',
  'set-marked',
  'plant-what',
  'photo-shows',
]

/** What can be typed at any question, beside its answer; undefined for what is an answer. */
export function commanded(plan: VisitPlan, state: VisitState, typed: string): Outcome | undefined {
  const step = nextStep(state)
  const [word, rest] = firstWord(typed)
  if (word === 'c' || word === 's') return placed(plan, state, word, rest)
  if (freeWords.includes(step.is)) return undefined
  switch (word) {
    case 'set':
    case 'did':
    case 'plant':
      return placed(plan, state, word, rest)
    case 'go':
      return goTo(plan, state, rest)
    case 'photo':
      return photoTold(plan, state, rest)
    case 'supervised-by':
      return supervisedTold(plan, state, rest)
    case 'with':
      return withTold(plan, state, rest)
    case 'note':
    case 'advise':
      return remarked(state, word, rest)
    case 'word':
      return rest === '' ? undefined : renamed(plan, state, rest)
    default:
      return deviceWork(plan, state, typed) ?? deviceElsewhere(plan, state, typed)
  }
}

/** `picked up K1 K2`: begun with what was done. */
function deviceWork(plan: VisitPlan, state: VisitState, typed: string): Outcome | undefined {
  const words = typed.split(' ')
  const found = workWordAt(words, 0)
  // Small letters, as every word here: a device may well be named UP.
  if (found === undefined || words[0] !== words[0]?.toLowerCase()) return undefined
  if (state.draft.purpose === undefined) return firstThePurpose
  return workAtAnyQuestion(plan, state, found.word, words.slice(found.after).join(' '))
}

/** A device remembered at another question, by its full name: `K3 2`. */
function deviceElsewhere(plan: VisitPlan, state: VisitState, text: string): Outcome | undefined {
  const step = nextStep(state)
  const [word, rest] = firstWord(text)
  if (rest === '' || !['area', 'condition', 'end', 'confirm'].includes(step.is)) return undefined
  const ids = [...plan.areas.flatMap(({ devices }) => devices), ...(plan.away ?? [])].map(({ id }) => id)
  if (!ids.some((id) => id.toLowerCase() === word.toLowerCase())) return undefined
  return devicesTold(plan, state, 'area' in step ? step.area : state.area, text)
}

const firstThePurpose = { complaint: 'First the purpose of the visit; then this.' }

/** What is told of a place. */
type PlacedWord = 'c' | 's' | 'set' | 'did' | 'plant'

/** These ask for what is not said. */
const asks: readonly PlacedWord[] = ['set', 'plant']

const example: Readonly<Partial<Record<PlacedWord, string>>> = {
  c: 'Write what is wrong after it, as: c drip under the prep sink.',
  s: 'Write what was seen after it, as: s house-mouse droppings fresh.',
  did: 'Write the tactic and what was done after it, as: did vacuuming vacuumed the cable channel.',
}

/**
 * What is told of the place that is asked about, or was last, or is named at the end as `@hall`; if no area was come to
 * yet, the place is asked for.
 */
function placed(plan: VisitPlan, state: VisitState, word: PlacedWord, rest: string): Outcome {
  if (state.draft.purpose === undefined) return firstThePurpose
  const at = /^(.*?) ?@([A-Za-z0-9-]+)$/.exec(rest)
  const says = at?.[1] ?? rest
  if (says === '' && !asks.includes(word)) return { complaint: example[word] ?? '' }
  const step = nextStep(state)
  const named = at?.[2] === undefined ? undefined : areaTyped(plan, at[2])
  if (named && 'complaint' in named) return named
  const area = named?.word ?? ('area' in step ? step.area : state.area)
  if (area === undefined || areaIn(plan, area)?.isArea !== true) {
    const pending: readonly Step[] = [{ is: 'where', told: `${word} ${says}`.trim() }, ...state.pending]
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
    case 'plant':
      return plantTold(plan, state, says, area)
  }
}

/** The place of what was told before any area was come to. */
export function answerWhere(plan: VisitPlan, state: VisitState, what: string, text: string): Outcome {
  if (text === '-') return answered(state, {})
  const found = areaTyped(plan, text)
  if ('complaint' in found) return found
  if (!found.isArea) return { complaint: `${found.word} is no area of this site on this day.` }
  const inArea = { ...state, area: found.word, pending: state.pending.slice(1) }
  return commanded(plan, inArea, `${what} @${found.word}`) ?? answered(state, {})
}

function goTo(plan: VisitPlan, state: VisitState, typed: string): Outcome {
  if (state.draft.purpose === undefined)
    return { complaint: 'First the purpose of the visit; then the areas.' }
  const found = areaTyped(plan, typed)
  if ('complaint' in found) return found
  return {
    state: {
      ...state,
      pending: [
        ...(found.isArea
          ? [{ is: 'area', area: found.word, again: true } as const]
          : insideAgain(plan, found.word)),
        ...state.pending,
      ],
      understood: [],
    },
  }
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
