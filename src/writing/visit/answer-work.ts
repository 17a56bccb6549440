import { tactics } from '../../records/action.js'
import { deviceKinds } from '../../records/device-kinds.js'
import { nameIdPattern } from '../../records/fields.js'
import { pestTable } from '../../records/tables.js'
import type { YamlMap } from '../demo/yaml.js'
import type { VisitPlan } from './plan.js'
import { areaIn, deviceOf } from './plan.js'
import type { Outcome, VisitState } from './state.js'
import { firstWord, matched, nameFor, wordIn } from './words.js'

const fitsAsName = new RegExp(nameIdPattern)

/** `set K9 sticky-trap for german-cockroach secured marked`: a device set here on this visit. */
export function deviceSet(plan: VisitPlan, state: VisitState, told: string, area: string): Outcome {
  const [id, rest] = firstWord(told)
  const { set } = state.draft
  if (!fitsAsName.test(id)) return { complaint: `${id} cannot be the name of a device, such as K9.` }
  if (deviceOf(plan, id) !== undefined)
    return { complaint: `${id} stands in the records already; choose another name, or take it up first.` }
  const [kindTyped, ...words] = rest.split(' ')
  const kind = matched(kindTyped ?? '', deviceKinds, 'kind of device')
  if ('complaint' in kind) return kind
  const facts = placedSo(words)
  if ('complaint' in facts) return facts
  return {
    state: {
      ...state,
      draft: { ...state.draft, set: { ...set, [id]: { kind: kind.word, area, ...facts.facts } } },
      understood: [`${id} set in ${areaIn(plan, area)?.name ?? area}: ${[kind.word, ...words].join(' ')}`],
    },
  }
}

type Facts = { readonly facts: YamlMap } | { readonly complaint: string }

/** What can be said of how it stands. What is not said stays unsaid. */
const standing: Readonly<Record<string, YamlMap>> = {
  secured: { secured: 'yes' },
  unsecured: { secured: 'no' },
  marked: { marked: 'yes' },
  unmarked: { marked: 'no' },
  'within-reach': { 'within-reach': 'yes' },
  'out-of-reach': { 'within-reach': 'no' },
}

function placedSo(words: readonly string[]): Facts {
  let facts: YamlMap = {}
  let pests: readonly string[] | undefined
  for (const word of words.flatMap((one) => one.split(',')).filter((one) => one !== '')) {
    const placed = standing[word.toLowerCase()]
    if (placed) facts = { ...facts, ...placed }
    else if (word.toLowerCase() === 'for') pests = []
    else if (pests === undefined)
      return {
        complaint: `${word} is not understood; write for and the pests, or ${Object.keys(standing).join(', ')}.`,
      }
    else {
      const pest = matched(word, [...pestTable().keys()], 'pest')
      if ('complaint' in pest) return pest
      pests = [...pests, pest.word]
    }
  }
  if (pests?.length === 0) return { complaint: 'for which pests? Write them after it.' }
  return { facts: pests === undefined ? facts : { ...facts, for: pests } }
}

/** `up K9 room closed`: a device taken up for good, and why. */
export function deviceTakenUp(plan: VisitPlan, state: VisitState, told: string): Outcome {
  const [typed, why] = firstWord(told)
  const known = plan.areas.flatMap(({ devices }) => devices.map(({ id }) => id))
  const id = known.find((one) => one.toLowerCase() === typed.toLowerCase())
  if (id === undefined) {
    const found = matched(typed, known, 'device')
    return 'complaint' in found
      ? found
      : { complaint: `There is no device ${typed}; did you mean ${found.word}?` }
  }
  if (why === '') return { complaint: `Why was ${id} taken up? Write it after it, as: up ${id} room closed.` }
  return {
    state: {
      ...state,
      draft: { ...state.draft, takenUp: { ...state.draft.takenUp, [id]: why } },
      understood: [`${id} taken up for good: ${why}`],
    },
  }
}

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
