import { nameIdPattern } from '../../records/fields.js'
import type { YamlMap } from '../demo/yaml.js'
import type { VisitPlan } from './plan.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { firstWord, listed, matched, wordIn } from './words.js'

const fitsAsName = new RegExp(nameIdPattern)
const facts = ['removed', 'sprayed', 'product', 'dry', 'returned'] as const
const needed =
  'Write what became of it: removed WHY, sprayed WHERE, product PRODUCT, dry WHO, returned WHERE; more than one with commas, as removed fungus gnats, sprayed contractor yard.'

/**
 * `plant fern-12 removed fungus gnats, sprayed contractor yard`: a plant taken away from here, treated off the property or
 * brought back. `plant` alone asks which.
 */
export function plantTold(plan: VisitPlan, state: VisitState, told: string, area: string): Outcome {
  if (told === '') return asking(state, { is: 'plant', area })
  const [typed, rest] = firstWord(told)
  const name = plantNamed(plan, state, typed)
  if (!fitsAsName.test(name)) return { complaint: `${name} cannot be the name of a plant, such as fern-12.` }
  const { [name]: before, ...others } = state.draft.plants
  if (rest === '-')
    return before === undefined
      ? { complaint: `Nothing is told of ${name} on this visit.` }
      : { state: { ...state, draft: { ...state.draft, plants: others }, understood: [`${name}: not told`] } }
  if (rest === '') return asking(state, { is: 'plant-what', area, name })
  const read = plantTyped(plan, rest)
  if ('complaint' in read) return read
  return withPlant(plan, state, { name, area, read: read.facts }, state.pending)
}

function asking(state: VisitState, step: Step): Outcome {
  return { state: { ...state, pending: [step, ...state.pending], understood: [] } }
}

/** A plant that is away keeps its name, in any case of letters. */
function plantNamed({ plantsAway = [] }: VisitPlan, { draft }: VisitState, typed: string): string {
  const known = [...plantsAway.map(({ name }) => name), ...Object.keys(draft.plants)]
  return known.find((name) => name.toLowerCase() === typed.toLowerCase()) ?? typed
}

type Read = { readonly facts: YamlMap } | { readonly complaint: string }

function plantTyped(plan: VisitPlan, text: string): Read {
  let read: YamlMap = {}
  for (const part of text.split(/[,;] *(?=(?:removed|sprayed|product|dry|returned)\b)/i)) {
    const [typed, rest] = firstWord(part.replace(/[,;]$/, ''))
    const word = wordIn(typed, facts)
    if (word === undefined) return { complaint: `${typed} is not understood. ${needed}` }
    if (rest === '') return { complaint: `${word}: ${missing[word] ?? needed}` }
    if (word === 'product') {
      const product = matched(rest, plan.products, 'product')
      if ('complaint' in product) return product
      read = { ...read, product: product.word }
    } else read = { ...read, [word]: word === 'dry' ? (wordIn(rest, plan.people) ?? rest) : rest }
  }
  return { facts: read }
}

const missing: Readonly<Record<string, string>> = {
  removed: 'why was it taken away? As: removed fungus gnats.',
  sprayed: 'where was it treated? Off the property, as: sprayed contractor yard.',
  product: 'what was it treated with? Write the product.',
  dry: 'who saw it dry? As: dry okafor.',
  returned: 'where was it put back? As: returned window sill.',
}

interface PlantRead {
  readonly name: string
  readonly area: string
  readonly read: YamlMap
}

/** With what was told of a plant; one that comes back after it was treated is asked whether someone saw it dry. */
function withPlant(
  { plantsAway = [] }: VisitPlan,
  state: VisitState,
  { name, area, read }: PlantRead,
  after: readonly Step[],
): Outcome {
  const away = plantsAway.find((plant) => plant.name === name)
  const before = state.draft.plants[name] ?? { area: away?.area ?? area }
  const now: YamlMap = { ...before, ...read }
  const isWet = now.dry === undefined && (now.sprayed !== undefined || away?.isWet === true)
  const isStray = now.returned !== undefined && now.removed === undefined && away === undefined
  const next: readonly Step[] = now.returned !== undefined && isWet ? [{ is: 'plant-dry', name }] : []
  return {
    state: {
      ...state,
      draft: { ...state.draft, plants: { ...state.draft.plants, [name]: now } },
      pending: [...next, ...after],
      understood: [
        `plant ${name}: ${Object.entries(read)
          .map(([key, value]) => `${key} ${value}`)
          .join(', ')}`,
        ...(isStray
          ? [
              `No record shows that ${name} was taken away; away: ${listed(plantsAway.map((plant) => plant.name))}. u takes it back.`,
            ]
          : []),
      ],
    },
  }
}

/** Which plant: its short name, and if wanted what became of it. */
export function answerPlant(plan: VisitPlan, state: VisitState, area: string, text: string): Outcome {
  if (text === '' || text === '-') return answered(state, {}, { understood: ['no plant'] })
  return plantTold(plan, { ...state, pending: state.pending.slice(1) }, text, area)
}

export function answerPlantWhat(
  plan: VisitPlan,
  state: VisitState,
  { area, name }: Extract<Step, { readonly is: 'plant-what' }>,
  text: string,
): Outcome {
  if (text === '-') return answered(state, {}, { understood: [`${name}: not told`] })
  if (text === '') return { complaint: needed }
  const read = plantTyped(plan, text)
  if ('complaint' in read) return read
  return withPlant(plan, state, { name, area, read: read.facts }, state.pending.slice(1))
}

/** Who saw it dry. Enter says nothing: nobody is taken to have looked. */
export function answerPlantDry(plan: VisitPlan, state: VisitState, name: string, text: string): Outcome {
  const before = state.draft.plants[name]
  if (text === '' || text === '-' || before === undefined) return answered(state, {})
  const dry = wordIn(text, plan.people) ?? text
  return answered(
    state,
    { plants: { ...state.draft.plants, [name]: { ...before, dry } } },
    { understood: [`plant ${name}: dry ${dry}`] },
  )
}
