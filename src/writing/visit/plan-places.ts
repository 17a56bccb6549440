import type { PlannedArea, PlannedDevice, VisitPlan } from './plan.js'
import { matched } from './words.js'

/** The area that a device is asked about in. */
export function areaOfDevice(plan: VisitPlan, id: string): PlannedArea | undefined {
  return plan.areas.find(({ devices }) => devices.some((device) => device.id === id))
}

export function deviceOf(plan: VisitPlan, id: string): PlannedDevice | undefined {
  return areaOfDevice(plan, id)?.devices.find((device) => device.id === id)
}

export function areaIn(plan: VisitPlan, id: string): PlannedArea | undefined {
  return plan.areas.find((area) => area.id === id)
}

/** An area by its id or by its name, with whether it is one of the site on the day. */
export function areaTyped(
  plan: VisitPlan,
  typed: string,
):
  | { readonly word: string; readonly name: string; readonly isArea: boolean }
  | { readonly complaint: string } {
  const named = plan.areas.find(({ name }) => name.toLowerCase() === typed.toLowerCase())
  const found = named
    ? { word: named.id }
    : matched(
        typed,
        plan.areas.map(({ id }) => id).filter((id) => id !== ''),
        'area',
      )
  if ('complaint' in found) return found
  const area = areaIn(plan, found.word)
  return { word: found.word, name: area?.name ?? found.word, isArea: area?.isArea === true }
}
