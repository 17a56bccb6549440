import { dayOf } from '../../src/measure/calendar.js'
import type { DataMap, Draft } from './draft.js'
import { dataOf, listAt, mapAt, textAt } from './draft.js'
import type { Random, Where } from './fault.js'

/** What a mutator has to know of a ledger to put a fault in: read on its own, without the program's linking. */
export interface EventFile {
  readonly file: string
  /** Path stem: `2026-03-12-okafor`. */
  readonly id: string
  readonly day: number
  readonly data: DataMap
}

export interface Look {
  readonly visit: EventFile
  /** Null where the device only stands in the list `none`. */
  readonly reading: DataMap | null
}

/** One life of a device, from being set to being taken up. */
export interface Device {
  readonly id: string
  readonly kind: string
  readonly area: string
  readonly facts: DataMap
  readonly set: EventFile
  readonly looks: readonly Look[]
  readonly moved: boolean
  readonly pickedUp: boolean
  readonly takenUp: EventFile | undefined
}

export function sitesOf(draft: Draft): string[] {
  return [...draft.files.keys()].flatMap((file) => /^sites\/([^/]+)\/site\.yaml$/.exec(file)?.[1] ?? [])
}

export const siteFile = (site: string) => `sites/${site}/site.yaml`

/** Events of one folder of a site, by day, then by the time they began. */
export function eventsOf(draft: Draft, site: string, folder: string): EventFile[] {
  const events: EventFile[] = []
  const start = `sites/${site}/${folder}/`
  for (const file of draft.files.keys()) {
    if (!file.startsWith(start) || !file.endsWith('.yaml')) continue
    const id = file.slice(start.length, -'.yaml'.length)
    const day = dayOf(id.slice(0, 10))
    if (day !== null) events.push({ file, id, day, data: mapAt(dataOf(draft, file)) })
  }
  const began = (event: EventFile) => textAt(event.data, 'time') ?? '24:00'
  return events.sort((a, b) => a.day - b.day || (began(a) < began(b) ? -1 : began(a) > began(b) ? 1 : 0))
}

export const visitsOf = (draft: Draft, site: string) => eventsOf(draft, site, 'visits')

export function routineVisitsOf(draft: Draft, site: string): EventFile[] {
  return visitsOf(draft, site).filter(({ data }) => data.purpose === 'routine')
}

/** The last routine visit of one of the sites. */
export function lastRoutineVisit(draft: Draft, random: Random): EventFile | undefined {
  return routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').at(-1)
}

/** Devices of a site as its visits tell them, the ones that still stand last. */
export function devicesOf(draft: Draft, site: string): Device[] {
  interface Life extends Device {
    looks: Look[]
    moved: boolean
    pickedUp: boolean
    takenUp: EventFile | undefined
  }
  const live = new Map<string, Life>()
  const ended: Life[] = []
  for (const visit of visitsOf(draft, site)) {
    const { data } = visit
    for (const [id, reading] of Object.entries(mapAt(data, 'readings')))
      if (id !== 'none') live.get(id)?.looks.push({ visit, reading: mapAt(reading) })
    for (const id of listAt(data, 'readings', 'none'))
      live.get(String(id))?.looks.push({ visit, reading: null })
    for (const id of Object.keys(mapAt(data, 'moved'))) {
      const device = live.get(id)
      if (device) device.moved = true
    }
    for (const [id, pickedUp] of pickedUpIn(data)) {
      const device = live.get(id)
      if (device) device.pickedUp = pickedUp
    }
    for (const id of Object.keys(mapAt(data, 'taken-up'))) {
      const device = live.get(id)
      if (!device) continue
      device.takenUp = visit
      ended.push(device)
      live.delete(id)
    }
    for (const [id, entry] of Object.entries(mapAt(data, 'set'))) {
      const facts = mapAt(entry)
      live.set(id, {
        id,
        kind: textAt(facts, 'kind') ?? '',
        area: textAt(facts, 'area') ?? '',
        facts,
        set: visit,
        looks: [],
        moved: false,
        pickedUp: false,
        takenUp: undefined,
      })
    }
  }
  return [...ended, ...live.values()]
}

function pickedUpIn(data: DataMap): (readonly [string, boolean])[] {
  const ids = (key: string, state: boolean) => listAt(data, key).map((id) => [String(id), state] as const)
  return [...ids('picked-up', true), ...ids('put-out', false)]
}

/** Devices that stand out on the last day, of one kind if said, never moved. */
export function standingOf(draft: Draft, site: string, kind?: string): Device[] {
  return devicesOf(draft, site).filter(
    (device) =>
      device.takenUp === undefined &&
      !device.pickedUp &&
      !device.moved &&
      (kind === undefined || device.kind === kind),
  )
}

export function areasOf(draft: Draft, site: string): Map<string, DataMap> {
  const areas = mapAt(dataOf(draft, siteFile(site)), 'areas')
  return new Map(Object.entries(areas).map(([id, facts]) => [id, mapAt(facts)]))
}

/** Areas a visit was in: inspected, or with something found, set or read there. */
export function areasIn(visit: EventFile, devices: readonly Device[]): Set<string> {
  const areas = new Set(listAt(visit.data, 'inspected').map(String))
  for (const key of ['found', 'actions'])
    for (const entry of Object.values(mapAt(visit.data, key))) areas.add(textAt(entry, 'area') ?? '')
  for (const device of devices)
    if (device.set === visit || device.looks.some((look) => look.visit.file === visit.file))
      areas.add(device.area)
  return areas
}

/** Whoever makes the routine visits of a site. */
export function technicianOf(draft: Draft, site: string): string {
  return textAt(routineVisitsOf(draft, site).at(-1)?.data, 'by') ?? ''
}

/** Whoever coordinates the district, who makes no visits in these ledgers. */
export function coordinatorOf(draft: Draft): string {
  const terms = listAt(dataOf(draft, 'district.yaml'), 'coordinator')
  return textAt(terms.at(-1), 'who') ?? ''
}

export function allStanding(draft: Draft, kind: string): Device[] {
  return sitesOf(draft).flatMap((site) => standingOf(draft, site, kind))
}

/** Where a visit reads a device: on a line of its own, or in the list of those with nothing. */
export function readingOf(draft: Draft, file: string, device: string): Where {
  const visit = sitesOf(draft)
    .flatMap((site) => visitsOf(draft, site))
    .find((each) => each.file === file)
  const none = listAt(visit?.data, 'readings', 'none').indexOf(device)
  return none < 0
    ? { file, path: ['readings', device], onKey: true }
    : { file, path: ['readings', 'none', none] }
}

/** Areas in which no device ever stood, and that are not outdoors by a wall where stations stand. */
export function areasWithoutDevices(draft: Draft, site: string): string[] {
  const taken = new Set(devicesOf(draft, site).map(({ area }) => area))
  for (const { data } of visitsOf(draft, site))
    for (const moved of Object.values(mapAt(data, 'moved'))) taken.add(textAt(moved, 'area') ?? '')
  return [...areasOf(draft, site).keys()].filter((area) => !taken.has(area))
}
