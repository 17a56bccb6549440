import { isoOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit, idOf } from '../added.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, mapAt, put, take, textAt } from '../draft.js'
import type { Fault, FaultKind, Random } from '../fault.js'
import { reportedAt } from '../fault.js'
import {
  areasIn,
  areasOf,
  devicesOf,
  eventsOf,
  routineVisitsOf,
  sitesOf,
  standingOf,
  technicianOf,
  visitsOf,
} from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Signs of a pest to which nothing answers. */
export const signFaults: readonly FaultKind[] = [
  {
    name: 'a sighting stays tentative',
    expect: 'sighting-unidentified',
    at: inVisits,
    make(draft, random) {
      const old = sightings(draft).filter(
        ({ day, facts }) => day < draft.lastDay - 31 && textAt(facts, 'evidence') === 'dead',
      )
      const sighting = random.pick(
        old.filter(({ facts }) => facts.pest !== undefined && facts.identified === undefined),
      )
      if (!sighting) return null
      put(draft, sighting.file, ['found', sighting.name, 'identified'], 'tentative')
      return reportedAt(sighting.file, 'found', sighting.name, 'identified')
    },
  },
  {
    name: 'a sighting is never identified',
    expect: 'sighting-unidentified',
    at: inVisits,
    make(draft, random) {
      const old = sightings(draft).filter(
        ({ day, facts }) => day < draft.lastDay - 31 && textAt(facts, 'evidence') === 'dead',
      )
      const sighting = random.pick(old.filter(({ facts }) => facts.pest !== undefined))
      if (!sighting) return null
      put(draft, sighting.file, ['found', sighting.name, 'pest'], 'unidentified')
      put(draft, sighting.file, ['found', sighting.name, 'looks'], '5 mm, brown, dried up')
      return reportedAt(sighting.file, 'found', sighting.name, 'pest')
    },
  },
  {
    name: 'the answer of who identified a specimen is lost',
    expect: 'sighting-unidentified',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const day = draft.lastDay - 45
      const flies = {
        pest: 'unidentified',
        area: 'custodial',
        evidence: 'live',
        looks: '3 mm, brown, humped back',
      }
      const visit = addVisit(draft, site, day, 'callback', { found: { 'small-flies': flies } })
      const specimen = addEvent(draft, site, 'specimens', day, technicianOf(draft, site), {
        sighting: `${idOf(visit)}/small-flies`,
        kept: 'alcohol vial 1, coordinator office',
        determined: { as: 'phorid-fly', by: 'county extension office', on: isoOf(day + 9), sure: 'sure' },
      })
      const before = copyOf(draft)
      take(draft, specimen, ['determined'])
      return { ...reportedAt(visit, 'found', 'small-flies', 'pest'), before }
    },
  },
  {
    name: 'mud tubes are found and nothing is done',
    expect: 'termite-sign-no-action',
    at: inVisits,
    make(draft, random) {
      return unanswered(draft, random, {
        daysAgo: 15,
        sign: { pest: 'western-subterranean-termite', evidence: 'mud-tube', age: 'fresh' },
        action: { did: 'structural inspector called', tactic: 'referral', why: 'corrective' },
        key: 'evidence',
      })
    },
  },
  {
    name: 'a termite station is active and nothing is done',
    expect: 'termite-sign-no-action',
    at: inVisits,
    make(draft, random) {
      const stations = sitesOf(draft).flatMap((site) =>
        standingOf(draft, site, 'termite-station').map((station) => ({ site, station })),
      )
      for (const { site, station } of random.shuffled(stations)) {
        const look = station.looks.findLast(({ visit }) => visit.day < draft.lastDay - 8)
        const pest = 'western-subterranean-termite'
        if (!look || !isLeftAloneSince(draft, site, station.area, look.visit.day, ['follow-up', 'callback']))
          continue
        put(draft, look.visit.file, ['readings', station.id, 'active'], 'yes')
        const action = { did: 'structural inspector called', tactic: 'referral', why: 'corrective', pest }
        put(draft, look.visit.file, ['actions', 'inspector-called'], action)
        const before = copyOf(draft)
        take(draft, look.visit.file, ['actions', 'inspector-called'])
        return { ...reportedAt(look.visit.file, 'readings', station.id, 'active'), before }
      }
      return null
    },
  },
  {
    name: 'a wasp nest is found and nothing is done',
    expect: 'social-nest-no-action',
    at: inVisits,
    make(draft, random) {
      return unanswered(draft, random, {
        daysAgo: 5,
        sign: { pest: 'paper-wasp', evidence: 'nest', 'nest-state': 'active' },
        action: { did: 'taped off, office told', tactic: 'restriction', why: 'corrective' },
        key: 'evidence',
      })
    },
  },
  {
    name: 'cockroaches run by day and no one comes back',
    expect: 'cockroach-by-day-no-follow-up',
    at: inVisits,
    make(draft, random) {
      const since = (site: string) =>
        draft.lastDay - (routineVisitsOf(draft, site).at(-1)?.day ?? draft.lastDay)
      const site = random.pick(sitesOf(draft).filter((id) => since(id) > 9))
      if (site === undefined) return null
      return unanswered(draft, random, {
        daysAgo: since(site) - 1,
        sign: { pest: 'german-cockroach', evidence: 'live', 'by-day': 'yes' },
        action: { did: 'vacuumed behind the cupboard', tactic: 'vacuuming', why: 'corrective' },
        key: 'by-day',
        site,
      })
    },
  },
]

function sightings(draft: Draft) {
  return sitesOf(draft)
    .flatMap((site) => visitsOf(draft, site))
    .flatMap(({ file, day, data }) =>
      Object.entries(mapAt(data, 'found')).map(([name, facts]) => ({ file, day, name, facts: mapAt(facts) })),
    )
}

interface Unanswered {
  readonly daysAgo: number
  readonly sign: DataMap
  readonly action: DataMap
  /** Key of the sign at which it is reported. */
  readonly key: string
  readonly site?: string
}

/** A visit that saw a sign in an area where no one was afterwards, with what was done left out. */
function unanswered(draft: Draft, random: Random, how: Unanswered): Fault | null {
  const site = how.site ?? random.pick(sitesOf(draft)) ?? ''
  const day = draft.lastDay - how.daysAgo
  const anyVisit = how.key === 'by-day'
  const purposes = anyVisit
    ? ['routine', 'follow-up', 'callback', 'trap-check', 'set-up']
    : ['follow-up', 'callback']
  const areas = [...areasOf(draft, site).keys()].filter((area) =>
    isLeftAloneSince(draft, site, area, day, purposes),
  )
  const area = random.pick(areas)
  if (area === undefined) return null
  const visit = addVisit(draft, site, day, 'callback', {
    found: { seen: { ...how.sign, area } },
    actions: { done: { ...how.action, area, pest: how.sign.pest ?? '' } },
  })
  const before = copyOf(draft)
  take(draft, visit, ['actions', 'done'])
  return { ...reportedAt(visit, 'found', 'seen', how.key), before }
}

/** Whether no visit of these purposes was in an area after a day, and nothing was applied or done there. */
function isLeftAloneSince(
  draft: Draft,
  site: string,
  area: string,
  day: number,
  purposes: readonly string[],
): boolean {
  const devices = devicesOf(draft, site)
  const visited = visitsOf(draft, site).some(
    (visit) =>
      visit.day > day &&
      purposes.includes(textAt(visit.data, 'purpose') ?? '') &&
      areasIn(visit, devices).has(area),
  )
  const acted = visitsOf(draft, site).some(
    (visit) =>
      visit.day >= day &&
      Object.values(mapAt(visit.data, 'actions')).some((action) => textAt(action, 'area') === area),
  )
  const applied = eventsOf(draft, site, 'applications').some(
    (application) => application.day >= day && mapAt(application.data, 'areas')[area] !== undefined,
  )
  return !visited && !acted && !applied
}
