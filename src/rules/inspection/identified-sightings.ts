import type { Sighting, SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import type { Day } from '../../types.js'

/** When a sighting was identified after all, and as what; no pest for an animal that is in no table. */
export interface Identification {
  readonly day: Day
  readonly pest: string | undefined
}

/** Whether a sighting does not say, or does not surely say, what the animal is. */
export function isUnidentified({ facts }: Sighting): boolean {
  if (facts.pest === 'unidentified' || facts.identified === 'tentative') return true
  return facts.pest === undefined && facts.other === undefined && facts.looks !== undefined
}

/**
 * First identification of each sighting, by its full id: a later sighting that resolves it and is itself
 * identified, or a specimen of it with an answer.
 */
export function identifications(view: SiteView): ReadonlyMap<string, Identification> {
  const byName = new Map<string, Sighting[]>()
  const ids = new Set<string>()
  for (const sighting of view.sightings) {
    ids.add(sighting.id)
    const same = byName.get(sighting.name)
    if (same) same.push(sighting)
    else byName.set(sighting.name, [sighting])
  }
  // The short name means the latest sighting of that name which still waited to be identified.
  const meant = (name: string, day: Day, self?: string) => {
    if (ids.has(name)) return name
    const earlier = (byName.get(name) ?? []).filter((past) => past.day <= day && past.id !== self)
    return (earlier.findLast(isUnidentified) ?? earlier.at(-1))?.id
  }
  const found = new Map<string, Identification>()
  const note = (id: string | undefined, day: Day, pest: string | undefined) => {
    const known = id === undefined ? undefined : found.get(id)
    if (id !== undefined && (!known || day < known.day)) found.set(id, { day, pest })
  }
  for (const sighting of view.sightings) {
    const { resolves, pest, other } = sighting.facts
    if (resolves === undefined || isUnidentified(sighting)) continue
    if (pest !== undefined || other !== undefined)
      note(meant(resolves, sighting.day, sighting.id), sighting.day, pest)
  }
  for (const { data, day } of view.specimens) {
    const { determined } = data
    if (data.sighting === undefined || !determined) continue
    if (determined.as === 'unidentified' || (determined.as ?? determined.other) === undefined) continue
    note(meant(data.sighting, day), dayIn(determined.on), determined.as)
  }
  return found
}
