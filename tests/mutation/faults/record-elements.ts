import { addVisit } from '../added.js'
import { addSpray } from '../added-applications.js'
import { policy } from '../added-filings.js'
import type { AddedUse } from '../added-uses.js'
import { addStoreRoom, areaOfKind, filledStation, gelOn, sprayOn } from '../added-uses.js'
import type { Draft, KeyPath } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, take, textAt } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt } from '../fault.js'
import { eventsOf, siteFile, sitesOf, technicianOf } from '../site-records.js'
import { personFile } from '../used-products.js'

const inApplications = /^sites\/[^/]+\/applications\//
const inVisits = /^sites\/[^/]+\/visits\//

/** What the record of an application has to hold and does not. */
export const recordElementFaults: readonly FaultKind[] = [
  {
    name: 'the lot of a gel is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make: without(gelOn, () => ['lot']),
  },
  {
    name: 'how much gel was used is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { added, area } = gelOn(draft, random)
      take(draft, added.application, ['areas', area, 'amount'])
      const before = copyOf(draft)
      take(draft, added.application, ['amount'])
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'the lot of bait put into a station is left out',
    expect: 'application-record-incomplete',
    at: inVisits,
    make(draft, random) {
      const fill = random.pick(refills(draft))
      if (!fill) return null
      take(draft, fill.file, ['readings', fill.device, 'lot'])
      return reportedAt(fill.file, 'readings', fill.device, 'product')
    },
  },
  {
    name: 'how much bait a station was set with is left out',
    expect: 'application-record-incomplete',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      if (!found) return null
      const { id, set } = found.station
      take(draft, set.file, ['set', id, 'bait-added'])
      return reportedAt(set.file, 'set', id, 'product')
    },
  },
  {
    name: 'how much bait each station of a visit was set with is left out',
    expect: 'application-record-incomplete',
    at: inVisits,
    make(draft, random) {
      const file = filledStation(draft, random)?.station.set.file
      if (file === undefined) return null
      const filled = Object.entries(mapAt(dataOf(draft, file), 'set')).filter(
        ([, facts]) => textAt(facts, 'product') === 'block-x',
      )
      const [first] = filled
      if (!first || filled.length < 2) return null
      for (const [id] of filled) take(draft, file, ['set', id, 'bait-added'])
      // Told once, at the first of them.
      return reportedAt(file, 'set', first[0], 'product')
    },
  },
  ...(['equipment', 'lot', 'reason'] as const).map(
    (key): FaultKind => ({
      name: `the ${key} of a spray is left out`,
      expect: 'application-record-incomplete',
      at: inApplications,
      make: without(sprayOn, () => [key]),
    }),
  ),
  {
    name: 'where pupils were during a spray is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make: without(sprayOn, () => ['pupils']),
  },
  {
    name: 'when a spray began and ended is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayOn(draft, random)
      // Late enough for an end at midnight: seven hours after it.
      put(draft, added.application, ['reopened', 'at'], '08:00')
      const before = copyOf(draft)
      take(draft, added.application, ['time'])
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'where in a room was sprayed is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make: without(sprayOn, (area) => ['areas', area, 'where']),
  },
  {
    name: 'where in a room was sprayed is told as a spot, and not which',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      const before = copyOf(draft)
      put(draft, added.application, ['areas', area, 'where'], 'spot treatment')
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'how large the spot was is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      take(draft, added.application, ['areas', area, 'extent'])
      const before = copyOf(draft)
      take(draft, added.application, ['treated-extent'])
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'how much went into each of two rooms is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { site, added, area } = sprayOn(draft, random)
      const second = addStoreRoom(draft, site)
      const inRoom = {
        amount: '0.02 fl oz',
        extent: '1.5 ft2',
        where: 'along the pipe',
        'within-reach': 'no',
      }
      put(draft, added.application, ['areas'], { [area]: inRoom, [second]: inRoom })
      addVisit(draft, site, added.day + 6, 'follow-up', { inspected: [second] }, 'looked-2')
      const before = copyOf(draft)
      take(draft, added.application, ['areas', second, 'amount'])
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'what was sprayed is as large as the short form of a record is no longer for',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const full = ['records', 'applications-on-record', 0]
      const elements = listAt(dataOf(draft, policy), ...full, 'elements')
      put(draft, policy, [...full, 'short-form-under'], '4 ft2')
      put(
        draft,
        policy,
        [...full, 'short-form'],
        elements.filter((element) => element !== 'equipment'),
      )
      const { added, area } = sprayOn(draft, random)
      take(draft, added.application, ['equipment'])
      take(draft, added.application, ['areas', area, 'extent'])
      const before = copyOf(draft)
      put(draft, added.application, ['treated-extent'], '4 ft2')
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'how a concentrate was diluted is left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      alsoAsked(draft, 'dilution')
      const { added } = sprayOn(draft, random, { application: { dilution: { water: '0.04 fl oz' } } })
      put(draft, added.product, ['formulation'], 'emulsifiable-concentrate')
      const before = copyOf(draft)
      take(draft, added.application, ['dilution'])
      return { ...reportedAt(added.application, 'status'), before }
    },
  },
  {
    name: 'the weather is left out where the record has to hold it',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const area = areaOfKind(draft, site, 'playground')
      if (area === undefined) return null
      alsoAsked(draft, 'weather')
      const { application } = addSpray(draft, site, {
        area,
        application: { weather: { wind: '4 mph' }, 'kept-out': { how: 'fence', until: 'reopened' } },
      })
      const before = copyOf(draft)
      take(draft, application, ['weather'])
      return { ...reportedAt(application, 'status'), before }
    },
  },
  {
    name: 'the addresses of a school and of the district are left out',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { site } = sprayOn(draft, random)
      take(draft, siteFile(site), ['address'])
      const before = copyOf(draft)
      take(draft, 'district.yaml', ['address'])
      const [first] = recordedInFull(draft, site)
      return first === undefined ? null : { ...reportedAt(first, 'status'), before }
    },
  },
  {
    name: 'the licence of whoever sprayed is left out where only the record has to show it',
    expect: 'application-record-incomplete',
    at: inApplications,
    make(draft, random) {
      const { site } = sprayOn(draft, random)
      take(draft, policy, ['licences', 'applicator'])
      const who = technicianOf(draft, site)
      const before = copyOf(draft)
      take(draft, personFile(who), ['licences'])
      const where = sitesOf(draft)
        .flatMap((each) => recordedInFull(draft, each))
        .filter((file) => textAt(dataOf(draft, file), 'by') === who)
        .map((file) => ({ file, path: ['status'] }))
      return { where, before }
    },
  },
]

/** A lawful use without one of the things its record holds. */
function without(
  add: (draft: Draft, random: Random) => AddedUse,
  pathIn: (area: string) => KeyPath,
): FaultKind['make'] {
  return (draft, random) => {
    const { added, area } = add(draft, random)
    const before = copyOf(draft)
    take(draft, added.application, pathIn(area))
    return { ...reportedAt(added.application, 'status'), before }
  }
}

/** Bait of which the reading tells the lot. */
function refills(draft: Draft): { readonly file: string; readonly device: string }[] {
  return sitesOf(draft)
    .flatMap((site) => eventsOf(draft, site, 'visits'))
    .flatMap(({ file, data }) =>
      Object.entries(mapAt(data, 'readings'))
        .filter(([, reading]) => textAt(reading, 'product') === 'block-x' && textAt(reading, 'lot'))
        .map(([device]) => ({ file, device })),
    )
}

/** Has the policy ask for one thing more of every record that is held in full. */
function alsoAsked(draft: Draft, element: string): void {
  const path = ['records', 'applications-on-record', 0, 'elements']
  put(draft, policy, path, [...listAt(dataOf(draft, policy), ...path), element])
}

/** Applications of which the policy wants more than product, amount and lot: all but bait out of reach; the oldest first. */
function recordedInFull(draft: Draft, site: string): string[] {
  return eventsOf(draft, site, 'applications')
    .filter(({ data }) => data.status === 'done' && data.method !== 'in-a-station')
    .filter(({ data }) => {
      const product = textAt(data, 'product')
      return textAt(dataOf(draft, `products/${product}/product.yaml`), 'formulation') !== 'gel'
    })
    .map(({ file }) => file)
}
