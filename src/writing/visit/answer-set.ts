import { deviceKinds } from '../../records/device-kinds.js'
import { nameIdPattern } from '../../records/fields.js'
import type { YamlMap } from '../demo/yaml.js'
import type { VisitPlan } from './plan.js'
import { areaIn, deviceOf } from './plan-places.js'
import { standingTyped } from './standing-words.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { firstWord, matched } from './words.js'

const fitsAsName = new RegExp(nameIdPattern)

/**
 * `set K9 sticky-trap for german-cockroach secured`: a device set here on this visit. What is not on the line is asked
 * for: `set` alone asks for the kind, the name and what is printed on it.
 */
export function deviceSet(plan: VisitPlan, state: VisitState, told: string, area: string): Outcome {
  if (told === '') return asking(state, { is: 'set-kind', area })
  const [id, rest] = firstWord(told)
  if (rest === '' && (deviceKinds as readonly string[]).includes(id.toLowerCase()))
    return asking(state, { is: 'set-name', area, kind: id.toLowerCase() })
  if (rest === '-') return notSet(state, id)
  const complaint = nameComplaint(plan, state, id)
  if (complaint !== undefined) return { complaint }
  if (rest === '') return asking(state, { is: 'set-kind', area, device: id })
  const [kindTyped, words] = firstWord(rest)
  const kind = matched(kindTyped, deviceKinds, 'kind of device')
  if ('complaint' in kind) return kind
  const facts = standingTyped(words, plan.products, false)
  if ('complaint' in facts) return facts
  const { draft } = state
  const before = draft.set[id] === undefined ? '' : ', in place of what was told of it before'
  return {
    state: {
      ...state,
      draft: { ...draft, set: { ...draft.set, [id]: { kind: kind.word, area, ...facts.facts } } },
      understood: [
        `${id} set in ${areaIn(plan, area)?.name ?? area}: ${[kind.word, words].join(' ').trim()}${before}`,
      ],
    },
  }
}

function asking(state: VisitState, step: Step): Outcome {
  return { state: { ...state, pending: [step, ...state.pending], understood: [] } }
}

function notSet(state: VisitState, id: string): Outcome {
  const { [id]: told, ...set } = state.draft.set
  if (told === undefined) return { complaint: `${id} was not set on this visit.` }
  return { state: { ...state, draft: { ...state.draft, set }, understood: [`${id}: not set`] } }
}

/** Why a name cannot be that of a device set now, if it cannot. What was taken up on this visit leaves its name free. */
function nameComplaint(plan: VisitPlan, { draft }: VisitState, id: string): string | undefined {
  if (!fitsAsName.test(id)) return `${id} cannot be the name of a device, such as K9.`
  const stands = deviceOf(plan, id) !== undefined || (plan.away ?? []).some((one) => one.id === id)
  return stands && draft.takenUp[id] === undefined
    ? `${id} stands in the records already; choose another name, or take it up first: ${id} taken-up WHY.`
    : undefined
}

export function answerSetKind(
  plan: VisitPlan,
  state: VisitState,
  { area, device }: Extract<Step, { readonly is: 'set-kind' }>,
  text: string,
): Outcome {
  if (text === '-' || text === '') return answered(state, {}, { understood: ['no device set'] })
  const kind = matched(text.split(' ').join('-'), deviceKinds, 'kind of device')
  if ('complaint' in kind) return kind
  if (device === undefined)
    return answered(state, {}, { next: [{ is: 'set-name', area, kind: kind.word }], understood: [kind.word] })
  return named(plan, state, { area, kind: kind.word, device })
}

export function answerSetName(
  plan: VisitPlan,
  state: VisitState,
  { area, kind }: Extract<Step, { readonly is: 'set-name' }>,
  text: string,
): Outcome {
  if (text === '-') return answered(state, {}, { understood: ['no device set'] })
  const device = text === '' ? nextName(plan, state, area) : text
  if (device === undefined) return { complaint: 'Write the name that it has in the records, such as K9.' }
  const complaint =
    nameComplaint(plan, state, device) ??
    (state.draft.set[device] === undefined
      ? undefined
      : `${device} was set on this visit already; choose another name.`)
  return complaint === undefined ? named(plan, state, { area, kind, device }) : { complaint }
}

function named(
  plan: VisitPlan,
  state: VisitState,
  { area, kind, device }: { readonly area: string; readonly kind: string; readonly device: string },
): Outcome {
  return answered(
    state,
    { set: { ...state.draft.set, [device]: { kind, area } } },
    {
      next: [
        { is: 'set-marked', device },
        { is: 'set-stands', device },
      ],
      understood: [`${device} set in ${areaIn(plan, area)?.name ?? area}: ${kind}`],
    },
  )
}

/** The name after the last one of the area's devices, or else of the site's: K13 after K12. Undefined where none has a number. */
export function nextName(plan: VisitPlan, { draft }: VisitState, area: string): string | undefined {
  const here = (areaIn(plan, area)?.devices ?? []).map(({ id }) => id)
  const ever = [...(plan.deviceNames ?? plan.areas.flatMap(({ devices }) => devices.map(({ id }) => id)))]
  const all = [...ever, ...Object.keys(draft.set)]
  const like = [...all, ...here].findLast((id) => numbered.test(id))
  const [, prefix, digits = ''] = numbered.exec(like ?? '') ?? []
  if (prefix === undefined) return undefined
  const numbers = all.flatMap((id) => {
    const found = numbered.exec(id)
    return found?.[1] === prefix ? [Number(found[2])] : []
  })
  return `${prefix}${String(Math.max(...numbers) + 1).padStart(digits.length, '0')}`
}

const numbered = /^([A-Za-z](?:[A-Za-z0-9-]*[A-Za-z-])?)([0-9]{1,6})$/

/** What is printed on it; Enter where that is its name. */
export function answerSetMarked(state: VisitState, device: string, text: string): Outcome {
  if (text === '' || text === '-' || text === device) return answered(state, {})
  return answered(state, { set: withFacts(state, device, { 'marked-as': text }) })
}

/** `for german-cockroach secured`, in any order. Enter leaves it out. */
export function answerSetStands(plan: VisitPlan, state: VisitState, device: string, text: string): Outcome {
  if (text === '' || text === '-') return answered(state, {})
  const typed = standingTyped(text, plan.products, false)
  if ('complaint' in typed) return typed
  return answered(
    state,
    { set: withFacts(state, device, typed.facts) },
    { understood: [`${device}: ${text}`] },
  )
}

function withFacts({ draft }: VisitState, device: string, facts: YamlMap): VisitState['draft']['set'] {
  // Taken out again while its questions were still open: then there is nothing to add to.
  const before = draft.set[device]
  return before === undefined ? draft.set : { ...draft.set, [device]: { ...before, ...facts } }
}
