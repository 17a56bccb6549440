import { isoOf } from '../../../src/measure/calendar.js'
import { addVisit } from '../added.js'
import type { Draft } from '../draft.js'
import { copyOf, listAt, put, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import type { Device } from '../site-records.js'
import {
  allStanding,
  areasWithoutDevices,
  readingOf,
  siteFile,
  sitesOf,
  standingOf,
  visitsOf,
} from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Devices whose history cannot have been so. */
export const deviceFaults: readonly FaultKind[] = [
  {
    name: 'a device is set on a later day than it was read',
    expect: 'device-read-outside-its-life',
    at: inVisits,
    make(draft, random) {
      const device = random.pick(allStanding(draft, 'sticky-trap'))
      const [first, second] = device?.looks ?? []
      if (!device || !first || !second || first.visit.day === second.visit.day) return null
      take(draft, device.set.file, ['set', device.id])
      put(draft, first.visit.file, ['set', device.id], device.facts)
      return { where: [readingOf(draft, first.visit.file, device.id)] }
    },
  },
  {
    name: 'a device is read after it was taken up',
    expect: 'device-read-outside-its-life',
    at: inVisits,
    make(draft, random) {
      const takenUp = takeUp(draft, random)
      if (!takenUp) return null
      const before = copyOf(draft)
      const { site, device } = takenUp
      const visit = addVisit(draft, site, draft.lastDay, 'callback', { readings: { none: [device.id] } })
      return { ...reportedAt(visit, 'readings', 'none', 0), before }
    },
  },
  {
    name: 'a device is moved after it was taken up',
    expect: 'device-not-standing',
    at: inVisits,
    make(draft, random) {
      const takenUp = takeUp(draft, random)
      if (!takenUp) return null
      const before = copyOf(draft)
      const { site, device } = takenUp
      const moved = { [device.id]: { 'within-reach': 'no' } }
      const visit = addVisit(draft, site, draft.lastDay, 'callback', { moved })
      return { ...reportedAtKey(visit, 'moved', device.id), before }
    },
  },
  {
    name: 'a trap is picked up that was taken up',
    expect: 'device-not-standing',
    at: inVisits,
    make(draft, random) {
      const takenUp = takeUp(draft, random)
      if (!takenUp) return null
      const before = copyOf(draft)
      const { site, device } = takenUp
      const visit = addVisit(draft, site, draft.lastDay, 'callback', { 'picked-up': [device.id] })
      return { ...reportedAt(visit, 'picked-up', 0), before }
    },
  },
  {
    name: 'an area is inspected after it left the site',
    expect: 'device-area-not-there',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const area = random.pick(areasWithoutDevices(draft, site))
      if (area === undefined) return null
      const inspected = visitsOf(draft, site).filter(({ data }) => listAt(data, 'inspected').includes(area))
      const last = inspected.at(-1)
      if (!last) return null
      put(draft, siteFile(site), ['areas', area, 'until'], isoOf(last.day - 1))
      return {
        where: inspected
          .filter(({ day }) => day === last.day)
          .map(({ file, data }) => ({ file, path: ['inspected', listAt(data, 'inspected').indexOf(area)] })),
      }
    },
  },
  {
    name: 'a device is set in an area before it was part of the site',
    expect: 'device-area-not-there',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const day = draft.lastDay - 4
      put(draft, siteFile(site), ['areas', 'annex'], { kind: 'storage', from: isoOf(day) })
      const set = { New1: { kind: 'sticky-trap', area: 'annex', 'within-reach': 'no' } }
      const visit = addVisit(draft, site, day, 'set-up', { set })
      const before = copyOf(draft)
      put(draft, siteFile(site), ['areas', 'annex', 'from'], isoOf(day + 1))
      return { ...reportedAt(visit, 'set', 'New1', 'area'), before }
    },
  },
]

/** Takes one sticky trap up on a visit the day before the last. */
function takeUp(draft: Draft, random: Random): { site: string; device: Device } | null {
  const site = random.pick(sitesOf(draft)) ?? ''
  const device = random.pick(standingOf(draft, site, 'sticky-trap'))
  if (!device || (device.looks.at(-1)?.visit.day ?? draft.lastDay) >= draft.lastDay - 1) return null
  addVisit(
    draft,
    site,
    draft.lastDay - 1,
    'callback',
    { 'taken-up': { [device.id]: 'no longer needed' } },
    'taken',
  )
  return { site, device }
}
