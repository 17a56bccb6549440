import { isoOf } from '../../../src/measure/calendar.js'
import { addVisit } from '../added.js'
import { addGel } from '../added-applications.js'
import type { AddedUse } from '../added-uses.js'
import { addAgain, addStoreRoom, changed, useOf } from '../added-uses.js'
import type { Data, Draft } from '../draft.js'
import { copyOf, put, rename, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt } from '../fault.js'
import { sitesOf } from '../site-records.js'
import { choiceFaults } from './choice.js'

const inApplications = /^sites\/[^/]+\/applications\//

/** A cockroach that is met nowhere else in these ledgers. */
const rare = 'brown-banded-cockroach'

/** Applications that nothing in the records shows to be needed, or looked at afterwards; then choices of what was applied. */
export const needFaults: readonly FaultKind[] = [
  {
    name: 'it is not written who identified the pest',
    expect: 'pest-not-identified',
    at: inApplications,
    make: (draft, random) => lost(draft, gelInStore(draft, random), ['identified'], 'pest'),
  },
  {
    name: 'an application is against something unidentified',
    expect: 'pest-not-identified',
    at: inApplications,
    make(draft, random) {
      const { added } = gelInStore(draft, random)
      return changed(draft, added.application, ['pest'], 'unidentified')
    },
  },
  {
    name: 'the sighting before an application was of another cockroach',
    expect: 'pest-not-identified',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'identified')
      const visit = sightingBefore(draft, gel, 3)
      const where = reportedAt(gel.added.application, 'pest')
      return changed(draft, visit, ['found', 'seen', 'pest'], 'american-cockroach', where)
    },
  },
  {
    name: 'of two pests only one was seen before an application',
    expect: 'pest-not-identified',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'identified')
      sightingBefore(draft, gel, 3)
      const before = copyOf(draft)
      put(draft, gel.added.application, ['also-against'], ['smokybrown-cockroach'])
      return { ...reportedAt(gel.added.application, 'also-against', 0), before }
    },
  },
  {
    name: 'the only sighting is a day older than what still tells of a pest',
    expect: 'pest-not-identified',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'identified')
      const visit = sightingBefore(draft, gel, 92)
      return dayEarlier(draft, visit, gel.added.day - 92, reportedAt(gel.added.application, 'pest'))
    },
  },
  {
    name: 'an application gives no reason and no count',
    expect: 'need-not-shown',
    at: inApplications,
    make: (draft, random) => lost(draft, gelInStore(draft, random, 'reason'), ['threshold'], 'product'),
  },
  {
    name: 'the sighting that called for an application was in another room',
    expect: 'need-not-shown',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'reason', 'threshold')
      const visit = sightingBefore(draft, gel, 3)
      const where = reportedAt(gel.added.application, 'product')
      return changed(draft, visit, ['found', 'seen', 'area'], 'office', where)
    },
  },
  {
    name: 'what called for an application was an old trace',
    expect: 'need-not-shown',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'reason', 'threshold')
      const visit = sightingBefore(draft, gel, 3, { evidence: 'droppings', age: 'fresh' })
      const where = reportedAt(gel.added.application, 'product')
      return changed(draft, visit, ['found', 'seen', 'age'], 'old', where)
    },
  },
  {
    name: 'the trap that called for an application had caught nothing',
    expect: 'need-not-shown',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'reason', 'threshold')
      const { site, area, added } = gel
      const trap = { kind: 'sticky-trap', area, 'within-reach': 'no' }
      addVisit(draft, site, added.day - 4, 'set-up', { set: { ADDED1: trap } })
      const readings = { ADDED1: { [rare]: 2 } }
      const read = { readings, 'taken-up': { ADDED1: 'no longer needed' } }
      const visit = addVisit(draft, site, added.day - 1, 'trap-check', read)
      const where = reportedAt(added.application, 'product')
      return changed(draft, visit, ['readings', 'ADDED1', rare], 0, where)
    },
  },
  {
    name: 'it is not written what was tried before an application',
    expect: 'nothing-tried-first',
    at: inApplications,
    make: (draft, random) => lost(draft, gelInStore(draft, random), ['tried-first'], 'product'),
  },
  {
    name: 'it is not written that there was nothing to correct',
    expect: 'nothing-tried-first',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'tried-first')
      put(draft, gel.added.application, ['nothing-to-correct'], 'yes')
      return lost(draft, gel, ['nothing-to-correct'], 'product')
    },
  },
  {
    name: 'what was vacuumed before an application was another room',
    expect: 'nothing-tried-first',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'tried-first')
      const visit = vacuumedBefore(draft, gel, 3)
      const where = reportedAt(gel.added.application, 'product')
      return changed(draft, visit, ['actions', 'vacuumed', 'area'], 'office', where)
    },
  },
  {
    name: 'what was done before an application drove insects out with a pesticide',
    expect: 'nothing-tried-first',
    at: inApplications,
    also: { 'treatment-not-recorded': 'a flushing agent is a pesticide, and the visit has no record of one' },
    make(draft, random) {
      const gel = gelInStore(draft, random, 'tried-first')
      const visit = vacuumedBefore(draft, gel, 3)
      const where = reportedAt(gel.added.application, 'product')
      return changed(draft, visit, ['actions', 'vacuumed', 'tactic'], 'flushing', where)
    },
  },
  {
    name: 'what was tried is a day older than what still comes before an application',
    expect: 'nothing-tried-first',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random, 'tried-first')
      const visit = vacuumedBefore(draft, gel, 92)
      return dayEarlier(draft, visit, gel.added.day - 92, reportedAt(gel.added.application, 'product'))
    },
  },
  {
    name: 'the visit that looked at the effect is lost',
    expect: 'effect-not-looked-at',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const before = copyOf(draft)
      draft.files.delete(lookAt(draft, gel))
      return { ...reportedAt(gel.added.application, 'follow-up'), before }
    },
  },
  {
    name: 'the visit that was to look at the effect looked elsewhere',
    expect: 'effect-not-looked-at',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const where = reportedAt(gel.added.application, 'follow-up')
      return changed(draft, lookAt(draft, gel), ['inspected', 0], 'office', where)
    },
  },
  {
    name: 'the effect is looked at on the day after the last',
    expect: 'effect-not-looked-at',
    at: inApplications,
    ended: true,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const look = lookAt(draft, gel)
      // Planned by the very day of the look.
      put(draft, gel.added.application, ['follow-up', 'by'], isoOf(gel.added.day + 7))
      const before = copyOf(draft)
      rename(draft, look, look.replace(isoOf(gel.added.day + 7), isoOf(gel.added.day + 8)))
      return { ...reportedAt(gel.added.application, 'follow-up'), before }
    },
  },
  {
    name: 'no look is planned and none comes within thirty days',
    expect: 'effect-not-looked-at',
    at: inApplications,
    ended: true,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const day = gel.added.day - 45
      const application = addAgain(draft, gel, day, 'sooner')
      take(draft, application, ['follow-up'])
      const look = application
        .replace('/applications/', '/visits/')
        .replace(isoOf(day), isoOf(day + 7))
        .replace('-sooner', '-looked-sooner')
      const lastDay = look.replace(isoOf(day + 7), isoOf(day + 30))
      rename(draft, look, lastDay)
      const before = copyOf(draft)
      rename(draft, lastDay, look.replace(isoOf(day + 7), isoOf(day + 31)))
      return { ...reportedAt(application, 'areas'), before }
    },
  },
  ...choiceFaults,
]

/** Gel against a rare pest in a room where nothing else is recorded, without some of what its record tells. */
function gelInStore(draft: Draft, random: Random, ...without: readonly string[]): AddedUse {
  const site = random.pick(sitesOf(draft)) ?? ''
  const area = addStoreRoom(draft, site)
  const gel = useOf(draft, site, addGel(draft, site, { area, application: { pest: rare } }))
  for (const key of without) take(draft, gel.added.application, [key])
  return gel
}

/** The visit that looked at the effect of an added application. */
function lookAt(draft: Draft, { site, added }: AddedUse): string {
  const start = `sites/${site}/visits/${isoOf(added.day + 7)}-`
  const look = [...draft.files.keys()].find((file) => file.startsWith(start) && file.endsWith('-looked.yaml'))
  if (look === undefined) throw new RangeError(`no look at ${added.application}`)
  return look
}

function sightingBefore(
  draft: Draft,
  { site, added, area }: AddedUse,
  days: number,
  facts: Readonly<Record<string, Data>> = { evidence: 'live', count: 2 },
): string {
  const seen = { pest: rare, area, ...facts }
  return addVisit(draft, site, added.day - days, 'callback', { found: { seen } }, 'seen')
}

function vacuumedBefore(draft: Draft, { site, added, area }: AddedUse, days: number): string {
  const vacuumed = { did: 'vacuumed below the shelves', tactic: 'vacuuming', why: 'corrective', area }
  return addVisit(draft, site, added.day - days, 'callback', { actions: { vacuumed } }, 'vacuumed')
}

/** Keys of an added application are lost. */
function lost(draft: Draft, { added }: AddedUse, keys: readonly string[], at: string) {
  const before = copyOf(draft)
  for (const key of keys) take(draft, added.application, [key])
  return { ...reportedAt(added.application, at), before }
}

function dayEarlier(draft: Draft, file: string, day: number, where: ReturnType<typeof reportedAt>) {
  const before = copyOf(draft)
  rename(draft, file, file.replace(isoOf(day), isoOf(day - 1)))
  return { ...where, before }
}
