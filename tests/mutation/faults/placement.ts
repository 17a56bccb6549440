import { addVisit } from '../added.js'
import type { Data, Draft, KeyPath } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, take, textAt } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { areasOf, siteFile, sitesOf, standingOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//
const inSite = /\/site\.yaml$/

/** Where and how devices stand. */
export const placementFaults: readonly FaultKind[] = [
  {
    name: 'a bait station is not secured',
    expect: 'rodent-device-not-secured',
    at: inVisits,
    make: placed('bait-station', 'secured', 'no'),
  },
  {
    name: 'a glue board for rodents is not secured',
    expect: 'rodent-device-not-secured',
    at: inVisits,
    make: placed('glue-board', 'secured', 'no'),
  },
  {
    name: 'a bait station is not marked',
    expect: 'rodent-device-not-marked',
    at: inVisits,
    make: placed('bait-station', 'marked', 'no'),
  },
  {
    name: 'a sticky trap is within reach of children',
    expect: 'trap-within-reach',
    at: inVisits,
    make(draft, random) {
      const devices = sitesOf(draft).flatMap((site) => {
        const areas = areasOf(draft, site)
        return standingOf(draft, site, 'sticky-trap').filter(
          ({ area }) => areas.get(area)?.children === 'yes',
        )
      })
      const device = random.pick(devices)
      if (!device) return null
      put(draft, device.set.file, ['set', device.id, 'within-reach'], 'yes')
      return reportedAt(device.set.file, 'set', device.id, 'within-reach')
    },
  },
  {
    name: 'a light trap hangs in a doorway',
    expect: 'light-trap-in-doorway',
    at: inVisits,
    make: placed('light-trap', 'in-doorway', 'yes'),
  },
  {
    name: 'a light trap is seen from outdoors',
    expect: 'light-trap-seen-outdoors',
    at: inVisits,
    make: placed('light-trap', 'visible-outdoors', 'yes'),
  },
  {
    name: 'a light trap hangs at 9 ft',
    expect: 'light-trap-too-high',
    at: inVisits,
    make: placed('light-trap', 'height', '9 ft'),
  },
  {
    name: 'the height of a light trap is in metres where feet were meant',
    expect: 'light-trap-too-high',
    at: inVisits,
    make(draft, random) {
      const trap = random.pick(sitesOf(draft).flatMap((site) => standingOf(draft, site, 'light-trap')))
      const height = textAt(trap?.facts, 'height')
      if (!trap || height === undefined) return null
      put(draft, trap.set.file, ['set', trap.id, 'height'], height.replace(' ft', ' m'))
      return reportedAt(trap.set.file, 'set', trap.id, 'height')
    },
  },
  {
    name: 'a glue board is above food',
    expect: 'device-above-food',
    at: inVisits,
    make: placed('glue-board', 'above-food', 'yes'),
  },
  {
    name: 'a light trap with an electric grid hangs above food',
    expect: 'device-above-food',
    at: inVisits,
    make(draft, random) {
      const trap = random.pick(sitesOf(draft).flatMap((site) => standingOf(draft, site, 'light-trap')))
      if (!trap) return null
      put(draft, trap.set.file, ['set', trap.id, 'electric-grid'], 'yes')
      const before = copyOf(draft)
      put(draft, trap.set.file, ['set', trap.id, 'above-food'], 'yes')
      return { ...reportedAt(trap.set.file, 'set', trap.id, 'above-food'), before }
    },
  },
  {
    name: 'the last station of a run stands far off',
    expect: 'run-spacing',
    at: inSite,
    make(draft, random) {
      const run = random.pick(controlledRuns(draft))
      const last = run?.stations.at(-1)
      const [across, down] = listAt(last?.facts, 'at').map(Number)
      if (!run || !last || across === undefined || down === undefined) return null
      put(draft, last.set.file, ['set', last.id, 'at'], [across + 40, down])
      return reportedAt(run.file, ...run.path, run.stations.length - 1)
    },
  },
  {
    name: 'the diagram is said to be in metres where feet were meant',
    expect: 'run-spacing',
    at: inSite,
    make(draft, random) {
      const run = random.pick(controlledRuns(draft))
      if (!run || textAt(dataOf(draft, run.file), 'diagram', 'unit') !== 'ft') return null
      put(draft, run.file, ['diagram', 'unit'], 'm')
      // Stations 15 ft apart are now 15 m, which is beyond what is set against rats.
      const later = run.stations.slice(1).map((_, at) => ({ file: run.file, path: [...run.path, at + 1] }))
      return { where: later }
    },
  },
  {
    name: 'a station is missing from the middle of a run',
    expect: 'run-spacing',
    at: inSite,
    make(draft, random) {
      const run = random.pick(controlledRuns(draft))
      const [, second] = run?.stations ?? []
      if (!run || !second || run.stations.length < 4) return null
      const positions = run.stations.map(({ facts }) => Number(listAt(facts, 'at')[0]))
      const [first, , third] = positions
      if (first === undefined || third === undefined || third - first <= 20) return null
      addVisit(draft, run.site, draft.lastDay, 'callback', { 'taken-up': { [second.id]: 'stolen' } })
      return reportedAt(run.file, ...run.path, 2)
    },
  },
  {
    name: 'it is not written whether a station is secured',
    expect: 'placement-not-recorded',
    at: inSite,
    make: unrecorded('bait-station', 'secured'),
  },
  {
    name: 'it is not written whether children reach a sticky trap',
    expect: 'placement-not-recorded',
    at: inSite,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const areas = areasOf(draft, site)
      const traps = standingOf(draft, site, 'sticky-trap')
      const trap = random.pick(traps.filter(({ area }) => areas.get(area)?.children === 'yes'))
      if (!trap) return null
      take(draft, trap.set.file, ['set', trap.id, 'within-reach'])
      return reportedAtKey(siteFile(site), 'areas')
    },
  },
  {
    name: 'it is not written whether a light trap is seen from outdoors',
    expect: 'placement-not-recorded',
    at: inSite,
    make: unrecorded('light-trap', 'visible-outdoors'),
  },
  {
    name: 'a moved board is not said to be secured at its new place',
    expect: 'placement-not-recorded',
    at: inSite,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const board = random.pick(standingOf(draft, site, 'glue-board'))
      if (!board) return null
      const moved = { 'within-reach': 'no', 'above-food': 'no', secured: 'yes', marked: 'yes' }
      const visit = addVisit(draft, site, draft.lastDay, 'callback', { moved: { [board.id]: moved } })
      const before = copyOf(draft)
      take(draft, visit, ['moved', board.id, 'secured'])
      return { ...reportedAtKey(siteFile(site), 'areas'), before }
    },
  },
]

function placed(kind: string, fact: string, value: Data): FaultKind['make'] {
  return (draft, random) => {
    const device = random.pick(sitesOf(draft).flatMap((site) => standingOf(draft, site, kind)))
    if (!device) return null
    put(draft, device.set.file, ['set', device.id, fact], value)
    return reportedAt(device.set.file, 'set', device.id, fact)
  }
}

function unrecorded(kind: string, fact: string): FaultKind['make'] {
  return (draft, random) => {
    const site = random.pick(sitesOf(draft)) ?? ''
    const device = random.pick(standingOf(draft, site, kind))
    if (!device) return null
    take(draft, device.set.file, ['set', device.id, fact])
    return reportedAtKey(siteFile(site), 'areas')
  }
}

/** Runs under active control on the last day whose stations all stand where they were set. */
function controlledRuns(draft: Draft) {
  return sitesOf(draft).flatMap((site) => {
    const file = siteFile(site)
    const standing = new Map(standingOf(draft, site, 'bait-station').map((device) => [device.id, device]))
    return Object.entries(mapAt(dataOf(draft, file), 'runs')).flatMap(([name, run]) => {
      const ids = listAt(run, 'devices').map(String)
      const stations = ids.flatMap((id) => standing.get(id) ?? [])
      const isControlled = listAt(run, 'active-control').some((span) => textAt(span, 'until') === undefined)
      const path: KeyPath = ['runs', name, 'devices']
      return isControlled && stations.length === ids.length ? [{ site, file, path, stations }] : []
    })
  })
}
