import type { Random } from '../../measure/seeded-random.js'
import { chance, pick } from '../../measure/seeded-random.js'
import type { DeviceKind } from '../../records/device-kinds.js'
import type { Day } from '../../types.js'
import { dateText } from './days.js'
import { efficiency } from './efficiency.js'
import { pestIndex, pestModel, pestModels } from './pests.js'
import { isIndoors, nearSource } from './trial.js'
import type { Area, Corner, Device, Site, World } from './world.js'
import type { YamlMap } from './yaml.js'

const rodentKinds: readonly DeviceKind[] = ['snap-trap', 'glue-board', 'multiple-catch-trap', 'bait-station']

/** A spot by the wall of an area, some feet on from the last one, in feet on the diagram. */
export function wallSpot(area: Area, number: number): Corner {
  const [left, top, right, bottom] = area.box
  const width = right - left - 2
  const depth = bottom - top - 2
  let along = (4 + number * 11) % (2 * (width + depth))
  if (along < width) return [left + 1 + along, top + 1]
  along -= width
  if (along < depth) return [right - 1, top + 1 + along]
  along -= depth
  if (along < width) return [right - 1 - along, bottom - 1]
  return [left + 1, bottom - 1 - (along - width)]
}

export interface NewDevice {
  readonly id: string
  readonly kind: DeviceKind
  readonly area: Area
  readonly at: Corner
  readonly for?: readonly string[]
  readonly traps?: number
  readonly watches?: boolean
}

export function sumOf(site: Site, area: Area, pest: number): number {
  return site.sums[area.index * pestModels.length + pest] ?? 0
}

/** Puts a device into the building; what it catches counts from now. */
export function standDevice(site: Site, made: NewDevice, day: Day): Device {
  const draws = []
  for (const [pest, share] of Object.entries(efficiency[made.kind])) {
    const index = pestIndex.get(pest)
    if (index === undefined || (made.kind === 'snap-trap' && !made.for?.includes(pest))) continue
    const near = nearSource(site.trial?.pests[pest]?.source, made.at)
    draws.push({ pest: index, efficiency: share * near, drawnUpTo: sumOf(site, made.area, index) })
  }
  const device: Device = {
    id: made.id,
    kind: made.kind,
    area: made.area,
    at: made.at,
    for: made.for,
    traps: made.traps ?? 1,
    draws,
    onIt: new Map(),
    other: undefined,
    lastRead: day,
    set: day,
    checks: 0,
    pickedUp: false,
    broken: false,
    lamp: made.kind === 'light-trap' ? day : undefined,
    watches: made.watches ?? false,
    quietChecks: 0,
  }
  site.devices.set(device.id, device)
  return device
}

/** Its catch counts from now on and where it stands, as after it was put out again. */
export function drawFromNow(site: Site, device: Device): void {
  for (const draw of device.draws) {
    const { id } = pestModel(draw.pest)
    draw.drawnUpTo = sumOf(site, device.area, draw.pest)
    draw.efficiency =
      (efficiency[device.kind][id] ?? 0) * nearSource(site.trial?.pests[id]?.source, device.at)
  }
}

function placement(world: World, site: Site, device: Device, day: Day): YamlMap {
  const { trouble } = world
  if (trouble.happens('placement not noted', site.id, day, device.id)) return { at: device.at }
  const rodent = rodentKinds.includes(device.kind)
  const light = device.kind === 'light-trap'
  return {
    at: device.at,
    ...(rodent
      ? {
          secured: trouble.happens('not secured', site.id, day, device.id) ? 'no' : 'yes',
          marked: 'yes',
        }
      : {}),
    ...(light
      ? { 'in-doorway': 'no', 'visible-outdoors': 'no', 'above-food': 'no', height: '4 ft' }
      : {
          'within-reach': trouble.happens('within reach of children', site.id, day, device.id) ? 'yes' : 'no',
        }),
    ...(device.kind === 'glue-board' ? { 'above-food': 'no' } : {}),
  }
}

/** What a visit says of a device it sets. */
export function setRecord(world: World, site: Site, device: Device, day: Day): YamlMap {
  return {
    kind: device.kind,
    area: device.area.id,
    ...placement(world, site, device, day),
    for: device.for,
    traps: device.traps > 1 ? device.traps : undefined,
    lamp: device.lamp === undefined ? undefined : dateText(device.lamp),
    ...(device.kind === 'bait-station' ? { product: 'block-x', 'bait-added': '4 block' } : {}),
    ...(device.kind === 'pheromone-trap' ? { product: 'lure-m' } : {}),
  }
}

/** Moves a device to another spot of its area, or in a trial to another area. It has just been read. */
export function moveDevice(world: World, site: Site, device: Device, day: Day, random: Random): YamlMap {
  const before = device.area
  if (site.trial && chance(random, 0.5))
    device.area = pick(
      random,
      site.areas.filter(({ kind }) => isIndoors(kind)),
    )
  const spots = 3 + Math.floor(random.next() * 9)
  device.at = wallSpot(device.area, spots)
  drawFromNow(site, device)
  return {
    ...(device.area === before ? {} : { area: device.area.id }),
    ...placement(world, site, device, day),
  }
}

/** The devices every school begins with: about thirty. */
export function firstDevices(site: Site, random: Random, day: Day): Device[] {
  const made: Device[] = []
  const stand = (device: NewDevice) => made.push(standDevice(site, device, day))
  const spots = new Map<string, number>()
  const next = (area: Area) => {
    const number = spots.get(area.id) ?? 0
    spots.set(area.id, number + 1)
    return wallSpot(area, number)
  }
  const several = (
    letter: string,
    count: number,
    id: string,
    kind: DeviceKind,
    pests?: readonly string[],
  ) => {
    const area = site.areas.find((candidate) => candidate.id === id)
    if (!area) return
    const first = made.filter((device) => device.id.startsWith(letter)).length + 1
    for (let number = first; number < first + count; number++) {
      stand({ id: `${letter}${number}`, kind, area, at: next(area), ...(pests ? { for: pests } : {}) })
    }
  }
  several('K', 6, 'kitchen', 'sticky-trap')
  several('F', 2, 'dry-store', 'sticky-trap')
  several('P', 1, 'dry-store', 'pheromone-trap', ['indianmeal-moth'])
  several('D', 2, 'dining', 'sticky-trap')
  several('L', 1, 'dining', 'light-trap', ['house-fly', 'fruit-fly'])
  several('Q', 2, 'custodial', 'sticky-trap')
  several('B', 2, 'boiler', 'glue-board', ['american-cockroach', 'oriental-cockroach'])
  several('U', 2, 'boiler', 'sticky-trap', ['american-cockroach', 'silverfish'])
  several('H', 2, 'dock', 'sticky-trap')
  several('R', 1, 'restrooms', 'sticky-trap', ['drain-fly', 'pavement-ant'])
  several('G', 1, 'office', 'sticky-card', ['fungus-gnat'])
  site.areas
    .filter((area) => area.kind === 'classroom')
    .forEach((area, index) => {
      several('C', 1, area.id, 'sticky-trap', ['odorous-house-ant', 'pavement-ant', 'german-cockroach'])
      if (index === 0) several('G', 1, area.id, 'sticky-card', ['fungus-gnat'])
    })
  standStations(site, day, stand)
  const boiler = site.areas.find((area) => area.id === 'boiler')
  if (boiler && chance(random, 0.25)) {
    stand({ id: 'T1', kind: 'tracking-patch', area: boiler, at: next(boiler), for: ['house-mouse'] })
  }
  return made
}

/** Four bait stations in a run along the outer wall; at some schools termite stations too. */
function standStations(site: Site, day: Day, stand: (device: NewDevice) => void): void {
  const outside = site.areas.find((area) => area.id === 'north-side')
  if (!outside) return
  const wall = outside.box[3] - 1
  const ids = ['E1', 'E2', 'E3', 'E4']
  ids.forEach((id, index) => {
    stand({ id, kind: 'bait-station', area: outside, at: [6 + 15 * index, wall], for: ['norway-rat'] })
  })
  site.runs.set('outer-wall', {
    along: 'outer wall of dock and kitchen',
    devices: ids,
    active: [{ from: day }],
  })
  if (site.number % 5 !== 0) return
  for (const number of [1, 2]) {
    stand({
      id: `W${number}`,
      kind: 'termite-station',
      area: outside,
      at: [80 + 20 * number, wall],
      for: ['western-subterranean-termite'],
    })
  }
}

/**
 * Three multiple-catch traps in a run in the dock. They ask for a look every week, so only two schools have them, and
 * they are first set while school is on.
 */
export function firstCatchers(world: World, site: Site, day: Day): Device[] {
  const dock = site.areas.find((area) => area.id === 'dock')
  const { isSchoolDay } = world.calendar
  if (
    !dock ||
    site.trial ||
    site.number > 1 ||
    site.runs.has('dock-wall') ||
    !isSchoolDay(day) ||
    !isSchoolDay(day + 1)
  ) {
    return []
  }
  const ids = ['M1', 'M2', 'M3']
  const made = ids.map((id, index) => {
    const at: Corner = [dock.box[0] + 3 + 8 * index, dock.box[1] + 1]
    return standDevice(site, { id, kind: 'multiple-catch-trap', area: dock, at, for: ['house-mouse'] }, day)
  })
  site.runs.set('dock-wall', { along: 'north wall of the dock', devices: ids, active: [] })
  return made
}
