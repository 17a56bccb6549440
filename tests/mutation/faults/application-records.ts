import { isoOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit } from '../added.js'
import { addSpray } from '../added-applications.js'
import type { AddedUse } from '../added-uses.js'
import {
  addAgain,
  addStoreRoom,
  changed,
  filledStation,
  gelOn,
  inLabel,
  sprayOn,
  useOf,
} from '../added-uses.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, mapAt, put, rename, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt } from '../fault.js'
import { siteFile, sitesOf, technicianOf } from '../site-records.js'
import { outdoorApplicationFaults } from './outdoor-applications.js'
import { recordElementFaults } from './record-elements.js'
import { unrecordedTreatmentFaults } from './unrecorded-treatments.js'

const inApplications = /^sites\/[^/]+\/applications\//
const inVisits = /^sites\/[^/]+\/visits\//

/** What the record of an application holds, when it was written, and whether its figures can be. */
export const applicationRecordFaults: readonly FaultKind[] = [
  ...unrecordedTreatmentFaults,
  ...recordElementFaults,
  {
    name: 'the record of an application is written a day too late',
    expect: 'application-record-late',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const day = gel.added.day - 21
      // Fourteen days are in time.
      const application = addAgain(draft, gel, day, 'sooner', { 'on-paper': isoOf(day + 14) })
      return changed(draft, application, ['on-paper'], isoOf(day + 15))
    },
  },
  {
    name: 'an application written down on the last day in time is dated a day too soon',
    expect: 'application-record-late',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const day = gel.added.day - 21
      const application = addAgain(draft, gel, day, 'sooner', { 'on-paper': isoOf(day + 14) })
      const before = copyOf(draft)
      const sooner = application.replace(isoOf(day), isoOf(day - 1))
      rename(draft, application, sooner)
      return { ...reportedAt(sooner, 'on-paper'), before }
    },
  },
  {
    name: 'a visit that filled stations is written down a day too late',
    expect: 'application-record-late',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      if (!found) return null
      const { file, day } = found.station.set
      put(draft, file, ['on-paper'], isoOf(day + 14))
      return changed(draft, file, ['on-paper'], isoOf(day + 15))
    },
  },
  {
    name: 'less gel is recorded in all than in the one area',
    expect: 'amounts-do-not-add-up',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      return changed(draft, added.application, ['amount'], '1.99 g')
    },
  },
  {
    name: 'the amount of a second room is not in the whole',
    expect: 'amounts-do-not-add-up',
    at: inApplications,
    make(draft, random) {
      const { added } = gelInTwoRooms(draft, random)
      // 2 g and 500 mg are 2.5 g.
      put(draft, added.application, ['amount'], '2.5 g')
      return changed(draft, added.application, ['amount'], '2 g')
    },
  },
  {
    name: 'gel is recorded in ounces of volume in all and in grams in the area',
    expect: 'amounts-do-not-add-up',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      return changed(draft, added.application, ['amount'], '0.07 fl oz')
    },
  },
  {
    name: 'more is recorded as sprayed in all than in the one area',
    expect: 'amounts-do-not-add-up',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayOn(draft, random)
      return changed(draft, added.application, ['treated-extent'], '3.1 ft2')
    },
  },
  {
    name: 'a room is recorded as smaller than the spot that was sprayed in it',
    expect: 'treated-more-than-area',
    at: inApplications,
    make(draft, random) {
      const { site, added, area } = sprayInStore(draft, random)
      // 3 ft2 are 0.2787 m2.
      put(draft, siteFile(site), ['areas', area, 'extent'], '0.28 m2')
      return changed(
        draft,
        siteFile(site),
        ['areas', area, 'extent'],
        '0.27 m2',
        reportedAt(added.application, 'areas', area, 'extent'),
      )
    },
  },
  {
    name: 'a spot is recorded as larger than its room',
    expect: 'treated-more-than-area',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayInStore(draft, random)
      put(draft, added.product, [...inLabel, 'spot-at-most'], '500 ft2')
      take(draft, added.application, ['treated-extent'])
      put(draft, added.application, ['areas', area, 'extent'], '200 ft2')
      return changed(draft, added.application, ['areas', area, 'extent'], '201 ft2')
    },
  },
  {
    name: 'more is recorded as sprayed in two rooms than both are large',
    expect: 'treated-more-than-area',
    at: inApplications,
    make(draft, random) {
      const { site, added, area } = sprayInStore(draft, random)
      put(draft, added.product, [...inLabel, 'spot-at-most'], '500 ft2')
      const second = addStoreRoom(draft, site, 'added-store-2')
      const inRoom = { amount: '0.02 fl oz', where: 'along the pipe', 'within-reach': 'no' }
      put(draft, added.application, ['areas'], { [area]: inRoom, [second]: inRoom })
      addVisit(draft, site, added.day + 6, 'follow-up', { inspected: [second] }, 'looked-2')
      put(draft, added.application, ['treated-extent'], '400 ft2')
      return changed(draft, added.application, ['treated-extent'], '401 ft2')
    },
  },
  {
    name: 'an application that was made is left as planned',
    expect: 'planned-day-passed',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      return changed(draft, added.application, ['status'], 'planned')
    },
  },
  {
    name: 'the day of a planned spray was yesterday',
    expect: 'planned-day-passed',
    at: inApplications,
    make(draft, random) {
      const application = plannedFor(draft, random, draft.lastDay)
      const before = copyOf(draft)
      const yesterday = application.replace(isoOf(draft.lastDay), isoOf(draft.lastDay - 1))
      rename(draft, application, yesterday)
      return { ...reportedAt(yesterday, 'status'), before }
    },
  },
  {
    name: 'the last of the days to which a spray was put off is struck out',
    expect: 'planned-day-passed',
    at: inApplications,
    make(draft, random) {
      const application = plannedFor(draft, random, draft.lastDay - 7)
      put(draft, application, ['rain-dates'], [isoOf(draft.lastDay - 1), isoOf(draft.lastDay)])
      const before = copyOf(draft)
      take(draft, application, ['rain-dates', 1])
      return { ...reportedAt(application, 'status'), before }
    },
  },
  ...outdoorApplicationFaults,
]

/** A spray in a room of 200 square feet in which nothing else is recorded. */
function sprayInStore(draft: Draft, random: Random): AddedUse {
  const site = random.pick(sitesOf(draft)) ?? ''
  return useOf(draft, site, addSpray(draft, site, { area: addStoreRoom(draft, site) }))
}

/** Gel of which 500 mg went into a second room. */
function gelInTwoRooms(draft: Draft, random: Random): AddedUse {
  const gel = gelOn(draft, random)
  const { site, added } = gel
  const second = addStoreRoom(draft, site)
  const there = { amount: '500 mg', placements: 1, where: 'hinge voids', 'within-reach': 'no' }
  put(draft, added.application, ['areas', second], there)
  addVisit(draft, site, added.day + 6, 'follow-up', { inspected: [second] }, 'looked-2')
  return gel
}

/** A second spray of the same kind, which is still to be made. */
function plannedFor(draft: Draft, random: Random, day: number): string {
  const { site, added, area } = sprayOn(draft, random)
  const { product = '', pest = '', method = '' } = mapAt(dataOf(draft, added.application))
  const areas = { [area]: { where: 'along the pipe' } }
  const fields = { status: 'planned', product, pest, areas, method }
  return addEvent(draft, site, 'applications', day, technicianOf(draft, site), fields, 'planned')
}
