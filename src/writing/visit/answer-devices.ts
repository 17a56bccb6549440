import type { YamlMap } from '../demo/yaml.js'
import { clearReading, readingTyped } from './device-words.js'
import type { PlannedArea, PlannedDevice, VisitPlan } from './plan.js'
import { areaIn, areaOfDevice, deviceOf } from './plan.js'
import { readingInWords } from './reading-words.js'
import type { Outcome, Step, VisitState } from './state.js'
import { answered } from './state.js'
import { devicesLeft } from './walk.js'
import { firstWord, matched } from './words.js'

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

/** `K3 2; K7 missing`: one device after the other, each with what was seen at it. The others are still asked for. */
export function devicesTold(
  plan: VisitPlan,
  state: VisitState,
  area: string | undefined,
  text: string,
): Outcome {
  let { readings } = state.draft
  let { passed } = state
  const understood: string[] = []
  for (const part of text.split(';').map((one) => one.trim())) {
    if (part === '') continue
    const one = deviceTold(plan, area, part)
    if ('complaint' in one) return one
    const { [one.id]: _before, ...others } = readings
    readings = one.reading === undefined ? others : { ...others, [one.id]: one.reading }
    passed = [...passed.filter((id) => id !== one.id), ...(one.reading === undefined ? [one.id] : [])]
    understood.push(one.understood)
  }
  return answered({ ...state, passed }, { readings }, { next: state.pending.slice(0, 1), understood })
}

type Told =
  | { readonly id: string; readonly reading: 'none' | YamlMap | undefined; readonly understood: string }
  | { readonly complaint: string }

function deviceTold(plan: VisitPlan, area: string | undefined, part: string): Told {
  const [name, rest] = firstWord(part)
  const known = plan.areas.flatMap(({ devices }) => devices.map(({ id }) => id))
  const found = matchedDevice(name, plan, known)
  if ('complaint' in found) return found
  const device = deviceOf(plan, found.word)
  if (!device) return { complaint: `There is no device ${name}.` }
  const standsIn = areaOfDevice(plan, device.id)
  const where = standsIn && standsIn.id !== area ? ` (stands in ${standsIn.name})` : ''
  const words = rest.split(/ +/).filter((word) => word !== '')
  if (words.length === 0)
    return {
      complaint: `What was seen at ${device.id}? Write it after it, as ${device.id} 2 or ${device.id} missing.`,
    }
  if (rest === '-')
    return { id: device.id, reading: undefined, understood: `${device.id}${where}: not looked at` }
  if (rest === 'clear' || rest === '0')
    return {
      id: device.id,
      reading: emptyNow(device),
      understood: `${device.id}${where}: clear`,
    }
  const typed = readingTyped(device, words, plan.products)
  if ('complaint' in typed) return typed
  return {
    id: device.id,
    reading: typed.reading,
    understood: `${device.id}${where}: ${readingInWords(typed.reading)}`,
  }
}

/** Said to be clear, whatever was left on it or became of it before. */
function emptyNow({ lost: _before, ...device }: PlannedDevice): 'none' | YamlMap | undefined {
  return clearReading({ ...device, on: {} })
}

/** By id, or by what is printed on it. A beginning is no name: K1 is not K10. */
function matchedDevice(name: string, plan: VisitPlan, known: readonly string[]) {
  const same = known.find((id) => id === name) ?? onlyOne(known.filter((id) => alike(id, name)))
  if (same !== undefined) return { word: same }
  const marked = plan.areas
    .flatMap(({ devices }) => devices)
    .filter(({ markedAs }) => markedAs !== undefined && alike(markedAs, name))
  const [one] = marked
  if (one && marked.length === 1) return { word: one.id }
  const found = matched(name, known, 'device')
  return 'complaint' in found
    ? found
    : { complaint: `There is no device ${name}; did you mean ${found.word}?` }
}

const alike = (a: string, b: string) => a.toLowerCase() === b.toLowerCase()
const onlyOne = (names: readonly string[]) => (names.length === 1 ? names[0] : undefined)
