import { isoOf } from '../../../src/measure/calendar.js'
import { addVisit, idOf, mendedBy } from '../added.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, rename, renameKey, take, textAt } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { coordinatorOf, eventsOf, sitesOf, standingOf, visitsOf } from '../site-records.js'
import { quietVisit } from './reading.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** One name for two things, and records that contradict themselves or leave something open. */
export const contradictionFaults: readonly FaultKind[] = [
  {
    name: 'a device is set again while it stands',
    expect: 'duplicate-id',
    at: inVisits,
    make(draft, random) {
      const device = random.pick(sitesOf(draft).flatMap((site) => standingOf(draft, site, 'sticky-trap')))
      const look = device?.looks.at(-1)
      if (!device || !look) return null
      put(draft, look.visit.file, ['set', device.id], device.facts)
      return reportedAtKey(look.visit.file, 'set', device.id)
    },
  },
  {
    name: 'a device with a count is also said to hold nothing',
    expect: 'duplicate-id',
    at: inVisits,
    make(draft, random) {
      const devices = sitesOf(draft).flatMap((site) => standingOf(draft, site, 'sticky-trap'))
      for (const { id, looks } of random.shuffled(devices)) {
        const look = looks.at(-1)
        if (!look?.reading) continue
        const none = listAt(look.visit.data, 'readings', 'none')
        put(draft, look.visit.file, ['readings', 'none'], [...none, id])
        return reportedAtKey(look.visit.file, 'readings', id)
      }
      return null
    },
  },
  {
    name: 'a rulebook of the district takes the name of one of the program',
    expect: 'duplicate-id',
    at: /^rulebooks\//,
    make(draft) {
      const file = 'rulebooks/practice.yaml'
      draft.files.set(file, ownRulebook)
      return reportedAtKey(file, 'title')
    },
  },
  {
    name: 'a record is by another than its name says',
    expect: 'name-and-content-disagree',
    at: inVisits,
    make(draft, random) {
      const visit = random.pick(sitesOf(draft).flatMap((site) => visitsOf(draft, site)))
      if (!visit) return null
      put(draft, visit.file, ['by'], coordinatorOf(draft))
      return reportedAt(visit.file, 'by')
    },
  },
  {
    name: 'a file is named after another person',
    expect: 'name-and-content-disagree',
    at: inVisits,
    make(draft, random) {
      const visit = quietVisit(draft, random)
      if (!visit) return null
      const file = visit.file.replace(/(\d\d)-[a-z-]+\.yaml$/, `$1-${coordinatorOf(draft)}.yaml`)
      rename(draft, visit.file, file)
      return reportedAt(file, 'by')
    },
  },
  {
    name: 'a paper page was filled in the day before the visit',
    expect: 'name-and-content-disagree',
    at: inVisits,
    make(draft, random) {
      const visit = random.pick(sitesOf(draft).flatMap((site) => visitsOf(draft, site)))
      if (!visit) return null
      put(draft, visit.file, ['on-paper'], isoOf(visit.day - 1))
      return reportedAt(visit.file, 'on-paper')
    },
  },
  {
    name: 'a review was held in another year than its name says',
    expect: 'name-and-content-disagree',
    at: /^reviews\//,
    make(draft, random) {
      const file = random.pick([...draft.files.keys()].filter((path) => path.startsWith('reviews/')))
      const held = textAt(file === undefined ? undefined : dataOf(draft, file), 'held')
      if (file === undefined || held === undefined) return null
      put(draft, file, ['held'], `${Number(held.slice(0, 4)) - 1}${held.slice(4)}`)
      return reportedAt(file, 'held')
    },
  },
  {
    name: 'a short name fits two open conditions',
    expect: 'ambiguous-condition',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const found = (area: string): DataMap => ({
        drip: { new: 'drip under the basin', area, ...mendedBy(draft) },
      })
      const { lastDay } = draft
      addVisit(draft, site, lastDay - 9, 'callback', { conditions: found('custodial') }, 'first')
      const second = addVisit(draft, site, lastDay - 8, 'callback', { conditions: found('boiler') }, 'second')
      const full = `${idOf(second)}/drip`
      const third = addVisit(draft, site, lastDay - 7, 'follow-up', {
        conditions: { [full]: { still: 'dripping' } },
      })
      const before = copyOf(draft)
      renameKey(draft, third, ['conditions', full], 'drip')
      return { ...reportedAtKey(third, 'conditions', 'drip'), before }
    },
  },
  {
    name: 'a condition does not say how it stands',
    expect: 'condition-state',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const drip = { new: 'drip under the basin', area: 'custodial', ...mendedBy(draft) }
      const visit = addVisit(draft, site, draft.lastDay - 9, 'callback', { conditions: { drip } })
      const before = copyOf(draft)
      take(draft, visit, ['conditions', 'drip', 'new'])
      return { ...reportedAtKey(visit, 'conditions', 'drip'), before }
    },
  },
  {
    name: 'a condition is closed and still there at once',
    expect: 'condition-state',
    at: inVisits,
    make(draft, random) {
      const closed = random.pick(
        sitesOf(draft)
          .flatMap((site) => visitsOf(draft, site))
          .flatMap((visit) => {
            const conditions = Object.entries(mapAt(visit.data, 'conditions'))
            return conditions.map(([name, facts]) => ({ visit, name, facts }))
          })
          .filter(({ facts }) => textAt(facts, 'holds') !== undefined),
      )
      if (!closed) return null
      put(draft, closed.visit.file, ['conditions', closed.name, 'closed'], 'found mended')
      return reportedAtKey(closed.visit.file, 'conditions', closed.name)
    },
  },
  {
    name: 'a new condition does not say where it is',
    expect: 'condition-state',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const drip = { new: 'drip under the basin', area: 'custodial', ...mendedBy(draft) }
      const visit = addVisit(draft, site, draft.lastDay - 9, 'callback', { conditions: { drip } })
      const before = copyOf(draft)
      take(draft, visit, ['conditions', 'drip', 'area'])
      return { ...reportedAtKey(visit, 'conditions', 'drip'), before }
    },
  },
  {
    name: 'a sighting names no pest',
    expect: 'sighting-names-no-pest',
    at: inVisits,
    make(draft, random) {
      const sighting = random.pick(deadStrays(draft))
      if (!sighting) return null
      take(draft, sighting.file, ['found', sighting.name, 'pest'])
      return reportedAtKey(sighting.file, 'found', sighting.name)
    },
  },
  {
    name: 'a sighting names a pest and another animal',
    expect: 'sighting-names-no-pest',
    at: inVisits,
    make(draft, random) {
      const sighting = random.pick(deadStrays(draft))
      if (!sighting) return null
      put(draft, sighting.file, ['found', sighting.name, 'other'], 'earwig')
      return reportedAtKey(sighting.file, 'found', sighting.name, 'other')
    },
  },
  {
    name: 'a complaint names a pest and another animal',
    expect: 'sighting-names-no-pest',
    at: /^sites\/[^/]+\/complaints\//,
    make(draft, random) {
      const complaints = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'complaints'))
      const complaint = random.pick(complaints.filter(({ data }) => data.pest !== undefined))
      if (!complaint) return null
      put(draft, complaint.file, ['other'], 'earwig')
      return reportedAtKey(complaint.file, 'other')
    },
  },
  {
    name: 'a blank of a new record is left in a complaint',
    expect: 'left-to-fill-in',
    at: /^sites\/[^/]+\/complaints\//,
    make(draft, random) {
      const complaints = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'complaints'))
      const complaint = random.pick(complaints)
      if (!complaint) return null
      put(draft, complaint.file, ['says'], 'FILL IN')
      return reportedAt(complaint.file, 'says')
    },
  },
  {
    name: 'a blank is left deep in a visit',
    expect: 'left-to-fill-in',
    at: inVisits,
    make(draft, random) {
      const done = sitesOf(draft)
        .flatMap((site) => visitsOf(draft, site))
        .flatMap(({ file, data }) => Object.keys(mapAt(data, 'actions')).map((name) => ({ file, name })))
      const action = random.pick(done)
      if (!action) return null
      put(draft, action.file, ['actions', action.name, 'did'], 'FILL IN')
      return reportedAt(action.file, 'actions', action.name, 'did')
    },
  },
]

/** Sightings of dead animals that ask for nothing. */
function deadStrays(draft: Draft): { file: string; name: string }[] {
  return sitesOf(draft)
    .flatMap((site) => visitsOf(draft, site))
    .flatMap(({ file, data }) =>
      Object.entries(mapAt(data, 'found'))
        .filter(([, facts]) => textAt(facts, 'evidence') === 'dead' && textAt(facts, 'pest') !== undefined)
        .map(([name]) => ({ file, name })),
    )
}

const ownRulebook = `title: Practice of the district
jurisdiction: an invented district
read-on: 2025-01-01
covers: spacing along a run
does-not-cover: [everything else]
parameters:
  run.mouse-spacing:
    - {from: 2020-01-01, value: 15 ft, kind: standard, confidence: read, source: invented for this district}
`
