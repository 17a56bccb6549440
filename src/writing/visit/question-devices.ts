import { lifeStages } from '../../records/fields.js'
import { deviceTable } from '../../records/tables.js'
import { clearWords } from './device-words.js'
import type { PlannedDevice, VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import type { Question } from './questions.js'
import type { Step, VisitState } from './state.js'
import { devicesAsked, devicesLeft } from './walk.js'

/** The devices of an area in one question: Enter is that all left are clear, which the prompt says device by device. */
export function deviceQuestion(
  plan: VisitPlan,
  state: VisitState,
  { area: id, all }: Extract<Step, { readonly is: 'devices' }>,
): Question {
  const area = areaIn(plan, id)
  const left = area ? devicesLeft(area, state, all) : []
  const asked = area ? devicesAsked(area, state.draft.purpose, all) : []
  const notDue = (area?.devices ?? []).filter((device) => !asked.includes(device))
  const wasAskedBefore = (area?.devices ?? []).some((device) => state.draft.readings[device.id] !== undefined)
  const isHeading = state.area !== id
  return {
    above: [
      ...(isHeading ? ['', area?.name ?? id, ...awayFrom(plan, state, id)] : []),
      ...(wasAskedBefore ? [] : lastLooks(left)),
      ...(isHeading && notDue.length > 0
        ? [`  not due yet: ${notDue.map((device) => device.id).join(', ')}`]
        : []),
    ],
    prompt: `Devices [${left.length === 0 ? 'as told' : allClearWords(left)}]`,
    help: [
      'Enter: every device in the brackets was looked at and shows that. Else name what differs, one or more:',
      '  K3 2              two of what it is for            K3 german 4n 1a renewed   pest, by stage, new board',
      '  K7 missing        damaged, wet, full               K8 no-access cabinet in front',
      '  K9 sprung r       snap trap, empty, set again      B1 some added 1 block block-x',
      '  K5 -              not looked at                    K3 2; K7 missing          two on one line',
      '  other earwig 2    in no table                      note greasy board         last on the line',
      '  K3 2 moved store  read, then moved; moved alone asks where',
      '  K3 picked-up      for now; put-out: again          K3 taken-up room closed   for good',
      `Stages by their first letters: ${lifeStages.join(', ')}.`,
      '-: none of them looked at; all: also those not due; no and why: could not be entered.',
    ],
  }
}

/** What was taken from an area and is not back yet. */
export function awayFrom(plan: VisitPlan, state: VisitState, area: string): string[] {
  const isBack = (id: string) => state.draft.putOut.includes(id) || state.draft.takenUp[id] !== undefined
  const devices = (plan.away ?? []).filter((one) => one.area === area && !isBack(one.id))
  const plants = (plan.plantsAway ?? []).filter(
    (one) => one.area === area && state.draft.plants[one.name]?.returned === undefined,
  )
  return [
    ...devices.map(({ id, since }) => `  picked up since ${since}: ${id} (${id} put-out)`),
    ...plants.map(({ name, since }) => `  plant away since ${since}: ${name} (plant ${name} returned WHERE)`),
  ]
}

/** What was on them at the last look; those with nothing in one line. */
function lastLooks(devices: readonly PlannedDevice[]): string[] {
  const isQuiet = ({ last }: PlannedDevice) => /^[0-9]{4}-[0-9]{2}-[0-9]{2}: none$/.test(last)
  const quiet = devices.filter(isQuiet)
  return [
    ...devices
      .filter((device) => !isQuiet(device))
      .map((device) => `  ${nameOf(device)}   last ${device.last}`),
    ...(quiet.length === 0 ? [] : [`  nothing at the last look: ${quiet.map(nameOf).join(', ')}`]),
  ]
}

function nameOf({ id, markedAs, kind }: PlannedDevice): string {
  const marked = markedAs === undefined ? '' : ` marked ${markedAs}`
  return kind === 'sticky-trap' ? `${id}${marked}` : `${id}${marked} (${deviceTable()[kind].name})`
}

/** `nothing on K1, K2; no bait gone from B1`: what Enter says of each of them. */
function allClearWords(devices: readonly PlannedDevice[]): string {
  const words = [...new Set(devices.flatMap((device) => clearWords(device) ?? []))]
  const clear = words.map((word) => {
    const ids = devices.filter((device) => clearWords(device) === word).map(({ id }) => id)
    return `${word} ${ids.join(', ')}`
  })
  const lost = devices.flatMap(({ id, lost }) => (lost === undefined ? [] : [id]))
  return [...clear, ...(lost.length === 0 ? [] : [`not told: ${lost.join(', ')}`])].join('; ')
}
