import { monthOf } from '../../../src/measure/calendar.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { closedDaysSince, lastFullMonth, openDaysSince } from '../school-days.js'
import type { Device, EventFile } from '../site-records.js'
import {
  devicesOf,
  lastRoutineVisit,
  routineVisitsOf,
  siteFile,
  sitesOf,
  standingOf,
  visitsOf,
} from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Devices that no one reads, picks up or renews. */
export const unreadFaults: readonly FaultKind[] = [
  {
    name: 'a sticky trap is passed by on a routine visit',
    expect: 'device-not-read',
    at: inVisits,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      const device = visit && random.pick(lastReadOn(draft, visit, 'sticky-trap'))
      // Later than this the month itself would be without a reading.
      if (!visit || !device || monthOf(visit.day) !== monthOf(draft.lastDay)) return null
      unread(draft, visit, device.id)
      return reportedAtKey(visit.file, 'readings')
    },
  },
  {
    name: 'a sticky trap is passed by on every visit of two months',
    expect: 'device-not-read',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const month = lastFullMonth(draft)
      const traps = standingOf(draft, site, 'sticky-trap').filter(({ set }) => set.day < month - 40)
      const trap = random.pick(traps)
      const looks = trap?.looks.filter(({ visit }) => visit.day >= month) ?? []
      if (!trap || looks.length === 0) return null
      for (const { visit } of looks) unread(draft, visit, trap.id)
      const passedBy = looks.filter(({ visit }) => visit.data.purpose === 'routine')
      return { where: passedBy.map(({ visit }) => ({ file: visit.file, path: ['readings'], onKey: true })) }
    },
  },
  {
    name: 'the weekly checks of traps stop',
    expect: 'device-overdue',
    at: inVisits,
    make(draft, random) {
      for (const site of random.shuffled(sitesOf(draft))) {
        const traps = standingOf(draft, site, 'multiple-catch-trap')
        const lastRoutine = routineVisitsOf(draft, site).at(-1)
        if (traps.length === 0 || !lastRoutine || closedDaysSince(draft, lastRoutine.day) > 0) continue
        if (draft.lastDay - lastRoutine.day <= 8) continue
        for (const { id, looks } of traps)
          for (const { visit } of looks) if (visit.day > lastRoutine.day) unread(draft, visit, id)
        return { where: traps.map(({ id, set }) => ({ file: set.file, path: ['set', id], onKey: true })) }
      }
      return null
    },
  },
  {
    name: 'the contract asks for weekly checks of sticky cards and none is made',
    expect: 'device-overdue',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const cards = standingOf(draft, site, 'sticky-card')
      const late = cards.filter(
        ({ looks }) => openDaysSince(draft, looks.at(-1)?.visit.day ?? draft.lastDay) > 7,
      )
      // Between seven days and seven days without closures it is for the rule to say.
      const nearly = cards.filter(
        (card) => !late.includes(card) && draft.lastDay - (card.looks.at(-1)?.visit.day ?? 0) > 7,
      )
      if (late.length === 0 || nearly.length > 0) return null
      put(draft, siteFile(site), ['contract', 0, 'checks', 'sticky-card'], '1 week')
      return { where: late.map(({ id, set }) => ({ file: set.file, path: ['set', id], onKey: true })) }
    },
  },
  {
    name: 'traps are not picked up before a closure',
    expect: 'trap-left-over-closure',
    at: inVisits,
    also: { 'device-not-read': 'routine visits of the closure, if it has any, went by the traps' },
    make(draft, random) {
      for (const site of random.shuffled(sitesOf(draft))) {
        const lastPickedUp = devicesOf(draft, site).filter(
          ({ pickedUp, takenUp, kind }) => pickedUp && !takenUp && kind === 'multiple-catch-trap',
        )
        const visit = visitsOf(draft, site).findLast(({ data }) => data['picked-up'] !== undefined)
        // A week is agreed for these traps; the closure has to have gone on for longer.
        if (!visit || lastPickedUp.length === 0 || draft.lastDay - visit.day <= 7) continue
        const ids = listAt(visit.data, 'picked-up')
        if (closedDaysSince(draft, visit.day) <= 7 || !lastPickedUp.every(({ id }) => ids.includes(id)))
          continue
        if (ids.length !== lastPickedUp.length) continue
        take(draft, visit.file, ['picked-up'])
        return {
          where: lastPickedUp.map(({ id, set }) => ({ file: set.file, path: ['set', id], onKey: true })),
        }
      }
      return null
    },
  },
  {
    name: 'a missing trap is never renewed',
    expect: 'lost-device-not-renewed',
    at: inVisits,
    make(draft, random) {
      const device = lastSeenLongAgo(draft, random, 8)
      const look = device?.looks.at(-1)
      if (!device || !look) return null
      unread(draft, look.visit, device.id)
      put(draft, look.visit.file, ['readings', device.id], { unusable: 'missing', renewed: 'yes' })
      const before = copyOf(draft)
      take(draft, look.visit.file, ['readings', device.id, 'renewed'])
      return { ...reportedAt(look.visit.file, 'readings', device.id, 'unusable'), before }
    },
  },
]

/** Devices of a kind that were last looked at on a visit, and were there before it. */
function lastReadOn(draft: Draft, visit: EventFile, kind: string): Device[] {
  const site = visit.file.split('/')[1] ?? ''
  return standingOf(draft, site, kind).filter(
    ({ looks, set }) => looks.at(-1)?.visit.file === visit.file && set.day < visit.day,
  )
}

function lastSeenLongAgo(draft: Draft, random: Random, days: number): Device | undefined {
  const traps = sitesOf(draft).flatMap((site) => standingOf(draft, site, 'sticky-trap'))
  return random.pick(
    traps.filter(({ looks }) => (looks.at(-1)?.visit.day ?? draft.lastDay) < draft.lastDay - days),
  )
}

/** Takes whatever a visit says of reading a device away. */
function unread(draft: Draft, visit: EventFile, device: string): void {
  const readings = mapAt(dataOf(draft, visit.file), 'readings')
  const none = listAt(readings, 'none').indexOf(device)
  if (none >= 0) take(draft, visit.file, ['readings', 'none', none])
  if (readings[device] !== undefined) take(draft, visit.file, ['readings', device])
}
