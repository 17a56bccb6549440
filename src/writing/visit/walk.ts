import type { PlannedArea, PlannedDevice, VisitPlan } from './plan.js'
import { areaIn } from './plan-places.js'
import type { Step, VisitState } from './state.js'

/** Everything that a visit of this purpose asks after the purpose itself, in walking order. */
export function stepsOf(plan: VisitPlan, purpose: string): Step[] {
  const isService = purpose === 'routine' || purpose === 'callback'
  return [
    ...(purpose === 'trap-check' ? [] : [{ is: 'site-manager' } as const]),
    ...(isService ? [{ is: 'complaint-log' } as const] : []),
    ...plan.areas
      .filter((area) => isAskedFor(plan, area, purpose))
      .flatMap((area) => firstSteps(plan, area, purpose)),
    ...(purpose === 'trap-check' || purpose === 'set-up'
      ? []
      : plan.complaints.map(({ id }): Step => ({ is: 'complaint', id }))),
    ...(plan.isToday ? [{ is: 'end' } as const] : []),
  ]
}

/** A trap check goes from trap to trap; any other visit asks first whether one came into the area at all. */
function firstSteps(plan: VisitPlan, { id, isArea }: PlannedArea, purpose: string): Step[] {
  if (purpose === 'trap-check') return [{ is: 'devices', area: id }]
  return isArea ? [{ is: 'area', area: id }] : insideSteps(plan, id)
}

function isAskedFor(plan: VisitPlan, area: PlannedArea, purpose: string): boolean {
  const hasDevices = devicesAsked(area, purpose, false).length > 0
  switch (purpose) {
    case 'trap-check':
      return hasDevices
    case 'callback':
      return plan.complaints.some((complaint) => complaint.area === undefined || complaint.area === area.id)
    case 'follow-up':
      return area.conditions.length > 0
    default:
      return area.isArea || hasDevices || area.conditions.length > 0
  }
}

/** What is asked inside an area once one is in it. */
export function insideSteps(plan: VisitPlan, area: string): Step[] {
  const conditions = areaIn(plan, area)?.conditions ?? []
  return [{ is: 'devices', area }, ...conditions.map(({ name }): Step => ({ is: 'condition', area, name }))]
}

/** The same when someone comes back to an area: also what was told already, and devices that are not due. */
export function insideAgain(plan: VisitPlan, area: string): Step[] {
  const planned = areaIn(plan, area)
  const conditions = planned?.conditions ?? []
  return [
    ...(planned && planned.devices.length > 0
      ? [{ is: 'devices', area, all: true, again: true } as const]
      : []),
    ...conditions.map(({ name }): Step => ({ is: 'condition', area, name, again: true })),
  ]
}

/** Devices of an area that are asked for and not told of yet. */
export function devicesLeft(
  area: PlannedArea,
  { draft, passed }: VisitState,
  all: boolean | undefined,
): PlannedDevice[] {
  return devicesAsked(area, draft.purpose, all).filter(
    ({ id }) => draft.readings[id] === undefined && !passed.includes(id),
  )
}

/** A routine visit owes a look at every device of the areas it inspects; other visits ask for those that are due. */
export function devicesAsked(
  { devices }: PlannedArea,
  purpose: string | undefined,
  all: boolean | undefined,
): readonly PlannedDevice[] {
  return purpose === 'routine' || all === true ? devices : devices.filter(({ isDue }) => isDue)
}

/** Without what has been told elsewhere in the meantime, such as a device of this area found in another. */
export function withoutTold(plan: VisitPlan, state: VisitState): VisitState {
  const at = state.pending.findIndex((step) => isOpen(plan, state, step))
  return { ...state, pending: at === -1 ? [] : state.pending.slice(at) }
}

function isOpen(plan: VisitPlan, state: VisitState, step: Step): boolean {
  if ('again' in step) return true
  if (step.is === 'condition') return state.draft.conditions[step.name] === undefined
  if (step.is !== 'devices') return true
  const area = areaIn(plan, step.area)
  return area !== undefined && devicesLeft(area, state, step.all).length > 0
}
