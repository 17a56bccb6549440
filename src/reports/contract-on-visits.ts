import type { SiteView } from '../ledger/site-view.js'
import { areaLapses } from '../rules/inspection/area-lapses.js'
import { lateness } from '../rules/inspection/lapse.js'
import { lostDevices } from '../rules/inspection/lost-devices.js'
import { readTheLog, routineVisitsWithout, toldTheSiteManager } from '../rules/inspection/visits-without.js'
import type { Day } from '../types.js'
import { spanIndexOn } from './contract-spans.js'
import type { Period } from './period.js'

/** What routine visits leave open. Each is counted under the contract of its day. */
export const openMatters = [
  'routine visit',
  'area not entered',
  'log not read',
  'manager not told',
  'device lost',
  'device not renewed',
  'area not inspected',
] as const

export interface OpenMatter {
  readonly index: number
  readonly what: (typeof openMatters)[number]
  readonly files: readonly string[]
}

export function openMattersOf(view: SiteView, { from, to }: Period): OpenMatter[] {
  const found: OpenMatter[] = []
  const add = (what: OpenMatter['what'], day: Day, ...files: string[]) => {
    if (day >= Math.max(from, view.begins) && day <= to)
      found.push({ what, index: spanIndexOn(view, day), files })
  }
  for (const { day, file, data } of view.routineVisits) {
    add('routine visit', day, file)
    for (const area of Object.keys(data['no-entry'] ?? {}))
      if (!data.inspected?.includes(area)) add('area not entered', day, file)
  }
  for (const { visit } of routineVisitsWithout(view, readTheLog)) add('log not read', visit.day, visit.file)
  for (const { visit } of routineVisitsWithout(view, toldTheSiteManager))
    add('manager not told', visit.day, visit.file)
  for (const { at, lastDay, end } of lostDevices(view)) {
    const { day, visit } = at.moment
    add('device lost', day, visit.file)
    const late = lateness(view, lastDay + 1, end)
    if (late && late.from <= view.asOf) add('device not renewed', day, visit.file)
  }
  for (const { from: begun } of areaLapses(view)) {
    if (begun <= view.asOf) add('area not inspected', begun, view.site.file)
  }
  return found
}
