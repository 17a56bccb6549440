import { evidenceKinds, traceAges } from '../../records/event-words.js'
import { lifeStages, nameIdPattern } from '../../records/fields.js'
import { pestTable } from '../../records/tables.js'
import { pestName } from '../../reports/pest-name.js'
import type { YamlMap } from '../demo/yaml.js'
import type { VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import type { Outcome, VisitState } from './state.js'
import { listed, nameFor, wordIn } from './words.js'

const named = /^([A-Za-z][A-Za-z0-9-]*): +(.+)$/
const fitsAsName = new RegExp(nameIdPattern)
const sureness = ['sure', 'likely', 'tentative'] as const
const needed = `Write the pest and what was seen of it, as: s house-mouse droppings fresh 3 cleaned. What was seen is one of ${evidenceKinds.join(', ')}.`

/** `s house-mouse droppings fresh 3 cleaned`, in any order; with a name of one's own: `s behind-sink: …`. */
export function newSighting(plan: VisitPlan, state: VisitState, told: string, area: string): Outcome {
  const own = named.exec(told)
  const inUse = new Set([...plan.namesInUse, ...Object.keys(state.draft.found)])
  if (own?.[1] !== undefined && !fitsAsName.test(own[1]))
    return { complaint: `${own[1]} cannot be a name here; choose another.` }
  if (own?.[1] !== undefined && inUse.has(own[1]))
    return { complaint: `The name ${own[1]} is in use here; choose another, or leave it out.` }
  const read = sightingTyped((own?.[2] ?? told).split(/ +/))
  if ('complaint' in read) return read
  const { facts } = read
  const animal = String(facts.pest ?? facts.other ?? '')
  if (facts.evidence === undefined || animal === '') return { complaint: needed }
  const name = own?.[1] ?? nameFor(`${area} ${animal}`, inUse)
  const { draft } = state
  const { pest, other, ...rest } = facts
  const found = {
    ...(pest === undefined ? { other } : { pest }),
    area,
    ...rest,
  }
  return {
    state: {
      ...state,
      draft: { ...draft, found: { ...draft.found, [name]: found } },
      understood: [
        `seen in ${areaIn(plan, area)?.name ?? area} (${name}): ${pestName(animal)}, ${Object.values(rest).join(', ')}`,
      ],
    },
  }
}

type Read = { readonly facts: YamlMap } | { readonly complaint: string }

function sightingTyped(words: readonly string[]): Read {
  let facts: YamlMap = {}
  for (const [at, written] of words.entries()) {
    const word = written.replace(/,$/, '')
    if (word.toLowerCase() === 'looks') {
      const looks = words.slice(at + 1).join(' ')
      return looks === '' ? { complaint: 'looks how? Write it last.' } : { facts: { ...facts, looks } }
    }
    if (word === '') continue
    const fact = factOf(word, words[at - 1]?.toLowerCase() === 'other')
    if ('complaint' in fact) return fact
    facts = { ...facts, ...fact.facts }
  }
  return { facts }
}

function factOf(word: string, isOther: boolean): Read {
  if (isOther) return { facts: { other: word } }
  const low = word.toLowerCase()
  if (low === 'other') return { facts: {} }
  if (/^[0-9]+$/.test(word)) return { facts: { count: Number(word) } }
  if (/^[0-9]/.test(word)) return { complaint: `${word} is not a number of animals.` }
  if (low === 'cleaned' || low === 'uncleaned')
    return { facts: { cleaned: low === 'cleaned' ? 'yes' : 'no' } }
  if (low === 'by-day' || low === 'flushed') return { facts: { [low]: 'yes' } }
  if (low === 'active' || low === 'abandoned') return { facts: { 'nest-state': low } }
  for (const [key, known] of Object.entries(wordsOf))
    if (known.includes(low)) return { facts: { [key]: low } }
  return pestTyped(word)
}

/** Words that are told apart by themselves; `unknown` is an age of traces, and the life stage is left out then. */
const wordsOf: Readonly<Record<string, readonly string[]>> = {
  evidence: evidenceKinds,
  age: traceAges,
  stage: lifeStages,
  identified: sureness,
}

function pestTyped(word: string): Read {
  const pest = wordIn(word, [...pestTable().keys()])
  if (pest !== undefined) return { facts: { pest } }
  const begun = [...evidenceKinds, ...traceAges, ...pestTable().keys()].filter((one) =>
    one.startsWith(word.toLowerCase()),
  )
  if (begun.length > 1) return { complaint: `${word} could be ${listed(begun)}: write more of it.` }
  const [one] = begun
  if (one !== undefined) return factOf(one, false)
  return {
    complaint: `${word} is no pest and no word for what was seen. ${needed} An animal in no table: other earwig.`,
  }
}
