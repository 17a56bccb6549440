import { answeredFor } from '../../ledger/answered-for.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day, Place } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'

export const plantReturnedWet = siteRule<{ readonly plant: string; readonly sprayed: string }>({
  id: 'plant-returned-wet',
  title: 'a treated plant came back before it was seen dry',
  level: 'error',
  judgedOn: 'the day the plant was returned',
  why: 'A plant is treated off the property so that no one touches what is wet on it; back in a room too early, it is touched.',
  remedy:
    'If it was seen dry, say so where it was returned: `dry: okafor`. If not, take it out of the room until it is, as its label and local code ask.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ plant, sprayed }) =>
    `${plant} was returned; no record shows that it was seen dry after it was treated on ${sprayed}.`,
  *check(view) {
    for (const { plant, sprayed, at, day, until } of returnedWet(view)) {
      const span = answeredFor(view, { from: day, until })
      if (!span) continue
      yield {
        args: { plant, sprayed: isoOf(sprayed.day) },
        at,
        related: [{ place: sprayed.at, says: `${plant} was treated here` }],
        ...span,
        identity: [plant],
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: callback
by: okafor
plants:
  fern-1: {area: room-1, removed: fungus gnats, sprayed: contractor yard}
=== sites/oak/visits/2026-03-13-okafor.yaml
purpose: follow-up
by: okafor
plants:
  fern-1: {area: room-1, returned: window sill} # expect: plant-returned-wet
`,
  passing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: callback
by: okafor
plants:
  fern-1: {area: room-1, removed: fungus gnats, sprayed: contractor yard}
=== sites/oak/visits/2026-03-13-okafor.yaml
purpose: follow-up
by: okafor
plants:
  fern-1: {area: room-1, dry: okafor, returned: window sill}
`,
})

interface Spot {
  readonly day: Day
  readonly at: Place
}

interface ReturnedWet extends Spot {
  readonly plant: string
  readonly sprayed: Spot
  until?: Day
}

/**
 * Replays what visits say of plants, which keep their name from visit to visit. Within one visit a plant is
 * sprayed, then dry, then returned. What is said on one day by visits of which one has no time is taken in the
 * order that raises no alarm.
 */
function returnedWet(view: SiteView): ReturnedWet[] {
  const wet = new Map<string, Spot>()
  const back = new Map<string, ReturnedWet>()
  const found: ReturnedWet[] = []
  for (const { visits, inKnownOrder } of visitsByDay(view.visits)) {
    const dryToday = inKnownOrder ? new Set<string>() : plantsSeenDry(visits)
    for (const visit of visits) {
      for (const [plant, entry] of Object.entries(visit.data.plants ?? {})) {
        const spot = (key: string): Spot => ({
          day: visit.day,
          at: { file: visit.file, path: ['plants', plant, key] },
        })
        if (entry.sprayed !== undefined) wet.set(plant, spot('sprayed'))
        if (entry.dry !== undefined) wet.delete(plant)
        const away = entry.removed ?? entry.sprayed ?? entry.dry
        const earlier = back.get(plant)
        if (away !== undefined && earlier) {
          // It was so for a part of its day at least.
          earlier.until = Math.max(visit.day, earlier.day + 1)
          back.delete(plant)
        }
        const sprayed = wet.get(plant)
        if (entry.returned === undefined || !sprayed) continue
        wet.delete(plant)
        if (dryToday.has(plant)) continue
        const wetReturn: ReturnedWet = { plant, sprayed, ...spot('returned') }
        found.push(wetReturn)
        back.set(plant, wetReturn)
      }
    }
  }
  return found
}

interface DayOfVisits {
  readonly visits: readonly LoadedEvent<'visit'>[]
  /** One visit, or every one with its time. */
  readonly inKnownOrder: boolean
}

function visitsByDay(visits: readonly LoadedEvent<'visit'>[]): DayOfVisits[] {
  const days = new Map<Day, LoadedEvent<'visit'>[]>()
  for (const visit of visits) {
    if (!visit.data.plants) continue
    const same = days.get(visit.day)
    if (same) same.push(visit)
    else days.set(visit.day, [visit])
  }
  return [...days.values()].map((same) => ({
    visits: same,
    inKnownOrder: same.length === 1 || same.every((visit) => visit.data.time !== undefined),
  }))
}

function plantsSeenDry(visits: readonly LoadedEvent<'visit'>[]): Set<string> {
  const dry = new Set<string>()
  for (const visit of visits)
    for (const [plant, entry] of Object.entries(visit.data.plants ?? {}))
      if (entry.dry !== undefined) dry.add(plant)
  return dry
}
