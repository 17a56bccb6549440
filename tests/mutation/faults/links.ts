import { isoOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit } from '../added.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, renameKey, textAt, textOf } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import {
  coordinatorOf,
  eventsOf,
  routineVisitsOf,
  siteFile,
  sitesOf,
  standingOf,
  visitsOf,
} from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Names that lead nowhere. */
export const linkFaults: readonly FaultKind[] = [
  {
    name: 'an inspected area is misspelt',
    expect: 'dangling-reference',
    at: inVisits,
    make(draft, random) {
      const visit = routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').at(-1)
      const at = listAt(visit?.data, 'inspected').indexOf('playground')
      if (!visit || at < 0) return null
      put(draft, visit.file, ['inspected', at], 'plaground')
      return reportedAt(visit.file, 'inspected', at)
    },
  },
  {
    name: 'a device is read that was never set',
    expect: 'dangling-reference',
    at: inVisits,
    make(draft, random) {
      const visit = routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').at(-1)
      if (!visit) return null
      put(draft, visit.file, ['readings', 'Z99'], { 'ground-beetle': 1 })
      return reportedAtKey(visit.file, 'readings', 'Z99')
    },
  },
  {
    name: 'the site manager met is no one of the district',
    expect: 'dangling-reference',
    at: inVisits,
    make(draft, random) {
      const visit = routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').at(-1)
      if (!visit) return null
      put(draft, visit.file, ['site-manager'], 'nobody')
      return reportedAt(visit.file, 'site-manager')
    },
  },
  {
    name: 'a complaint is answered that was never made',
    expect: 'dangling-reference',
    at: inVisits,
    make(draft, random) {
      const visit = routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').at(-1)
      if (!visit) return null
      const complaint = `${isoOf(visit.day - 1)}-nobody`
      put(draft, visit.file, ['answers', complaint], 'nothing seen')
      return reportedAtKey(visit.file, 'answers', complaint)
    },
  },
  {
    name: 'a condition is seen again that was never found',
    expect: 'dangling-reference',
    at: inVisits,
    make(draft, random) {
      const visit = routineVisitsOf(draft, random.pick(sitesOf(draft)) ?? '').at(-1)
      if (!visit) return null
      put(draft, visit.file, ['conditions', 'loose-tile'], { still: 'loose' })
      return reportedAtKey(visit.file, 'conditions', 'loose-tile')
    },
  },
  {
    name: 'a repair mends a condition that was never found',
    expect: 'dangling-reference',
    at: /^sites\/[^/]+\/repairs\//,
    make(draft, random) {
      const repairs = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'repairs'))
      const repair = random.pick(repairs.filter(({ data }) => data.mends !== undefined))
      if (!repair) return null
      const at = listAt(repair.data, 'mends').length
      put(draft, repair.file, ['mends', at], 'loose-tile')
      return reportedAt(repair.file, 'mends', at)
    },
  },
  {
    name: 'a person’s file is lost',
    expect: 'dangling-reference',
    at: /^sites\/[^/]+\//,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const managers = listAt(dataOf(draft, siteFile(site)), 'site-manager')
      const who = textAt(managers.at(-1), 'who')
      if (who === undefined) return null
      draft.files.delete(`people/${who}.yaml`)
      return {
        where: linesWith(draft, new RegExp(`^(?:by|site-manager): ${who}$|[{ ]who: ${who}(?:[,}]|$)`)),
      }
    },
  },
  {
    name: 'a rulebook of the district is misspelt',
    expect: 'dangling-reference',
    at: /^district\.yaml$/,
    make(draft) {
      const rulebooks = listAt(dataOf(draft, 'district.yaml'), 'rulebooks')
      const path = ['rulebooks', rulebooks.length - 1, 'rulebook']
      put(draft, 'district.yaml', path, 'us-fedral')
      return reportedAt('district.yaml', ...path)
    },
  },
  {
    name: 'a run names a device that was never set',
    expect: 'dangling-reference',
    at: /\/site\.yaml$/,
    make(draft, random) {
      const file = siteFile(random.pick(sitesOf(draft)) ?? '')
      const [name] = Object.keys(mapAt(dataOf(draft, file), 'runs'))
      if (name === undefined) return null
      const at = listAt(dataOf(draft, file), 'runs', name, 'devices').length
      put(draft, file, ['runs', name, 'devices', at], 'Z99')
      return reportedAt(file, 'runs', name, 'devices', at)
    },
  },
  {
    name: 'an application treats an area that is none',
    expect: 'dangling-reference',
    at: /^sites\/[^/]+\/applications\//,
    make(draft, random) {
      const applications = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'applications'))
      const application = random.pick(applications)
      const [area] = Object.keys(mapAt(application?.data, 'areas'))
      if (!application || area === undefined) return null
      renameKey(draft, application.file, ['areas', area], 'kitchn')
      return reportedAtKey(application.file, 'areas', 'kitchn')
    },
  },
  {
    name: 'a device is moved into an area that is none',
    expect: 'dangling-reference',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const trap = random.pick(standingOf(draft, site, 'sticky-trap'))
      if (!trap) return null
      const to = { area: trap.area, 'within-reach': 'no' }
      const visit = addVisit(draft, site, draft.lastDay, 'callback', { moved: { [trap.id]: to } })
      const before = copyOf(draft)
      put(draft, visit, ['moved', trap.id, 'area'], 'kitchn')
      return { ...reportedAt(visit, 'moved', trap.id, 'area'), before }
    },
  },
  {
    name: 'a notice is about an application that is none',
    expect: 'dangling-reference',
    at: /^sites\/[^/]+\/notices\//,
    make(draft, random) {
      const applied = sitesOf(draft).flatMap((site) =>
        eventsOf(draft, site, 'applications').map((application) => ({ site, application })),
      )
      const about = random.pick(applied)
      if (!about) return null
      const { id, day } = about.application
      const posted = { places: ['main entrance'] }
      const fields = { application: id, posted }
      const notice = addEvent(draft, about.site, 'notices', day, coordinatorOf(draft), fields)
      const before = copyOf(draft)
      put(draft, notice, ['application'], `${isoOf(day + 1)}${id.slice(10)}`)
      return { ...reportedAt(notice, 'application'), before }
    },
  },
  {
    name: 'a pest is misspelt in a sighting',
    expect: 'unknown-pest',
    at: inVisits,
    make(draft, random) {
      const found = sitesOf(draft)
        .flatMap((site) => visitsOf(draft, site))
        .flatMap((visit) =>
          Object.entries(mapAt(visit.data, 'found')).map(([name, facts]) => ({ visit, name, facts })),
        )
      // A sign that was acted on or identified later stays what it is for other rules.
      const dead = found.filter(({ facts }) => textAt(facts, 'evidence') === 'dead')
      const sighting = random.pick(dead.filter(({ facts }) => textAt(facts, 'pest') === 'ground-beetle'))
      if (!sighting) return null
      put(draft, sighting.visit.file, ['found', sighting.name, 'pest'], 'ground-betle')
      return reportedAt(sighting.visit.file, 'found', sighting.name, 'pest')
    },
  },
  {
    name: 'a pest is misspelt in a reading',
    expect: 'unknown-pest',
    at: inVisits,
    make(draft, random) {
      const device = random.pick(
        sitesOf(draft)
          .flatMap((site) => standingOf(draft, site, 'sticky-trap'))
          .filter(({ looks }) => looks.at(-1)?.reading?.['ground-beetle'] !== undefined),
      )
      const look = device?.looks.at(-1)
      if (!device || !look) return null
      renameKey(draft, look.visit.file, ['readings', device.id, 'ground-beetle'], 'ground-beatle')
      return reportedAtKey(look.visit.file, 'readings', device.id, 'ground-beatle')
    },
  },
  {
    name: 'a pest is misspelt in a complaint',
    expect: 'unknown-pest',
    at: /^sites\/[^/]+\/complaints\//,
    make(draft, random) {
      const complaints = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'complaints'))
      const complaint = random.pick(complaints.filter(({ data }) => data.pest !== undefined))
      if (!complaint) return null
      put(draft, complaint.file, ['pest'], `${textAt(complaint.data, 'pest')}s`)
      return reportedAt(complaint.file, 'pest')
    },
  },
]

/** Every line of the records of sites that looks like this. */
function linesWith(draft: Draft, pattern: RegExp): { file: string; line: number }[] {
  const files = [...draft.files.keys()].filter((file) => file.endsWith('.yaml'))
  return files.flatMap((file) =>
    textOf(draft, file)
      .split('\n')
      .flatMap((text, at) => (pattern.test(text) ? [{ file, line: at + 1 }] : [])),
  )
}
