import type { WorkWord } from './device-work.js'
import { deviceTyped, stoodIn, workTold } from './device-work.js'
import type { VisitDraft } from './draft.js'
import type { VisitPlan } from './plan.js'
import { standingTyped } from './standing-words.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { firstWord, listed } from './words.js'

/** `picked-up K1 K2`, `put-out all`, `moved K3 store`, `up K9 room closed`, at any question. */
export function workAtAnyQuestion(plan: VisitPlan, state: VisitState, word: WorkWord, told: string): Outcome {
  if (told === '') return { complaint: withoutDevice(plan, word) }
  const takesMany = word === 'picked-up' || word === 'put-out'
  const isTakenOut = takesMany && / -$/.test(told)
  const names = (isTakenOut ? told.slice(0, -2) : told).split(/[ ,;]+/).filter((name) => name !== '')
  const awayNow = (plan.away ?? []).map(({ id }) => id)
  if (word === 'put-out' && told.toLowerCase() === 'all' && awayNow.length > 0)
    return worked(
      plan,
      state,
      word,
      awayNow.map((id) => [id, ''] as const),
    )
  const [first, rest] = firstWord(told)
  const each = takesMany
    ? names.map((name) => [name, isTakenOut ? '-' : ''] as const)
    : [[first, rest] as const]
  return worked(plan, state, word, each)
}

function worked(
  plan: VisitPlan,
  state: VisitState,
  word: WorkWord,
  each: readonly (readonly [string, string])[],
): Outcome {
  let { draft } = state
  const steps: Step[] = []
  const understood: string[] = []
  for (const [name, rest] of each) {
    const device = deviceTyped(plan, name)
    if ('complaint' in device) return device
    const told = workTold(plan, draft, { word, id: device.word, rest })
    if ('complaint' in told) return told
    draft = told.draft
    steps.push(...told.steps)
    if (told.understood !== '') understood.push(told.understood)
  }
  return { state: { ...state, draft, pending: [...steps, ...state.pending], understood } }
}

const example: Readonly<Record<WorkWord, string>> = {
  moved: 'Write the device after it, and where to: moved K3 store.',
  'picked-up': 'Write the devices after it, as: picked-up K1 K2.',
  'put-out': 'Write the devices after it, or all, as: put-out K1 K2.',
  'taken-up': 'Write the device and why after it, as: taken-up K9 room closed.',
}

function withoutDevice({ away = [] }: VisitPlan, word: WorkWord): string {
  return word === 'put-out'
    ? `${example[word]} Picked up: ${listed(away.map(({ id }) => id))}.`
    : example[word]
}

/** Where to; Enter is the area it stood in, where it was only shifted. */
export function answerMovedTo(plan: VisitPlan, state: VisitState, device: string, text: string): Outcome {
  if (text === '-') return answered(state, {}, { understood: [`${device}: not moved`] })
  const rest = text === '' ? stoodIn(plan, device) : text
  if (rest === undefined || rest === '') return { complaint: 'Write the area it was moved to.' }
  const told = workTold(plan, state.draft, { word: 'moved', id: device, rest })
  if ('complaint' in told) return told
  return answered(state, told.draft, { next: told.steps, understood: [told.understood] })
}

/** How it stands there; Enter leaves it out. */
export function answerMovedStands(plan: VisitPlan, state: VisitState, device: string, text: string): Outcome {
  const before = state.draft.moved[device]
  if (text === '' || text === '-' || before === undefined) return answered(state, {})
  const typed = standingTyped(text, plan.products, true)
  if ('complaint' in typed) return typed
  const moved: VisitDraft['moved'] = { ...state.draft.moved, [device]: { ...before, ...typed.facts } }
  return answered(state, { moved }, { understood: [`${device}: ${text}`] })
}

/** Why it was taken up. */
export function answerTakenUp(plan: VisitPlan, state: VisitState, device: string, text: string): Outcome {
  if (text === '-') return answered(state, {}, { understood: [`${device}: not taken-up`] })
  if (text === '') return { complaint: `Why was ${device} taken up? As: room closed; - if it was not.` }
  const told = workTold(plan, state.draft, { word: 'taken-up', id: device, rest: text })
  if ('complaint' in told) return told
  return answered(state, told.draft, { understood: [told.understood] })
}
