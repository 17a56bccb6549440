import { deviceTable } from '../records/tables.js'
import type { Day } from '../types.js'
import type { Check, DeviceHistory } from './device-history.js'
import { getOrMake } from './get-or-make.js'
import type { SiteView } from './site-view.js'
import { isOut, standOn } from './standing.js'

/** What one day's look at an area showed of one pest. */
export interface Look {
  readonly day: Day
  /** Animals newly caught in devices plus animals seen alive. */
  readonly animals: number
  /** Newly caught in devices, and the effort behind it; the effort is 0 when only people looked. */
  readonly caught: number
  readonly trapNights: number
  /** Fresh signs without a number: droppings, tracks, gnawing, an active nest, a block pushed aside. */
  readonly signs: readonly string[]
  /** Someone inspected the area, or read a device there that shows the pest: so little, or nothing, means something. */
  readonly looked: boolean
  readonly files: readonly string[]
}

interface Gathering {
  animals: number
  caught: number
  trapNights: number
  signs: string[]
  looked: boolean
  files: Set<string>
}

/** Traces that, when fresh or of unknown age, mean that the pest is there now. */
const traces = new Set([
  'droppings',
  'gnawing',
  'tracks',
  'rub-marks',
  'burrow',
  'mud-tube',
  'wings',
  'egg-case',
  'shed-skin',
  'odor',
  'damage',
  'honeycomb',
  'dead',
])

/**
 * Everything the ledger shows of each pest in each area, day by day, oldest first: readings, sightings, and days on
 * which the area was looked at and nothing was found. Key: `area pest`. A full or wet board still counts what is on
 * it as seen: to leave it out would be a false all-clear. Complaints are words, not evidence, and are left out.
 */
export function looksOf(view: SiteView, pestsOf: (area: string) => Iterable<string>): Map<string, Look[]> {
  const byKey = new Map<string, Map<Day, Gathering>>()
  const on = (area: string, pest: string, day: Day): Gathering =>
    getOrMake(
      getOrMake(byKey, `${area} ${pest}`, () => new Map<Day, Gathering>()),
      day,
      () => ({ animals: 0, caught: 0, trapNights: 0, signs: [], files: new Set<string>(), looked: false }),
    )
  gatherReadings(view, on)
  gatherSightings(view, on)
  gatherInspections(view, pestsOf, on)
  const looks = new Map<string, Look[]>()
  for (const [key, days] of byKey) {
    looks.set(
      key,
      [...days]
        .filter(([, gathering]) => gathering.looked || gathering.animals > 0 || gathering.signs.length > 0)
        .sort(([a], [b]) => a - b)
        .map(([day, { animals, caught, trapNights, signs, looked, files }]) => ({
          day,
          animals,
          caught,
          trapNights,
          signs,
          looked,
          files: [...files].sort(),
        })),
    )
  }
  return looks
}

/**
 * Where devices that show a pest stand, only reading them shows that it is gone; elsewhere an inspection does. Bait
 * does not tell who ate it, so a bait station alone leaves it to the inspection.
 */
function gatherInspections(view: SiteView, pestsOf: (area: string) => Iterable<string>, on: On): void {
  for (const visit of view.visits) {
    for (const area of visit.data.inspected ?? []) {
      const trapped = new Set(
        view.devices
          .filter(
            (device) =>
              showsPests(device) && isOut(device, visit.day) && standOn(device, visit.day)?.area === area,
          )
          .flatMap((device) => device.for),
      )
      for (const pest of pestsOf(area)) {
        if (trapped.has(pest)) continue
        const gathering = on(area, pest, visit.day)
        gathering.looked = true
        gathering.files.add(visit.file)
      }
    }
  }
}

type On = (area: string, pest: string, day: Day) => Gathering

function gatherReadings(view: SiteView, on: On): void {
  for (const device of view.devices) {
    for (const check of device.checks) {
      if (check.noAccess) continue
      const { reading, moment } = check
      const pests = new Set([...device.for, ...check.counts.keys()])
      for (const pest of pests) {
        const gathering = on(check.area, pest, moment.day)
        gathering.files.add(moment.visit.file)
        const newly = check.caught.get(pest) ?? 0
        if (isClear(device, check, pest)) gathering.looked = true
        gathering.animals += newly
        gathering.caught += newly
        if (device.for.includes(pest) && check.caught.has(pest)) gathering.trapNights += check.trapNights
      }
      const sign = signOf(reading)
      const first = device.for[0]
      if (sign !== undefined && first !== undefined)
        on(check.area, first, moment.day).signs.push(`${sign} at ${device.id}`)
    }
  }
}

function showsPests({ kind }: DeviceHistory): boolean {
  return deviceTable()[kind].reads.some((can) => ['counts', 'tracks', 'active', 'block'].includes(can))
}

/** A reading after at least one usable night that says how it stands with the pest. */
function isClear(device: DeviceHistory, check: Check, pest: string): boolean {
  if (check.unusable !== undefined || check.trapNights === 0) return false
  if (check.caught.has(pest)) return true
  if (!device.for.includes(pest) || deviceTable()[device.kind].reads.includes('counts')) return false
  const { reading } = check
  if (reading === null) return showsPests(device)
  return reading.tracks === 'none' || reading.active === 'no' || reading.block === 'in-place'
}

function signOf(reading: Check['reading']): string | undefined {
  if (reading?.tracks === 'some' || reading?.tracks === 'many') return 'tracks'
  if (reading?.active === 'yes') return 'activity'
  if (reading?.block === 'moved') return 'block moved'
  return undefined
}

function gatherSightings(view: SiteView, on: On): void {
  for (const { facts, day, visit } of view.sightings) {
    if (facts.pest === undefined) continue
    const gathering = on(facts.area, facts.pest, day)
    gathering.files.add(visit.file)
    if (facts.evidence === 'live' || facts.evidence === 'swarmers') gathering.animals += facts.count ?? 1
    else if (facts.evidence === 'nest') {
      if (facts['nest-state'] !== 'abandoned') gathering.signs.push('active nest')
    } else if (traces.has(facts.evidence) && facts.age !== 'old') gathering.signs.push(facts.evidence)
  }
}
