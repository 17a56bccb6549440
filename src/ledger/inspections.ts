import type { Day } from '../types.js'
import type { LoadedEvent } from './loaded.js'
import type { SiteView } from './site-view.js'

/** By area, the visits that inspected it, in order. */
export function inspectionsByArea(view: SiteView): ReadonlyMap<string, readonly LoadedEvent<'visit'>[]> {
  const byArea = new Map<string, LoadedEvent<'visit'>[]>()
  for (const visit of view.visits) {
    for (const area of new Set(visit.data.inspected)) {
      const visits = byArea.get(area)
      if (visits) visits.push(visit)
      else byArea.set(area, [visit])
    }
  }
  return byArea
}

const visited = new WeakMap<SiteView, ReadonlyMap<string, ReadonlySet<string>>>()

/** By visit (its file), the areas someone was in: inspected, or with something found, read or set there. */
export function areasVisited(view: SiteView): ReadonlyMap<string, ReadonlySet<string>> {
  const known = visited.get(view)
  if (known) return known
  const byVisit = new Map<string, Set<string>>()
  visited.set(view, byVisit)
  for (const visit of view.visits) {
    const areas = new Set(visit.data.inspected)
    for (const sighting of Object.values(visit.data.found ?? {})) areas.add(sighting.area)
    byVisit.set(visit.file, areas)
  }
  for (const device of view.devices) {
    for (const stand of device.stands) byVisit.get(stand.from.visit.file)?.add(stand.area)
    for (const check of device.checks)
      if (!check.noAccess) byVisit.get(check.moment.visit.file)?.add(check.area)
  }
  return byVisit
}

/** A stretch of routine visits on which one area could not be entered, with no inspection between. */
export interface NoEntryRun {
  readonly area: string
  /** Day of the refusal with which it became a run. */
  readonly from: Day
  /** Day of the inspection that ended it. */
  readonly until?: Day
  /** The visit of that refusal, and the day of the first one. */
  readonly visit: LoadedEvent<'visit'>
  readonly first: Day
  readonly why: string
}

interface Refusals {
  readonly first: Day
  last: Day | undefined
  times: number
  run?: NoEntryRun
}

/** Runs of refused entry, as many refusals long as `running` says for the day of each. */
export function noEntryRuns(
  view: SiteView,
  running: (day: Day) => number | undefined,
): readonly NoEntryRun[] {
  const refused = new Map<string, Refusals>()
  const runs: NoEntryRun[] = []
  for (const visit of view.visits) {
    if (visit.day < view.begins) continue
    const inspected = new Set(visit.data.inspected)
    for (const area of inspected) {
      const open = refused.get(area)
      if (open?.run) runs.push({ ...open.run, until: visit.day })
      refused.delete(area)
    }
    if (visit.data.purpose !== 'routine') continue
    for (const [area, why] of Object.entries(visit.data['no-entry'] ?? {})) {
      if (inspected.has(area)) continue
      const open = refused.get(area) ?? firstRefusal(visit.day)
      refused.set(area, open)
      // Two routine visits of one day are one attempt.
      if (open.last === visit.day) continue
      open.last = visit.day
      open.times++
      const enough = running(visit.day)
      if (open.run || enough === undefined || open.times < enough) continue
      open.run = { area, from: visit.day, visit, first: open.first, why }
    }
  }
  for (const open of refused.values()) if (open.run) runs.push(open.run)
  return runs
}

function firstRefusal(day: Day): Refusals {
  return { first: day, last: undefined, times: 0 }
}
