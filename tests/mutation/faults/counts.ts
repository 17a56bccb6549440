import { addVisit } from '../added.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, listAt, put, take } from '../draft.js'
import type { FaultKind, Where } from '../fault.js'
import { reportedAtKey } from '../fault.js'
import type { Device } from '../site-records.js'
import { allStanding, readingOf, routineVisitsOf, sitesOf, standingOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Counts that fall, and readings that cannot be of their device. */
export const countFaults: readonly FaultKind[] = [
  {
    name: 'a count is lower than the last one',
    expect: 'count-fell',
    at: inVisits,
    make(draft, random) {
      for (const device of random.shuffled(allStanding(draft, 'sticky-trap'))) {
        const last = device.looks.at(-1)
        const held = heldBefore(device, device.looks.length - 1)
        const counts = Object.entries(last?.reading ?? {})
        const fallen = random.pick(
          counts.filter(([pest, count]) => (held.get(pest) ?? 0) > 0 && count !== 'yes'),
        )
        if (!last || !fallen) continue
        const [pest] = fallen
        put(draft, last.visit.file, ['readings', device.id, pest], (held.get(pest) ?? 0) - 1)
        return reportedAtKey(last.visit.file, 'readings', device.id, pest)
      }
      return null
    },
  },
  {
    name: 'a renewal is not written down',
    expect: 'count-fell',
    at: inVisits,
    make(draft, random) {
      for (const device of random.shuffled(allStanding(draft, 'sticky-trap'))) {
        if (device.facts.for === undefined) continue
        const at = device.looks.findLastIndex(({ reading }) => reading?.renewed === 'yes')
        const renewal = device.looks[at]
        if (!renewal || renewal.reading?.unusable !== undefined) continue
        const where = fallsWithout(draft, device, at)
        if (where.length === 0) continue
        take(draft, renewal.visit.file, ['readings', device.id, 'renewed'])
        return { where }
      }
      return null
    },
  },
  {
    name: 'bait is read of a sticky trap',
    expect: 'reading-does-not-fit',
    at: inVisits,
    make: foreignField('sticky-trap', 'bait-taken', 'some'),
  },
  {
    name: 'a sticky trap is read as sprung',
    expect: 'reading-does-not-fit',
    at: inVisits,
    make: foreignField('sticky-trap', 'sprung', 'empty'),
  },
  {
    name: 'animals are counted on a bait station',
    expect: 'reading-does-not-fit',
    at: inVisits,
    make: foreignField('bait-station', 'norway-rat', 1),
  },
  {
    name: 'a mouse is counted on a sticky card in a plant pot',
    expect: 'reading-does-not-fit',
    at: inVisits,
    make: foreignField('sticky-card', 'house-mouse', 1),
  },
  {
    name: 'the readings of a trap and a bait station are exchanged',
    expect: 'reading-does-not-fit',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const visit = routineVisitsOf(draft, site).at(-1)
      const traps = standingOf(draft, site, 'sticky-trap')
      const stations = standingOf(draft, site, 'bait-station')
      for (const trap of random.shuffled(traps)) {
        // The trap was renewed when it was read before, so that nothing can have fallen on it.
        if (trap.looks.at(-1)?.visit.file !== visit?.file || trap.looks.at(-2)?.reading?.renewed !== 'yes')
          continue
        const station = random.pick(stations.filter(({ looks }) => looks.at(-1)?.visit.file === visit?.file))
        const trapReading = trap.looks.at(-1)?.reading
        const stationReading = station?.looks.at(-1)?.reading
        const counts = Object.keys(trapReading ?? {}).filter((key) => typeof trapReading?.[key] === 'number')
        if (!visit || !station || !trapReading || !stationReading || counts.length === 0) continue
        if (stationReading['bait-taken'] === undefined || trapReading.other !== undefined) continue
        put(draft, visit.file, ['readings', trap.id], { 'bait-taken': stationReading['bait-taken'] })
        put(draft, visit.file, ['readings', station.id], trapReading)
        const keys = counts.map(
          (pest): Where => ({ file: visit.file, path: ['readings', station.id, pest], onKey: true }),
        )
        return {
          where: [{ file: visit.file, path: ['readings', trap.id, 'bait-taken'], onKey: true }, ...keys],
        }
      }
      return null
    },
  },
  {
    name: 'a device was set under the wrong kind',
    expect: 'reading-does-not-fit',
    at: inVisits,
    make(draft, random) {
      const station = random.pick(allStanding(draft, 'termite-station'))
      if (!station) return null
      put(draft, station.set.file, ['set', station.id, 'kind'], 'pheromone-trap')
      const read = station.looks.filter(({ reading }) => reading?.active !== undefined)
      return {
        where: read.map(({ visit }) => ({
          file: visit.file,
          path: ['readings', station.id, 'active'],
          onKey: true,
        })),
      }
    },
  },
  {
    name: 'more traps are sprung than stand there',
    expect: 'sprung-more-than-traps',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const { lastDay } = draft
      const facts = {
        kind: 'snap-trap',
        area: 'custodial',
        traps: 2,
        secured: 'yes',
        marked: 'yes',
        'within-reach': 'no',
      }
      addVisit(draft, site, lastDay - 1, 'callback', { set: { New1: facts } }, 'set')
      const read = addVisit(draft, site, lastDay, 'trap-check', {
        readings: { New1: { sprung: { empty: 2 } } },
        'taken-up': { New1: 'search ended' },
      })
      const before = copyOf(draft)
      put(draft, read, ['readings', 'New1', 'sprung', 'empty'], 3)
      return { ...reportedAtKey(read, 'readings', 'New1', 'sprung'), before }
    },
  },
  {
    name: 'a mouse is caught in a trap that is also sprung empty',
    expect: 'sprung-more-than-traps',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const facts = {
        kind: 'snap-trap',
        area: 'custodial',
        secured: 'yes',
        marked: 'yes',
        'within-reach': 'no',
      }
      addVisit(draft, site, draft.lastDay - 1, 'callback', { set: { New1: facts } }, 'set')
      const read = addVisit(draft, site, draft.lastDay, 'trap-check', {
        readings: { New1: { sprung: 'empty' } },
        'taken-up': { New1: 'search ended' },
      })
      const before = copyOf(draft)
      put(draft, read, ['readings', 'New1', 'house-mouse'], 1)
      return { ...reportedAtKey(read, 'readings', 'New1', 'sprung'), before }
    },
  },
]

function foreignField(kind: string, key: string, value: string | number): FaultKind['make'] {
  return (draft, random) => {
    for (const { id, looks } of random.shuffled(allStanding(draft, kind))) {
      const look = random.pick(looks.filter(({ reading }) => reading !== null))
      if (!look) continue
      put(draft, look.visit.file, ['readings', id, key], value)
      return reportedAtKey(look.visit.file, 'readings', id, key)
    }
    return null
  }
}

/** What was on a device, by pest, when it was left before its look number `at`. */
function heldBefore(device: Device, at: number): Map<string, number> {
  const held = new Map<string, number>()
  for (const { reading } of device.looks.slice(0, at)) {
    for (const [pest, count] of countsIn(reading)) held.set(pest, count)
    for (const pest of listAt(device.facts, 'for')) {
      if (!countsIn(reading).has(String(pest)) && reading?.unusable === undefined) held.set(String(pest), 0)
    }
    if (reading?.renewed === 'yes') held.clear()
  }
  return held
}

/** The looks at which a count falls if the renewal at look number `at` is not written down; looks after it are few. */
function fallsWithout(draft: Draft, device: Device, at: number): Where[] {
  const held = heldBefore(device, at)
  for (const [pest, count] of countsIn(device.looks[at]?.reading ?? null)) held.set(pest, count)
  for (const pest of listAt(device.facts, 'for').map(String))
    if (!countsIn(device.looks[at]?.reading ?? null).has(pest)) held.set(pest, 0)
  const where: Where[] = []
  for (const { visit, reading } of device.looks.slice(at + 1)) {
    if (reading?.unusable !== undefined) return []
    const counts = countsIn(reading)
    const own = readingOf(draft, visit.file, device.id)
    for (const pest of new Set([...counts.keys(), ...listAt(device.facts, 'for').map(String)])) {
      const now = counts.get(pest) ?? 0
      if (now < (held.get(pest) ?? 0))
        where.push(
          counts.has(pest) ? { file: visit.file, path: ['readings', device.id, pest], onKey: true } : own,
        )
      held.set(pest, now)
    }
  }
  return where
}

function countsIn(reading: DataMap | null): Map<string, number> {
  const counts = new Map<string, number>()
  for (const [key, value] of Object.entries(reading ?? {})) {
    const count = key === 'other-count' || key === 'sprung' ? undefined : animals(value)
    if (count !== undefined) counts.set(key, count)
  }
  return counts
}

function animals(count: DataMap[string]): number | undefined {
  if (typeof count === 'number') return count
  if (typeof count !== 'object' || Array.isArray(count)) return undefined
  const stages = Object.values(count as DataMap)
  return stages.every((stage) => typeof stage === 'number')
    ? stages.reduce<number>((sum, stage) => sum + Number(stage), 0)
    : undefined
}
