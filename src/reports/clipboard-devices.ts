import { compareText } from '../ledger/compare-text.js'
import type { Check, DeviceHistory } from '../ledger/device-history.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { isOut, standAtEndOf } from '../ledger/standing.js'
import { isoOf } from '../measure/calendar.js'
import type { DeviceKind } from '../records/device-kinds.js'
import { deviceTable } from '../records/tables.js'
import type { Day } from '../types.js'
import type { Ask } from './clipboard-asks.js'
import { pestName } from './pest-name.js'

/** Devices of one kind in one area: what is asked of each, and the devices in the order of their numbers. */
export interface ClipboardDevices {
  readonly kind: string
  /** What most of them are for, and so what a mark at `none` is a zero for, unless a device says otherwise. */
  readonly for: readonly string[]
  readonly asks: readonly Ask[]
  readonly devices: readonly ClipboardDevice[]
}

export interface ClipboardDevice {
  readonly id: string
  readonly markedAs: string | undefined
  /** How many traps stand there as one. */
  readonly traps: number
  readonly for: readonly string[]
  /** Whether it stands out only while pupils are away. */
  readonly whilePupilsAway: boolean
  /** Day on which it was picked up, while it is not out. */
  readonly pickedUp: string | undefined
  /** What was on it at the last look that could be made, and what came of a later try; or that nobody looked yet. */
  readonly last: string
}

/** Devices that were not taken up for good, by the area in which they stand at the end of a day. */
export function standingByArea(devices: readonly DeviceHistory[], day: Day): Map<string, DeviceHistory[]> {
  const byArea = new Map<string, DeviceHistory[]>()
  for (const device of devices) {
    const area = standAtEndOf(device, day)?.area
    if (device.takenUp || area === undefined) continue
    getOrMake(byArea, area, () => []).push(device)
  }
  return byArea
}

/** Devices by kind, kinds in the order of their first device. */
export function devicesByKind(devices: readonly DeviceHistory[], day: Day): ClipboardDevices[] {
  const sorted = [...devices].sort((a, b) => byNumber(a.id, b.id))
  return [...new Set(sorted.map(({ kind }) => kind))].map((kind) => {
    const ofKind = sorted.filter((device) => device.kind === kind)
    return {
      kind: deviceTable()[kind].name,
      for: mostAreFor(ofKind).map(pestName),
      asks: asksOf(kind),
      devices: ofKind.map((device) => clipboardDevice(device, day)),
    }
  })
}

/** The pests that most of the devices are for; of those that are as many, the first. */
function mostAreFor(devices: readonly DeviceHistory[]): readonly string[] {
  const alike = new Map<string, DeviceHistory[]>()
  for (const device of devices) getOrMake(alike, device.for.join(' '), () => []).push(device)
  const most = [...alike.values()].reduce((a, b) => (b.length > a.length ? b : a), [])
  return most[0]?.for ?? []
}

/** K2 before K10, and D1-2 before D1-10. Numbers are compared as texts: an id may hold more digits than a number. */
export function byNumber(a: string, b: string): number {
  const parts = (id: string) => id.match(/[0-9]+|[^0-9]+/g) ?? []
  const others = parts(b)
  for (const [at, part] of parts(a).entries()) {
    const order = comparePart(part, others[at] ?? '')
    if (order !== 0) return order
  }
  return compareText(a, b)
}

function comparePart(a: string, b: string): number {
  if (!/^[0-9]/.test(a) || !/^[0-9]/.test(b)) return compareText(a, b)
  const digits = (text: string) => text.replace(/^0+/, '')
  return digits(a).length - digits(b).length || compareText(digits(a), digits(b))
}

function clipboardDevice(device: DeviceHistory, day: Day): ClipboardDevice {
  const until = device.out.at(-1)?.until
  return {
    id: device.id,
    markedAs: device.setFacts['marked-as'],
    traps: device.traps,
    for: device.for.map(pestName),
    whilePupilsAway: device.setFacts['while-pupils-away'] === 'yes',
    pickedUp: isOut(device, day) || until === undefined ? undefined : isoOf(until),
    last: lastLook(device),
  }
}

/** What there is to write down of a kind of device: marks first, so that a common round is quick. */
function asksOf(kind: DeviceKind): Ask[] {
  const { reads } = deviceTable()[kind]
  return [
    ...(reads.includes('counts') ? countAsks(kind) : []),
    ...reads.flatMap((capability) => asksOfCapability[capability] ?? []),
    { write: 'not read, why', as: 'words' },
  ]
}

function countAsks(kind: DeviceKind): Ask[] {
  const again = kind === 'snap-trap' ? 'set again' : kind === 'multiple-catch-trap' ? 'emptied' : 'renewed'
  return [
    { write: 'none', as: 'mark' },
    { write: 'count, by pest and stage', as: 'words' },
    { write: again, as: 'mark' },
  ]
}

const asksOfCapability: Readonly<Record<string, readonly Ask[]>> = {
  sprung: [{ write: 'sprung, empty', as: 'mark' }],
  bait: [
    { write: 'bait gone', as: 'choice', choices: ['none', 'some', 'all', 'mouldy'] },
    { write: 'bait added', as: 'number' },
  ],
  tracks: [{ write: 'tracks', as: 'choice', choices: ['none', 'some', 'many'] }],
  active: [{ write: 'active', as: 'choice', choices: ['yes', 'no'] }],
  block: [{ write: 'block', as: 'choice', choices: ['moved', 'in place'] }],
  lamp: [{ write: 'lamp dated', as: 'number' }],
}

function lastLook(device: DeviceHistory): string {
  const last = device.checks.at(-1)
  if (!last) return `set ${isoOf(device.set.day)}, not looked at yet`
  if (!last.noAccess) return lookInWords(device, last)
  const tried = `${isoOf(last.moment.day)}: not reached`
  const before = device.checks.findLast(({ noAccess }) => !noAccess)
  return before === undefined
    ? `${tried}; set ${isoOf(device.set.day)}, not looked at yet`
    : `${tried}; ${lookInWords(device, before)}`
}

function lookInWords(device: DeviceHistory, check: Check): string {
  const { reading } = check
  const seen = [
    ...[...check.counts]
      .filter(([, count]) => count > 0)
      .map(([pest, count]) => `${count} ${pestName(pest)}`),
    ...(reading?.other === undefined ? [] : [`${reading['other-count'] ?? 'some'} ${reading.other}`]),
    ...(reading?.sprung === undefined ? [] : ['sprung without a catch']),
    ...(reading?.['bait-taken'] === undefined ? [] : [`bait gone: ${reading['bait-taken']}`]),
    ...(reading?.tracks === undefined ? [] : [`tracks: ${reading.tracks}`]),
    ...(reading?.active === undefined ? [] : [`active: ${reading.active}`]),
    ...(reading?.block === undefined ? [] : [reading.block === 'moved' ? 'block moved' : 'block in place']),
  ]
  const words = [
    ...(seen.length > 0 ? seen : nothingSeen(device, check)),
    ...(check.unusable === undefined ? [] : [check.unusable]),
    ...(check.renewed ? [device.kind === 'snap-trap' ? 'set again' : 'renewed'] : []),
  ]
  return `${isoOf(check.moment.day)}: ${words.join(', ')}`
}

/** Nothing on a device is told only where the device could have shown it. */
function nothingSeen({ kind }: DeviceHistory, { reading, unusable, counts }: Check): string[] {
  if (reading?.unusable !== undefined || unusable === 'out of service') return []
  const isZero = reading === null || counts.size > 0 || deviceTable()[kind].reads.includes('counts')
  return [isZero ? 'none' : 'looked at']
}
