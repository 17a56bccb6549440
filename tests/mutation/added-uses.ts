import { isoOf } from '../../src/measure/calendar.js'
import { addEvent, addVisit } from './added.js'
import type { AddedApplication } from './added-applications.js'
import { addGel, addSpray } from './added-applications.js'
import type { Data, Draft, KeyPath } from './draft.js'
import { copyOf, dataOf, mapAt, put, textAt } from './draft.js'
import type { Fault, Random } from './fault.js'
import { reportedAt } from './fault.js'
import { areasOf, siteFile, sitesOf, standingOf, technicianOf } from './site-records.js'

/** What the label of an added product says. */
export const inLabel: KeyPath = ['labels', 0, 'says']

/** A lawful application at one of the sites, and the one area it was in. */
export interface AddedUse {
  readonly site: string
  readonly added: AddedApplication
  readonly area: string
}

type Changes = Parameters<typeof addGel>[2]

export function gelOn(draft: Draft, random: Random, changes: Changes = {}): AddedUse {
  const site = random.pick(sitesOf(draft)) ?? ''
  return useOf(draft, site, addGel(draft, site, changes))
}

export function sprayOn(draft: Draft, random: Random, changes: Changes = {}): AddedUse {
  const site = random.pick(sitesOf(draft)) ?? ''
  return useOf(draft, site, addSpray(draft, site, changes))
}

export function useOf(draft: Draft, site: string, added: AddedApplication): AddedUse {
  return { site, added, area: Object.keys(mapAt(dataOf(draft, added.application), 'areas'))[0] ?? '' }
}

/** What the record of an added application says, on another day, and a visit a week later that looked at its effect. */
export function addAgain(
  draft: Draft,
  { site, added }: AddedUse,
  day: number,
  word: string,
  changes: Readonly<Record<string, Data>> = {},
): string {
  const data = { ...mapAt(dataOf(draft, added.application)), ...changes }
  const who = textAt(data, 'by') ?? technicianOf(draft, site)
  const followUp = { by: isoOf(day + 8), look: 'the same place' }
  const again = addEvent(draft, site, 'applications', day, who, { ...data, 'follow-up': followUp }, word)
  const inspected = Object.keys(mapAt(data, 'areas'))
  addVisit(draft, site, day + 7, 'follow-up', { inspected }, `looked-${word}`)
  return again
}

/** A room in which nothing is recorded but an inspection a quarter before the last day, and what a fault puts there. */
export function addStoreRoom(draft: Draft, site: string, id = 'added-store'): string {
  const room = { name: 'Added store room', kind: 'storage', floor: 1, extent: '200 ft2', children: 'no' }
  put(draft, siteFile(site), ['areas', id], { ...room, from: isoOf(draft.lastDay - 170) })
  addVisit(draft, site, draft.lastDay - 92, 'follow-up', { inspected: [id] }, `in-${id}`)
  return id
}

export function areaOfKind(draft: Draft, site: string, kind: string): string | undefined {
  return [...areasOf(draft, site)].find(([, facts]) => facts.kind === kind)?.[0]
}

/** A standing bait station that had bait in it when it was set. */
export function filledStation(draft: Draft, random: Random) {
  const stations = sitesOf(draft).flatMap((site) =>
    standingOf(draft, site, 'bait-station').map((station) => ({ site, station })),
  )
  return random.pick(stations.filter(({ station }) => station.facts.product !== undefined))
}

/** Changes one fact of what was made coherent before; it is reported at that fact, if not said otherwise. */
export function changed(
  draft: Draft,
  file: string,
  path: KeyPath,
  value: Data,
  fault: Fault = reportedAt(file, ...path),
): Fault {
  const before = copyOf(draft)
  put(draft, file, path, value)
  return { ...fault, before }
}
