import type { VisitDraft } from './draft.js'
import type { VisitPlan } from './plan.js'
import { areaOfDevice, areaTyped } from './plan-places.js'
import { standingTyped } from './standing-words.js'
import type { Step } from './state.js'
import { firstWord, listed, matched } from './words.js'

/** What can be done with a device that stands in the records, in the words of a visit. */
export const workWords = ['moved', 'picked-up', 'put-out', 'taken-up'] as const
export type WorkWord = (typeof workWords)[number]

/** What was done with one device, and what is still to be asked of it. */
export type Worked =
  | { readonly draft: VisitDraft; readonly steps: readonly Step[]; readonly understood: string }
  | { readonly complaint: string }

/** The word of a visit at a place in some words, also as it is spoken: `picked up`, `up` for `taken-up`. */
export function workWordAt(
  words: readonly string[],
  at: number,
): { readonly word: WorkWord; readonly after: number } | undefined {
  const one = (words[at] ?? '').replace(/,$/, '').toLowerCase()
  const two = `${one}-${(words[at + 1] ?? '').replace(/,$/, '').toLowerCase()}`
  const spoken = workWords.find((word) => word === two)
  if (spoken) return { word: spoken, after: at + 2 }
  const word = one === 'up' ? 'taken-up' : workWords.find((known) => known === one)
  return word && { word, after: at + 1 }
}

/** `moved store secured`, `picked-up`, `put-out`, `taken-up room closed`, each of one device. `-` takes it out again. */
export function workTold(
  plan: VisitPlan,
  draft: VisitDraft,
  { word, id, rest }: { readonly word: WorkWord; readonly id: string; readonly rest: string },
): Worked {
  if (rest === '-') return { draft: without(draft, word, id), steps: [], understood: `${id}: not ${word}` }
  if (word === 'moved') return movedTold(plan, draft, id, rest)
  if (word === 'taken-up') return takenUpTold(draft, id, rest)
  if (rest !== '')
    return { complaint: `${id} ${word}: ${rest} is not understood; nothing is written after it.` }
  return word === 'picked-up' ? pickedUpTold(plan, draft, id) : putOutTold(plan, draft, id)
}

function without(draft: VisitDraft, word: WorkWord, id: string): VisitDraft {
  const { [id]: _moved, ...moved } = draft.moved
  const { [id]: _why, ...takenUp } = draft.takenUp
  switch (word) {
    case 'moved':
      return { ...draft, moved }
    case 'taken-up':
      return { ...draft, takenUp }
    case 'picked-up':
      return { ...draft, pickedUp: draft.pickedUp.filter((one) => one !== id) }
    case 'put-out':
      return { ...draft, putOut: draft.putOut.filter((one) => one !== id) }
  }
}

/** `store`, or `to store`, and how it stands there; what is not said is asked. */
function movedTold(plan: VisitPlan, draft: VisitDraft, id: string, rest: string): Worked {
  if (rest === '') return { draft, steps: [{ is: 'moved-to', device: id }], understood: '' }
  const text = rest.replace(/^to /i, '')
  const whole = areaTyped(plan, text)
  const [first, after] = 'word' in whole ? [text, ''] : firstWord(text)
  const area = areaTyped(plan, first)
  if ('complaint' in area) return { complaint: `${id} moved to which area? ${area.complaint}` }
  if (area.isArea !== true) return { complaint: `${area.word} is no area of this site on this day.` }
  const facts = standingTyped(after, plan.products, true)
  if ('complaint' in facts) return facts
  return {
    draft: { ...draft, moved: { ...draft.moved, [id]: { area: area.word, ...facts.facts } } },
    steps: after === '' ? [{ is: 'moved-stands', device: id }] : [],
    understood: `${id} moved to ${area.name}${after === '' ? '' : `: ${after}`}`,
  }
}

function takenUpTold(draft: VisitDraft, id: string, why: string): Worked {
  if (draft.putOut.includes(id))
    return { complaint: `${id} was put out on this visit; write ${id} put-out - first, then this.` }
  if (why === '') return { draft, steps: [{ is: 'taken-up', device: id }], understood: '' }
  return {
    draft: { ...draft, takenUp: { ...draft.takenUp, [id]: why } },
    steps: [],
    understood: `${id} taken up for good: ${why}`,
  }
}

function pickedUpTold(plan: VisitPlan, draft: VisitDraft, id: string): Worked {
  const already = plan.away?.find((device) => device.id === id)
  if (already)
    return { complaint: `${id} is picked up since ${already.since}; it can be put-out, moved or taken-up.` }
  if (draft.takenUp[id] !== undefined) return takenAlready(id)
  return {
    draft: { ...draft, pickedUp: [...draft.pickedUp.filter((one) => one !== id), id] },
    steps: [],
    understood: `${id} picked up, to be put out again`,
  }
}

function putOutTold(plan: VisitPlan, draft: VisitDraft, id: string): Worked {
  if (draft.takenUp[id] !== undefined) return takenAlready(id)
  const away = (plan.away ?? []).map((device) => device.id)
  if (![...away, ...draft.pickedUp].includes(id))
    return {
      complaint: `${id} is out already; put-out is for what was picked up (${listed(away)}). For a new device write set.`,
    }
  return {
    draft: { ...draft, putOut: [...draft.putOut.filter((one) => one !== id), id] },
    steps: [],
    understood: `${id} put out again`,
  }
}

const takenAlready = (id: string): Worked => ({
  complaint: `${id} was taken up for good on this visit; write ${id} taken-up - first, then this.`,
})

/** A device of the records that is out or picked up, by its id or by what is printed on it. A beginning is no name. */
export function deviceTyped(
  plan: VisitPlan,
  typed: string,
): { readonly word: string } | { readonly complaint: string } {
  const devices = [...plan.areas.flatMap((area) => area.devices), ...(plan.away ?? [])]
  const ids = devices.map(({ id }) => id)
  const alike = (a: string) => a.toLowerCase() === typed.toLowerCase()
  const same = ids.find((id) => id === typed) ?? onlyOne(ids.filter(alike))
  if (same !== undefined) return { word: same }
  const marked = onlyOne(
    devices.filter(({ markedAs }) => markedAs !== undefined && alike(markedAs)).map(({ id }) => id),
  )
  if (marked !== undefined) return { word: marked }
  const found = matched(typed, ids, 'device')
  return 'complaint' in found
    ? found
    : { complaint: `There is no device ${typed}; did you mean ${found.word}?` }
}

const onlyOne = (names: readonly string[]) => (names.length === 1 ? names[0] : undefined)

/** The area in which a device stood before this visit. */
export function stoodIn(plan: VisitPlan, id: string): string | undefined {
  return areaOfDevice(plan, id)?.id ?? plan.away?.find((device) => device.id === id)?.area
}
