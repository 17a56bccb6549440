import { addMonths, dayOf, firstOfMonth, isoOf, monthOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit, idOf } from '../added.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, take, textAt, write } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { lastFullMonth, openDaysSince } from '../school-days.js'
import type { EventFile } from '../site-records.js'
import {
  areasOf,
  areasWithoutDevices,
  coordinatorOf,
  devicesOf,
  eventsOf,
  lastRoutineVisit,
  routineVisitsOf,
  siteFile,
  sitesOf,
  visitsOf,
} from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//
const inComplaints = /^sites\/[^/]+\/complaints\//
const inSite = /\/site\.yaml$/

/** Visits, inspections, answers and reviews that should be there and are not. */
export const inspectionFaults: readonly FaultKind[] = [
  {
    name: 'the routine visits of a month are recorded as callbacks',
    expect: 'visit-overdue',
    at: inSite,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const missing = visitsSinceLastMonth(draft, site)
      if (missing.length === 0) return null
      for (const { file } of missing) put(draft, file, ['purpose'], 'callback')
      return reportedAt(siteFile(site), 'contract', 0, 'routine-visits')
    },
  },
  {
    name: 'the routine visits of a month are lost',
    expect: 'visit-overdue',
    at: inSite,
    also: { 'count-fell': 'a renewal that a later reading presumes is lost with the visit' },
    make(draft, random) {
      for (const site of random.shuffled(sitesOf(draft))) {
        const missing = visitsSinceLastMonth(draft, site)
        // Other records lean on what these hold; without them that would be told as well.
        if (missing.length === 0 || missing.some((visit) => isLeanedOn(draft, site, visit))) continue
        for (const { file } of missing) draft.files.delete(file)
        return reportedAt(siteFile(site), 'contract', 0, 'routine-visits')
      }
      return null
    },
  },
  {
    name: 'the contract asks for a visit every seven days and none is made',
    expect: 'visit-overdue',
    at: inSite,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const last = routineVisitsOf(draft, site).at(-1)
      if (!last || openDaysSince(draft, last.day) <= 7) return null
      put(draft, siteFile(site), ['contract', 0, 'routine-visits'], 'every 7 days')
      return reportedAt(siteFile(site), 'contract', 0, 'routine-visits')
    },
  },
  {
    name: 'the site manager is left out',
    expect: 'site-manager-not-told',
    at: inVisits,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      if (!visit) return null
      take(draft, visit.file, ['site-manager'])
      return reportedAt(visit.file, 'purpose')
    },
  },
  {
    name: 'the complaint log is not mentioned',
    expect: 'complaint-log-not-read',
    at: inVisits,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      if (!visit) return null
      take(draft, visit.file, ['complaint-log'])
      return reportedAt(visit.file, 'purpose')
    },
  },
  {
    name: 'the complaint log was locked away',
    expect: 'complaint-log-not-read',
    at: inVisits,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      if (!visit) return null
      put(draft, visit.file, ['complaint-log'], 'locked away')
      return reportedAt(visit.file, 'complaint-log')
    },
  },
  {
    name: 'the answer to a complaint is lost',
    expect: 'complaint-not-answered',
    at: inComplaints,
    make(draft, random) {
      const complaints = sitesOf(draft).flatMap((site) =>
        eventsOf(draft, site, 'complaints').map((complaint) => ({ site, complaint })),
      )
      // At most five days are given in these ledgers.
      const late = random.pick(complaints.filter(({ complaint }) => complaint.day < draft.lastDay - 6))
      if (!late) return null
      for (const { file, data } of visitsOf(draft, late.site))
        if (mapAt(data, 'answers')[late.complaint.id] !== undefined)
          take(draft, file, ['answers', late.complaint.id])
      return reportedAt(late.complaint.file, 'says')
    },
  },
  {
    name: 'an answer names another complaint of the same person',
    expect: 'complaint-not-answered',
    at: inComplaints,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const day = draft.lastDay - 20
      const who = coordinatorOf(draft)
      const says = { from: 'staff', area: 'office', says: 'something ran along the wall' }
      const first = addEvent(draft, site, 'complaints', day, who, says, 'first')
      const second = addEvent(draft, site, 'complaints', day, who, says, 'second')
      const [firstId, secondId] = [first, second].map((file) => idOf(file))
      if (firstId === undefined || secondId === undefined) return null
      const answers = { [firstId]: 'nothing seen', [secondId]: 'nothing seen' }
      const visit = addVisit(draft, site, day + 1, 'callback', { answers })
      const before = copyOf(draft)
      take(draft, visit, ['answers', secondId])
      return { ...reportedAt(second, 'says'), before }
    },
  },
  {
    name: 'rodents are complained of twice where no rodent device stands',
    expect: 'repeat-complaint-no-device',
    at: inComplaints,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const rodentKinds = [
        'snap-trap',
        'glue-board',
        'multiple-catch-trap',
        'bait-station',
        'blocked-entrance',
      ]
      const area = random.pick(
        [...areasOf(draft, site).keys()].filter((id) =>
          devicesOf(draft, site).every((device) => device.area !== id || !rodentKinds.includes(device.kind)),
        ),
      )
      if (area === undefined) return null
      const complain = (day: number, word: string) => {
        const fields = { from: 'staff', area, pest: 'roof-rat', says: 'scratching in the ceiling' }
        const complaint = addEvent(draft, site, 'complaints', day, coordinatorOf(draft), fields, word)
        const id = idOf(complaint)
        addVisit(draft, site, day + 1, 'callback', { answers: { [id]: 'nothing seen' } }, word)
        return complaint
      }
      complain(draft.lastDay - 40, 'first')
      const before = copyOf(draft)
      return { ...reportedAt(complain(draft.lastDay - 10, 'second'), 'pest'), before }
    },
  },
  {
    name: 'an area cannot be entered twice running',
    expect: 'no-entry-running',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const [first, second] = routineVisitsOf(draft, site).slice(-2)
      if (!first || !second) return null
      const idle = (area: string) => isIdleOn(first, area) && isIdleOn(second, area)
      const area = random.pick(areasWithoutDevices(draft, site).filter(idle))
      if (area === undefined) return null
      refuse(draft, first, area)
      const before = copyOf(draft)
      refuse(draft, second, area)
      return { ...reportedAtKey(second.file, 'no-entry', area), before }
    },
  },
  {
    name: 'an area of the site is in no visit',
    expect: 'area-never-inspected',
    at: inSite,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      put(draft, siteFile(site), ['areas', 'attic'], { kind: 'storage', name: 'Attic over the hall' })
      return reportedAtKey(siteFile(site), 'areas', 'attic')
    },
  },
  {
    name: 'an area is dropped from the inspections of half a year',
    expect: 'area-not-inspected-lately',
    at: inSite,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const since = draft.lastDay - 182
      const visits = visitsOf(draft, site).filter(({ day }) => day > since)
      const routine = visits.filter(({ data }) => data.purpose === 'routine')
      const others = visits.filter(({ data }) => data.purpose !== 'routine')
      // An area to which someone came on purpose was inspected then.
      const area = random.pick(
        [...areasOf(draft, site).keys()].filter((id) =>
          others.every(({ data }) => !listAt(data, 'inspected').includes(id)),
        ),
      )
      if (area === undefined) return null
      for (const { file, data } of routine) {
        const at = listAt(data, 'inspected').indexOf(area)
        if (at >= 0) take(draft, file, ['inspected', at])
      }
      return reportedAtKey(siteFile(site), 'areas', area)
    },
  },
  {
    name: 'the yearly review is lost',
    expect: 'review-not-held',
    at: /^district\.yaml$/,
    make(draft) {
      const month = firstOfMonth(draft.lastDay) - 1
      const begins = dayOf(textAt(dataOf(draft, 'district.yaml'), 'records-begin') ?? '')
      const year = monthOf(month).slice(0, 4)
      if (begins === null || addMonths(begins, 6) > month || isoOf(draft.lastDay).slice(0, 4) !== year)
        return null
      put(draft, 'district.yaml', ['annual-review', 'due-month'], Number(monthOf(month).slice(5)))
      const file = `reviews/${year}.yaml`
      if (!draft.files.has(file))
        write(draft, file, {
          held: isoOf(month - 5),
          by: coordinatorOf(draft),
          present: ['IPM coordinator', 'head of maintenance'],
          decisions: {},
        })
      const before = copyOf(draft)
      draft.files.delete(file)
      return { ...reportedAt('district.yaml', 'annual-review', 'due-month'), before }
    },
  },
]

/** Routine visits since the last full month began; none where school was out for much of it. */
function visitsSinceLastMonth(draft: Draft, site: string): EventFile[] {
  const month = lastFullMonth(draft)
  const tooShort = ['06', '07', '08', '12']
  if (tooShort.includes(monthOf(month).slice(5))) return []
  return routineVisitsOf(draft, site).filter(({ day }) => day >= month)
}

/** Whether another record, or the state of a device or a condition, follows from what a visit says. */
function isLeanedOn(draft: Draft, site: string, visit: EventFile): boolean {
  const devices = ['set', 'picked-up', 'put-out', 'taken-up', 'answers', 'plants']
  if (devices.some((key) => visit.data[key] !== undefined)) return true
  const conditions = Object.values(mapAt(visit.data, 'conditions'))
  if (conditions.some((entry) => textAt(entry, 'holds') === undefined)) return true
  return eventsOf(draft, site, 'specimens').some(({ data }) => textAt(data, 'sighting')?.startsWith(visit.id))
}

function refuse(draft: Draft, visit: EventFile, area: string): void {
  const at = listAt(dataOf(draft, visit.file), 'inspected').indexOf(area)
  if (at >= 0) take(draft, visit.file, ['inspected', at])
  put(draft, visit.file, ['no-entry', area], 'locked, no one had the key')
}

/** Whether a visit does nothing in an area but inspect it. */
function isIdleOn({ data }: EventFile, area: string): boolean {
  return ['found', 'conditions', 'plants', 'actions'].every((key) =>
    Object.values(mapAt(data, key)).every((entry) => textAt(entry, 'area') !== area),
  )
}
