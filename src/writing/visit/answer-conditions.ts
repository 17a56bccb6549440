import { dayOf } from '../../measure/calendar.js'
import { needs } from '../../records/condition.js'
import { owners } from '../../records/event-words.js'
import { nameIdPattern } from '../../records/fields.js'
import type { YamlMap } from '../demo/yaml.js'
import type { VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { firstWord, listed, matched, nameFor } from './words.js'

const ofOpen = ['still', 'fixed', 'closed'] as const
const ofRepaired = ['holds', 'back'] as const

/** Said of a condition with one word alone. How something was put right has to be said. */
const aloneSays: Readonly<Record<string, string>> = {
  still: 'still there',
  holds: 'still good',
  back: 'back again',
}

/** Enter or `-`: not looked at, and so not in the record. */
export function answerCondition(
  plan: VisitPlan,
  state: VisitState,
  { area, name, again }: Extract<Step, { readonly is: 'condition' }>,
  text: string,
): Outcome {
  if (text === '-' && again === true) {
    const { [name]: _told, ...conditions } = state.draft.conditions
    return answered(state, { conditions })
  }
  if (text === '' || text === '-') return answered(state, {})
  const planned = areaIn(plan, area)?.conditions.find((one) => one.name === name)
  const words = planned?.repairedOn === undefined ? ofOpen : ofRepaired
  const [typed, how] = firstWord(text)
  const found = matched(typed, words, 'answer')
  if ('complaint' in found)
    return { complaint: `Write ${listed(words)} and how it is now; Enter: not looked at.` }
  const says = how === '' ? aloneSays[found.word] : how
  if (says === undefined)
    return { complaint: `${found.word} how? Write it after it, as: ${found.word} new trap fitted.` }
  const key = found.word === 'back' ? 'still' : found.word
  return answered(
    state,
    { conditions: { ...state.draft.conditions, [name]: { [key]: says } } },
    { understood: [`${name}: ${key}: ${says}`] },
  )
}

const named = /^([A-Za-z][A-Za-z0-9-]*): +(.+)$/
const fitsAsName = new RegExp(nameIdPattern)

/** `c drip under the sink`, or with a name of one's own: `c sink-drip: drip under the sink`. */
export function newCondition(plan: VisitPlan, state: VisitState, told: string, area: string): Outcome {
  const own = named.exec(told)
  const says = own?.[2] ?? told
  const inUse = new Set([...plan.namesInUse, ...Object.keys(state.draft.conditions)])
  if (own?.[1] !== undefined && !fitsAsName.test(own[1]))
    return { complaint: `${own[1]} cannot be a name here; choose another.` }
  if (own?.[1] !== undefined && inUse.has(own[1]))
    return { complaint: `The name ${own[1]} is in use here; choose another, or leave it out.` }
  const name = own?.[1] ?? nameFor(`${area} ${twoWordsOf(says)}`, inUse)
  const { draft, pending } = state
  return {
    state: {
      ...state,
      draft: { ...draft, conditions: { ...draft.conditions, [name]: { new: says, area } } },
      pending: [{ is: 'new-condition', name }, ...pending],
      understood: [`new condition ${name} in ${areaIn(plan, area)?.name ?? area}: ${says}`],
    },
  }
}

/** Two words that tell something, for a name; small words tell nothing. */
function twoWordsOf(says: string): string {
  const words = says.split(/[^A-Za-z0-9]+/).filter((word) => word.length > 3)
  return (words.length === 0 ? says.split(' ') : words).slice(0, 2).join(' ')
}

const kinds = ['sanitation', 'moisture', 'structural', 'storage', 'landscape'] as const

/** `water maintenance 2026-03-26`: what it gives, whose it is, by when, in any order. Enter leaves them out. */
export function answerNewCondition(state: VisitState, name: string, text: string): Outcome {
  const { conditions } = state.draft
  let facts: YamlMap = conditions[name] ?? {}
  const words = text.split(/[ ,]+/).filter((word) => word !== '')
  for (const [at, word] of words.entries()) {
    if (word.toLowerCase() === 'fixed') {
      const how = words.slice(at + 1).join(' ')
      if (how === '') return { complaint: 'fixed how? Write it last, as: fixed swept out.' }
      facts = { ...facts, fixed: how }
      break
    }
    const fact = factOf(word)
    if ('complaint' in fact) return fact
    facts = { ...facts, ...fact.facts }
  }
  return answered(state, { conditions: { ...conditions, [name]: facts } })
}

function factOf(word: string): { readonly facts: YamlMap } | { readonly complaint: string } {
  if (/^[0-9]/.test(word))
    return dayOf(word) === null
      ? { complaint: `${word} is no day, such as 2026-03-26.` }
      : { facts: { by: word } }
  const found = matched(word, [...needs, ...owners, ...kinds], 'word')
  if ('complaint' in found)
    return {
      complaint: `${word}: write what it gives (${listed(needs)}), whose it is to mend (${listed(owners)}), its kind (${listed(kinds)}), or a day.`,
    }
  const is = (words: readonly string[]) => words.includes(found.word)
  return { facts: { [is(needs) ? 'gives' : is(owners) ? 'owner' : 'kind']: found.word } }
}
