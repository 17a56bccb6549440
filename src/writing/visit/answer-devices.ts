import { deviceTable } from '../../records/tables.js'
import type { YamlMap } from '../demo/yaml.js'
import { clearReading, readingTyped } from './device-words.js'
import type { WorkWord } from './device-work.js'
import { deviceTyped, stoodIn, workTold, workWordAt } from './device-work.js'
import type { VisitDraft } from './draft.js'
import type { PlannedArea, PlannedDevice, VisitPlan } from './plan.js'
import { areaIn, deviceOf } from './plan-places.js'
import { readingInWords } from './reading-words.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { devicesLeft } from './walk.js'
import { firstWord } from './words.js'

type DevicesStep = Extract<Step, { readonly is: 'devices' }>

/** Enter: the devices left are clear. Anything else tells of some of them, and the question comes again for the rest. */
export function answerDevices(plan: VisitPlan, state: VisitState, step: DevicesStep, text: string): Outcome {
  const area = areaIn(plan, step.area)
  if (!area) return answered(state, {})
  const left = devicesLeft(area, state, step.all)
  const [word, rest] = firstWord(text)
  if (text === '') return allClear(state, left)
  if (text === '-') return answered(state, {})
  if (text.toLowerCase() === 'all')
    return answered(state, {}, { next: [{ ...step, all: true }], understood: [] })
  if (word.toLowerCase() === 'no' && area.isArea) return notEntered(state, area, rest)
  return devicesTold(plan, state, step.area, text)
}

/** Why an area could not be entered; nothing else is asked of it then. */
export function notEntered(state: VisitState, { id, name }: PlannedArea, why: string): Outcome {
  if (why === '') return { complaint: 'Write why after it, as: no key.' }
  const { draft } = state
  const rest = state.pending.slice(1).filter((step) => !('area' in step && step.area === id))
  return answered(
    { ...state, area: id, pending: [...state.pending.slice(0, 1), ...rest] },
    {
      noEntry: { ...draft.noEntry, [id]: why },
      inspected: draft.inspected.filter((one) => one !== id),
    },
    { understood: [`${name}: could not be entered (${why})`] },
  )
}

function allClear(state: VisitState, left: readonly PlannedDevice[]): Outcome {
  const clear = left.flatMap((device) => {
    const reading = clearReading(device)
    return reading === undefined ? [] : [[device.id, reading] as const]
  })
  return answered(state, { readings: { ...state.draft.readings, ...Object.fromEntries(clear) } })
}

/**
 * `K3 2; K7 missing`: one device after the other, each with what was seen at it and what was done with it, as `K3 2 moved
 * store`. What is not said of the latter is asked next, then the others are still asked for.
 */
export function devicesTold(
  plan: VisitPlan,
  state: VisitState,
  area: string | undefined,
  text: string,
): Outcome {
  let { draft, passed } = state
  const steps: Step[] = []
  const understood: string[] = []
  for (const part of text.split(';').map((one) => one.trim())) {
    if (part === '') continue
    const one = deviceTold(plan, draft, area, part)
    if ('complaint' in one) return one
    draft = one.draft
    if (one.isRead) passed = passed.filter((id) => id !== one.id)
    if (one.isPassed) passed = [...passed, one.id]
    steps.push(...one.steps)
    understood.push(...one.understood)
  }
  return answered({ ...state, passed }, draft, { next: [...steps, ...state.pending.slice(0, 1)], understood })
}

type Told =
  | {
      readonly id: string
      readonly draft: VisitDraft
      readonly isRead: boolean
      readonly isPassed: boolean
      readonly steps: readonly Step[]
      readonly understood: readonly string[]
    }
  | { readonly complaint: string }

function deviceTold(plan: VisitPlan, draft: VisitDraft, area: string | undefined, part: string): Told {
  const [name, rest] = firstWord(part)
  const found = deviceTyped(plan, name)
  if ('complaint' in found) return found
  const id = found.word
  const device = deviceOf(plan, id)
  const { words, work } = readAndDone(rest, device)
  if (words.length === 0 && work === undefined)
    return { complaint: `What was seen at ${id}? Write it after it, as ${id} 2 or ${id} missing.` }
  const read = words.length === 0 ? undefined : readingOf(plan, id, device, words)
  if (read && 'complaint' in read) return read
  const stood = stoodIn(plan, id)
  const where =
    stood === undefined || stood === area ? '' : ` (stands in ${areaIn(plan, stood)?.name ?? stood})`
  const { [id]: _before, ...others } = draft.readings
  const readings = read?.reading === undefined ? others : { ...others, [id]: read.reading }
  const afterReading = read ? { ...draft, readings } : draft
  const worked = work && workTold(plan, afterReading, { ...work, id })
  if (worked && 'complaint' in worked) return worked
  return {
    id,
    draft: worked?.draft ?? afterReading,
    isRead: read !== undefined,
    isPassed: read !== undefined && read.reading === undefined,
    steps: worked?.steps ?? [],
    understood: [
      ...(read ? [`${id}${where}: ${read.says}`] : []),
      ...(worked && worked.understood !== '' ? [worked.understood] : []),
    ],
  }
}

type Work = { readonly word: WorkWord; readonly rest: string }

/** The words of the reading, and those from the first one on that says what was done with the device. */
function readAndDone(
  rest: string,
  device: PlannedDevice | undefined,
): { readonly words: readonly string[]; readonly work: Work | undefined } {
  const words = rest.split(/ +/).filter((word) => word !== '')
  const isBlock = device !== undefined && deviceTable()[device.kind].reads.includes('block')
  for (const [at, word] of words.entries()) {
    // After these all is free text, and `moved` at a blocked entrance is a reading.
    if (/^(?:note|no-access)$/i.test(word)) break
    const found = workWordAt(words, at)
    if (found && !(isBlock && found.word === 'moved'))
      return {
        words: words.slice(0, at),
        work: { word: found.word, rest: words.slice(found.after).join(' ') },
      }
  }
  return { words, work: undefined }
}

type Read =
  | { readonly reading: 'none' | YamlMap | undefined; readonly says: string }
  | { readonly complaint: string }

function readingOf(
  plan: VisitPlan,
  id: string,
  device: PlannedDevice | undefined,
  words: readonly string[],
): Read {
  if (!device)
    return { complaint: `${id} is picked up; write ${id} put-out if it was put out again, or ${id} moved.` }
  const [only] = words.length === 1 ? words : []
  if (only === '-') return { reading: undefined, says: 'not looked at' }
  if (only === 'clear' || only === '0') return { reading: emptyNow(device), says: 'clear' }
  const typed = readingTyped(device, words, plan.products)
  return 'complaint' in typed ? typed : { reading: typed.reading, says: readingInWords(typed.reading) }
}

/** Said to be clear, whatever was left on it or became of it before. */
function emptyNow({ lost: _before, ...device }: PlannedDevice): 'none' | YamlMap | undefined {
  return clearReading({ ...device, on: {} })
}
