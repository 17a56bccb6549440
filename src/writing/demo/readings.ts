import {
  binomial,
  chance,
  negativeBinomial,
  pick,
  poisson,
  wholeBetween,
} from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateText } from './days.js'
import { drawFromNow, sumOf } from './devices.js'
import { figures } from './figures.js'
import { pestModel } from './pests.js'
import type { Area, Device, Site, World } from './world.js'
import type { YamlMap } from './yaml.js'

/** What one look at a device gave. */
export interface Look {
  /** Null when there was nothing on it that it is for: it goes into the list `none`. */
  readonly reading: YamlMap | null
  /** New animals by pest; empty when the time before tells nothing. */
  readonly caught: ReadonlyMap<number, number>
  readonly nights: number
  /** Bait, in blocks, put in. */
  readonly bait: number
}

/** Animals after which a device is full and shows no more. */
const holds: Partial<Record<Device['kind'], number>> = {
  'sticky-trap': 70,
  'glue-board': 80,
  'light-trap': 260,
  'sticky-card': 90,
  'pheromone-trap': 70,
}

const oddAnimals = ['earwig', 'moth', 'crane fly', 'springtail', 'booklouse', 'lacewing']

export function lotOf(product: string, day: Day): string {
  return `L-${dateText(day).slice(2, 4)}${product.length}${product.charCodeAt(0) % 10}`
}

/** Looks at a device, lets it catch what it caught since the last look, and says what a technician would write. */
export function lookAt(world: World, site: Site, device: Device, day: Day): Look | undefined {
  const { trouble } = world
  if (trouble.happens('device left out', site.id, day, device.id)) return undefined
  const nights = day - device.lastRead
  if (trouble.happens('device not reached', site.id, day, device.id)) {
    const why = pick(site.random, ['cabinet in front', 'locked cupboard', 'pallets in front'])
    return { reading: { 'no-access': why }, caught: new Map(), nights: 0, bait: 0 }
  }
  device.lastRead = day
  device.checks++
  switch (device.kind) {
    case 'bait-station':
      return lookAtStation(world, site, device, day, nights)
    case 'tracking-patch':
      return lookAtPatch(site, device, nights)
    case 'termite-station':
      return lookAtTermites(site, device, nights)
    case 'blocked-entrance':
      return lookAtEntrance(site, device, nights)
    default:
      return lookAtTrap(world, site, device, day, nights)
  }
}

/** New animals by pest since the last look. */
export function drawn(site: Site, device: Device): [pest: number, animals: number][] {
  const animals: [number, number][] = []
  for (const draw of device.draws) {
    const sum = sumOf(site, device.area, draw.pest)
    const mean = (sum - draw.drawnUpTo) * draw.efficiency * device.traps
    draw.drawnUpTo = sum
    if (mean > 0) animals.push([draw.pest, catchOf(site, mean, pestModel(draw.pest).k)])
  }
  return animals
}

function catchOf(site: Site, mean: number, k: number): number {
  return site.trial?.clumped === false ? poisson(site.nature, mean) : negativeBinomial(site.nature, mean, k)
}

function lookAtTrap(world: World, site: Site, device: Device, day: Day, nights: number): Look {
  const caught = new Map<number, number>()
  let fresh = 0
  for (const [pest, animals] of drawn(site, device)) {
    if (animals === 0) continue
    caught.set(pest, animals)
    fresh += animals
  }
  if (device.broken) return renewBroken(site, device, nights)
  let onIt = fresh
  for (const count of device.onIt.values()) onIt += count.all
  const full = onIt > (holds[device.kind] ?? 1e9)
  const { lostAlways, lostPerAnimal } = site.trial ?? figures
  const lost = 1 - Math.exp(-lostAlways - lostPerAnimal * onIt)
  if (full || (device.kind !== 'light-trap' && chance(site.random, lost))) {
    return lose(world, site, device, day, nights, full)
  }
  for (const [pest, animals] of caught) addTo(site, device, pest, animals)
  if (chance(site.random, 0.02 + 0.0004 * nights)) addOther(site, device)
  return writeCounts(world, site, device, day, nights, caught)
}

function addTo(site: Site, device: Device, pest: number, animals: number): void {
  const before = device.onIt.get(pest) ?? { all: 0, nymphs: 0 }
  const share = pestModel(pest).nymphs ?? 0
  const nymphs = share === 0 ? 0 : binomial(site.nature, animals, share)
  device.onIt.set(pest, { all: before.all + animals, nymphs: before.nymphs + nymphs })
}

function addOther(site: Site, device: Device): void {
  device.other ??= { name: pick(site.random, oddAnimals), count: 0 }
  device.other.count += 1 + poisson(site.random, 0.4)
}

/** A lost or full device: the time before cannot be counted, and all that was on it is gone. */
function lose(world: World, site: Site, device: Device, day: Day, nights: number, full: boolean): Look {
  device.onIt.clear()
  device.other = undefined
  device.checks = 0
  const unusable = full ? 'full' : pick(site.random, ['missing', 'missing', 'damaged', 'wet'])
  const left = world.trouble.happens('lost device not renewed', site.id, day, device.id)
  if (left) device.broken = true
  return { reading: { unusable, ...(left ? {} : { renewed: 'yes' }) }, caught: new Map(), nights, bait: 0 }
}

function renewBroken(site: Site, device: Device, nights: number): Look {
  const renewed = chance(site.random, 0.4)
  device.broken = !renewed
  return {
    reading: { unusable: 'missing', ...(renewed ? { renewed: 'yes' } : {}) },
    caught: new Map(),
    nights,
    bait: 0,
  }
}

/** Whether this device is renewed before it is lost or full: always, unless a trial tries what happens otherwise. */
function isRenewed(site: Site, device: Device): boolean {
  return site.trial?.renewed !== false || device.kind === 'multiple-catch-trap'
}

/** Boards are left for a while: a new one once much is on it, or after some checks. */
function isDue(device: Device, onIt: number): boolean {
  switch (device.kind) {
    case 'multiple-catch-trap':
      return onIt > 0
    case 'light-trap':
      return onIt >= 40 || device.checks >= 3
    case 'pheromone-trap':
      return onIt >= 15 || device.checks >= 3
    case 'sticky-card':
      return onIt >= 25 || device.checks >= 3
    default:
      return onIt >= 16 || (onIt > 0 ? device.checks >= 4 : device.checks >= 6)
  }
}

function writeCounts(
  world: World,
  site: Site,
  device: Device,
  day: Day,
  nights: number,
  caught: ReadonlyMap<number, number>,
): Look {
  const reading: Record<string, string | number | YamlMap> = {}
  let onIt = 0
  for (const [pest, count] of device.onIt) {
    const model = pestModel(pest)
    onIt += count.all
    const before = count.all - (caught.get(pest) ?? 0)
    const slip = before > 1 && world.trouble.happens('count lower than before', site.id, day, device.id)
    if (model.nymphs !== undefined && !slip) {
      const adults = count.all - count.nymphs
      reading[model.id] = {
        ...(count.nymphs > 0 ? { nymphs: count.nymphs } : {}),
        ...(adults > 0 ? { adults } : {}),
      }
    } else reading[model.id] = slip ? before - 1 : count.all
  }
  if (device.other) {
    reading.other = device.other.name
    reading['other-count'] = device.other.count
  }
  if (device.kind === 'light-trap' && device.lamp !== undefined && day - device.lamp >= 270) {
    device.lamp = day
    reading.lamp = dateText(day)
  }
  if (isRenewed(site, device) && isDue(device, onIt + (device.other?.count ?? 0))) {
    reading.renewed = 'yes'
    clear(device)
  }
  const nothing = Object.keys(reading).length === 0
  if (!nothing && chance(site.random, 0.12)) reading.note = pick(site.random, notes)
  return { reading: nothing ? null : reading, caught, nights, bait: 0 }
}

export function clear(device: Device): void {
  device.onIt.clear()
  device.other = undefined
  device.checks = 0
}

const notes = [
  'dust on the edge',
  'pushed back against the wall',
  'greasy floor beside it',
  'damp below',
  'moved by the cleaners and put back',
]

function lookAtStation(world: World, site: Site, device: Device, day: Day, nights: number): Look {
  const eaten = Math.min(
    4,
    drawn(site, device).reduce((sum, [, blocks]) => sum + blocks, 0),
  )
  const mouldy = eaten === 0 && chance(site.random, 0.02)
  if (eaten === 0 && !mouldy) return { reading: { 'bait-taken': 'none' }, caught: new Map(), nights, bait: 0 }
  const blocks = mouldy ? 4 : eaten
  const forgotten = world.trouble.happens('bait without product', site.id, day, device.id)
  const reading: YamlMap = {
    'bait-taken': mouldy ? 'mouldy' : eaten === 4 ? 'all' : 'some',
    'bait-added': `${blocks} block`,
    ...(forgotten ? {} : { product: 'block-x', lot: lotOf('block-x', day) }),
  }
  const pest = device.draws[0]?.pest
  const caught = new Map(pest !== undefined && eaten > 0 ? [[pest, eaten]] : [])
  return { reading, caught, nights, bait: blocks }
}

function lookAtPatch(site: Site, device: Device, nights: number): Look {
  const passes = drawn(site, device).reduce((sum, [, animals]) => sum + animals, 0)
  if (passes === 0) return { reading: { tracks: 'none' }, caught: new Map(), nights, bait: 0 }
  const pest = device.draws[0]?.pest ?? 0
  const reading = { tracks: passes > 3 ? 'many' : 'some', renewed: 'yes' }
  return { reading, caught: new Map([[pest, passes]]), nights, bait: 0 }
}

function lookAtEntrance(site: Site, device: Device, nights: number): Look {
  const [first] = drawn(site, device)
  const moved = first !== undefined && first[1] > 0
  const caught = moved ? new Map([[first[0], 1]]) : new Map<number, number>()
  return { reading: { block: moved ? 'moved' : 'in-place' }, caught, nights, bait: 0 }
}

function lookAtTermites(site: Site, device: Device, nights: number): Look {
  const [first] = drawn(site, device)
  const active = (first?.[1] ?? 0) > 0
  const caught = active && first ? new Map([[first[0], first[1]]]) : new Map<number, number>()
  return { reading: { active: active ? 'yes' : 'no' }, caught, nights, bait: 0 }
}

/** Renews a board before it is moved. */
export function renewedReading(look: Look, device: Device, site: Site): YamlMap {
  clear(device)
  drawFromNow(site, device)
  return { ...look.reading, renewed: 'yes' }
}

/** Minutes that a visit to some areas takes: about as long as their devices. */
export function expectedMinutes(site: Site, areas: readonly Area[]): number {
  let devices = 0
  for (const device of site.devices.values()) if (areas.includes(device.area)) devices++
  return 10 + Math.round(devices * 1.1 + areas.length * 1.2) + wholeBetween(site.random, -4, 9)
}
