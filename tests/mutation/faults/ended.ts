import { isoOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit, mendedBy } from '../added.js'
import { copyOf, listAt, mapAt, put, rename, take } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import type { EventFile } from '../site-records.js'
import {
  coordinatorOf,
  devicesOf,
  eventsOf,
  routineVisitsOf,
  siteFile,
  sitesOf,
  visitsOf,
} from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Gaps that a later record made good: they end with it, and nothing of them stands on the last day. */
export const endedFaults: readonly FaultKind[] = [
  {
    name: 'a routine visit in the middle of the year is recorded as a callback',
    expect: 'visit-overdue',
    at: /\/site\.yaml$/,
    ended: true,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const visits = routineVisitsOf(draft, site)
      const alone = visits.filter(
        ({ day }, at) => at < visits.length - 1 && isFullMonth(day) && isAloneInMonth(visits, day),
      )
      const visit = random.pick(alone)
      if (!visit) return null
      put(draft, visit.file, ['purpose'], 'callback')
      return reportedAt(siteFile(site), 'contract', 0, 'routine-visits')
    },
  },
  {
    name: 'the site manager is left out of one visit of many',
    expect: 'site-manager-not-told',
    at: inVisits,
    ended: true,
    make(draft, random) {
      const visit = random.pick(routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').slice(0, -1))
      if (!visit) return null
      take(draft, visit.file, ['site-manager'])
      return reportedAt(visit.file, 'purpose')
    },
  },
  {
    name: 'a complaint is answered three weeks later',
    expect: 'complaint-not-answered',
    at: /^sites\/[^/]+\/complaints\//,
    ended: true,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const old = eventsOf(draft, site, 'complaints').filter(({ day }) => day < draft.lastDay - 21)
      const complaint = random.pick(old)
      if (!complaint) return null
      for (const { file, data } of visitsOf(draft, site))
        if (mapAt(data, 'answers')[complaint.id] !== undefined) take(draft, file, ['answers', complaint.id])
      addVisit(draft, site, complaint.day + 21, 'trap-check', { answers: { [complaint.id]: 'nothing seen' } })
      return reportedAt(complaint.file, 'says')
    },
  },
  {
    name: 'traps stay out over winter break and are read after it',
    expect: 'trap-left-over-closure',
    at: inVisits,
    ended: true,
    make(draft, random) {
      for (const site of random.shuffled(sitesOf(draft))) {
        const visits = visitsOf(draft, site)
        const before = visits.findLast(
          ({ id, data }) => id.slice(5, 7) === '12' && listAt(data, 'picked-up').length > 0,
        )
        const after = visits.find(
          ({ day, data }) => before !== undefined && day > before.day && listAt(data, 'put-out').length > 0,
        )
        const ids = listAt(before?.data, 'picked-up').map(String)
        const traps = devicesOf(draft, site).filter(
          ({ id, kind, takenUp }) => kind === 'multiple-catch-trap' && !takenUp && ids.includes(id),
        )
        if (!before || !after || traps.length === 0 || traps.length < ids.length) continue
        if (String(listAt(after.data, 'put-out')) !== String(ids)) continue
        take(draft, before.file, ['picked-up'])
        take(draft, after.file, ['put-out'])
        put(draft, after.file, ['readings', 'none'], [...listAt(after.data, 'readings', 'none'), ...ids])
        return { where: traps.map(({ id, set }) => ({ file: set.file, path: ['set', id], onKey: true })) }
      }
      return null
    },
  },
  {
    name: 'a repair comes ten days after its day',
    expect: 'condition-overdue',
    at: inVisits,
    ended: true,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const found = draft.lastDay - 60
      const facts = { ...mendedBy(draft), by: isoOf(found + 20) }
      const drip = { new: 'drip under the basin', area: 'custodial', ...facts }
      const visit = addVisit(draft, site, found, 'callback', { conditions: { 'added-drip': drip } })
      const mends = { mends: ['added-drip'], done: 'new washer' }
      const repair = addEvent(draft, site, 'repairs', found + 10, coordinatorOf(draft), mends)
      const holds = { 'added-drip': { holds: 'dry' } }
      addVisit(draft, site, found + 31, 'follow-up', { conditions: holds })
      // The routine visits in between are not asked to look again before the repair or after the follow-up.
      const between = routineVisitsOf(draft, site).filter(({ day }) => day > found && day < found + 31)
      for (const { file } of between) put(draft, file, ['conditions', 'added-drip'], { holds: 'dry' })
      const before = copyOf(draft)
      for (const { file } of between) take(draft, file, ['conditions', 'added-drip'])
      rename(draft, repair, repair.replace(isoOf(found + 10), isoOf(found + 30)))
      return { ...reportedAt(visit, 'conditions', 'added-drip', 'by'), before }
    },
  },
  {
    name: 'a missing trap is renewed only on the next routine visit',
    expect: 'lost-device-not-renewed',
    at: inVisits,
    ended: true,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      for (const device of random.shuffled(devicesOf(draft, site))) {
        const at = device.looks.findIndex(
          ({ reading }) => reading?.unusable !== undefined && reading.renewed === 'yes',
        )
        const [lost, next] = device.looks.slice(at)
        if (at < 0 || !lost || !next || device.kind !== 'sticky-trap' || device.moved) continue
        if (next.visit.day - lost.visit.day <= 8 || next.reading?.unusable !== undefined) continue
        if (
          device.looks.slice(0, at).some(({ reading }) => reading !== null && reading.renewed === undefined)
        )
          continue
        take(draft, lost.visit.file, ['readings', device.id, 'renewed'])
        return reportedAt(lost.visit.file, 'readings', device.id, 'unusable')
      }
      return null
    },
  },
  {
    name: 'a sticky trap is passed by once and read on the next visit',
    expect: 'device-not-read',
    at: inVisits,
    ended: true,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      for (const device of random.shuffled(devicesOf(draft, site))) {
        const passed = device.looks.findIndex(
          ({ visit, reading }, at) =>
            reading === null && at > 0 && at < device.looks.length - 1 && visit.data.purpose === 'routine',
        )
        const look = device.looks[passed]
        if (device.kind !== 'sticky-trap' || device.moved || device.takenUp || !look) continue
        const none = listAt(look.visit.data, 'readings', 'none').indexOf(device.id)
        take(draft, look.visit.file, ['readings', 'none', none])
        return reportedAtKey(look.visit.file, 'readings')
      }
      return null
    },
  },
]

/** Whether the month of a day is one in which school is in session for most of it. */
function isFullMonth(day: number): boolean {
  return ['01', '02', '03', '05', '10', '11'].includes(isoOf(day).slice(5, 7))
}

function isAloneInMonth(visits: readonly EventFile[], day: number): boolean {
  const month = isoOf(day).slice(0, 7)
  return visits.filter(({ id }) => id.startsWith(month)).length === 1
}
