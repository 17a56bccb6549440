import { deviceTable } from '../records/tables.js'
import type { Day, KeyPath } from '../types.js'
import { animalsIn, countIn, pestsIn } from './counts.js'
import type {
  Check,
  DeviceAnomaly,
  DeviceHistory,
  DeviceMoved,
  DeviceSet,
  Moment,
  Reading,
  Stand,
  Unusable,
} from './device-history.js'
import type { LoadedEvent } from './loaded.js'

/** Devices of a site as its visits, in order, tell them. */
export interface ReplayedDevices {
  readonly devices: readonly DeviceHistory[]
  readonly anomalies: readonly DeviceAnomaly[]
}

/** A device while its history is being replayed. */
interface Live {
  readonly id: string
  readonly setFacts: DeviceSet
  readonly set: Moment
  readonly for: readonly string[]
  readonly traps: number
  stands: Stand[]
  checks: Check[]
  out: { from: Day; until?: Day }[]
  takenUp?: Moment
  /** Day from which nights count; undefined while picked up. */
  since: Day | undefined
  /** Nights stood out before it was last picked up, still in this interval. */
  nights: number
  /** What was on it at the last look, since its last renewal. */
  onIt: Map<string, number>
  lastLook: Moment
  /** Why the interval now running will tell nothing. */
  spoilt: Unusable | undefined
  /** It was found spoilt, and only a renewal makes its readings tell anything again. */
  needsRenewal: boolean
}

/**
 * Replays visits in order. Within one visit, what stands is read first, then moved, picked up or taken up; then
 * new devices are set and picked-up ones put out.
 */
export function replayDevices(visits: readonly LoadedEvent<'visit'>[]): ReplayedDevices {
  const live = new Map<string, Live>()
  const ended: Live[] = []
  const anomalies: DeviceAnomaly[] = []
  const setLater = firstSetting(visits)
  for (const visit of visits) {
    const at = (...path: KeyPath): Moment => ({ day: visit.day, visit, path })
    const standing = (id: string, moment: Moment, did: 'moved' | 'picked-up' | 'put-out' | 'taken-up') => {
      const device = live.get(id)
      if (!device && setLater.has(id)) anomalies.push({ kind: 'not-standing', device: id, at: moment, did })
      return device
    }
    readAll(visit, live, ended, setLater, anomalies)
    for (const [id, moved] of Object.entries(visit.data.moved ?? {})) {
      const device = standing(id, at('moved', id), 'moved')
      if (device) move(device, moved, at('moved', id))
    }
    for (const [n, id] of (visit.data['picked-up'] ?? []).entries()) {
      const device = standing(id, at('picked-up', n), 'picked-up')
      if (device) pickUp(device, visit.day)
    }
    for (const id of Object.keys(visit.data['taken-up'] ?? {})) {
      const device = standing(id, at('taken-up', id), 'taken-up')
      if (!device) continue
      pickUp(device, visit.day)
      device.takenUp = at('taken-up', id)
      ended.push(device)
      live.delete(id)
    }
    for (const [id, facts] of Object.entries(visit.data.set ?? {})) {
      const already = live.get(id)
      if (already) anomalies.push({ kind: 'set-twice', device: id, at: at('set', id), set: already.set })
      else live.set(id, begin(id, facts, at('set', id)))
    }
    for (const [n, id] of (visit.data['put-out'] ?? []).entries()) {
      const device = standing(id, at('put-out', n), 'put-out')
      if (device) putOut(device, visit.day)
    }
  }
  const devices = [...ended, ...live.values()].map(finished)
  devices.sort((a, b) => a.set.day - b.set.day || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
  return { devices, anomalies }
}

function firstSetting(visits: readonly LoadedEvent<'visit'>[]): Map<string, Moment> {
  const first = new Map<string, Moment>()
  for (const visit of visits) {
    for (const id of Object.keys(visit.data.set ?? {})) {
      if (!first.has(id)) first.set(id, { day: visit.day, visit, path: ['set', id] })
    }
  }
  return first
}

function begin(id: string, facts: DeviceSet, moment: Moment): Live {
  return {
    id,
    setFacts: facts,
    set: moment,
    for: facts.for ?? deviceTable()[facts.kind].for,
    traps: facts.traps ?? 1,
    stands: [{ from: moment, area: facts.area, facts }],
    checks: [],
    out: [{ from: moment.day }],
    since: moment.day,
    nights: 0,
    onIt: new Map(),
    lastLook: moment,
    spoilt: undefined,
    needsRenewal: false,
  }
}

function areaOf(device: Live): string {
  return device.stands.at(-1)?.area ?? device.setFacts.area
}

function move(device: Live, moved: DeviceMoved, moment: Moment): void {
  const before = areaOf(device)
  const area = moved.area ?? before
  device.stands.push({ from: moment, area, facts: moved })
  // Catch of an interval that spans two areas belongs to neither, unless it was read on the day it was moved.
  if (area !== before && device.lastLook.day !== moment.day) device.spoilt ??= 'moved between areas'
}

function pickUp(device: Live, day: Day): void {
  if (device.since !== undefined) device.nights += day - device.since
  device.since = undefined
  const last = device.out.at(-1)
  if (last && last.until === undefined) last.until = day
}

function putOut(device: Live, day: Day): void {
  if (device.since !== undefined) return
  device.since = day
  device.out.push({ from: day })
}

function readAll(
  visit: LoadedEvent<'visit'>,
  live: ReadonlyMap<string, Live>,
  ended: readonly Live[],
  setLater: ReadonlyMap<string, Moment>,
  anomalies: DeviceAnomaly[],
): void {
  const readings = visit.data.readings
  if (!readings) return
  const seen = new Set<string>()
  const one = (id: string, reading: Reading | null, moment: Moment) => {
    if (seen.has(id)) anomalies.push({ kind: 'read-twice', device: id, at: moment })
    seen.add(id)
    const device = live.get(id)
    if (device) look(device, reading, moment, anomalies)
    else {
      const last = ended.findLast((past) => past.id === id)
      const set = setLater.get(id)
      if (last?.takenUp)
        anomalies.push({ kind: 'read-after-taken-up', device: id, at: moment, takenUp: last.takenUp })
      else if (set) anomalies.push({ kind: 'read-before-set', device: id, at: moment, set })
    }
  }
  for (const [n, id] of (readings.none ?? []).entries())
    one(id, null, { day: visit.day, visit, path: ['readings', 'none', n] })
  for (const id of Object.keys(readings)) {
    if (id !== 'none') one(id, readings[id] as Reading, { day: visit.day, visit, path: ['readings', id] })
  }
}

function look(device: Live, reading: Reading | null, moment: Moment, anomalies: DeviceAnomaly[]): void {
  const area = areaOf(device)
  const renewed = reading?.renewed === 'yes' || reading?.reset === 'yes'
  if (reading?.['no-access'] !== undefined) {
    device.checks.push({
      moment,
      area,
      reading,
      renewed: false,
      noAccess: true,
      trapNights: 0,
      counts: new Map(),
      caught: new Map(),
    })
    return
  }
  const nights = device.nights + (device.since === undefined ? 0 : moment.day - device.since)
  const counts = countsOf(device, reading)
  const unusable: Unusable | undefined =
    reading?.unusable ?? device.spoilt ?? (reading?.['after-flush'] ? 'after flushing' : undefined)
  const caught = new Map<string, number>()
  for (const [pest, now] of counts) {
    const before = device.onIt.get(pest) ?? 0
    if (now >= before) caught.set(pest, now - before)
    else if (!reading?.unusable) {
      anomalies.push({
        kind: 'count-fell',
        device: device.id,
        at: moment,
        pest,
        before,
        now,
        last: device.lastLook,
      })
    }
  }
  device.checks.push({
    moment,
    area,
    reading,
    renewed,
    noAccess: false,
    trapNights: unusable ? 0 : nights * device.traps,
    ...(unusable ? { unusable } : {}),
    counts,
    caught,
  })
  afterLook(device, reading, moment, counts, renewed)
}

function afterLook(
  device: Live,
  reading: Reading | null,
  moment: Moment,
  counts: ReadonlyMap<string, number>,
  renewed: boolean,
): void {
  device.nights = 0
  if (device.since !== undefined) device.since = moment.day
  device.lastLook = moment
  if (renewed) device.onIt = new Map()
  else for (const [pest, now] of counts) device.onIt.set(pest, now)
  if (renewed) device.needsRenewal = false
  else if (reading?.unusable && reading.unusable !== 'missing') device.needsRenewal = true
  device.spoilt = renewed ? undefined : spoiltNow(device, reading, counts)
}

/**
 * A lost or full device, or a snap trap that has gone off, catches nothing until it is renewed. A later look that
 * finds it in its place, or set, ends that; but a board once wet, damaged or full is none again until it is renewed,
 * so that its nothing is not taken for a zero.
 */
function spoiltNow(
  device: Live,
  reading: Reading | null,
  counts: ReadonlyMap<string, number>,
): Unusable | undefined {
  if (reading?.unusable || device.needsRenewal) return 'out of service'
  if (device.setFacts.kind !== 'snap-trap') return undefined
  const caught = [...counts.values()].reduce((sum, count) => sum + count, 0)
  return reading?.sprung !== undefined || caught >= device.traps ? 'left sprung' : undefined
}

/** Named pests as counted; pests the device is for and that were not named are zero, if it could be read at all. */
function countsOf(device: Live, reading: Reading | null): Map<string, number> {
  const counts = new Map<string, number>()
  if (!deviceTable()[device.setFacts.kind].reads.includes('counts')) return counts
  if (!reading?.unusable) for (const pest of device.for) counts.set(pest, 0)
  if (!reading) return counts
  for (const pest of pestsIn(reading)) {
    const count = countIn(reading, pest)
    if (count !== undefined) counts.set(pest, animalsIn(count))
  }
  return counts
}

function finished(device: Live): DeviceHistory {
  return {
    id: device.id,
    kind: device.setFacts.kind,
    traps: device.traps,
    for: device.for,
    setFacts: device.setFacts,
    set: device.set,
    stands: device.stands,
    checks: device.checks,
    out: device.out,
    ...(device.takenUp ? { takenUp: device.takenUp } : {}),
  }
}
