import { addMonths, isoOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit } from '../added.js'
import { addGel, addSpray } from '../added-applications.js'
import type { AddedUse } from '../added-uses.js'
import { addAgain, addStoreRoom, areaOfKind, changed, inLabel, useOf } from '../added-uses.js'
import type { Data, Draft } from '../draft.js'
import { copyOf, put, rename, renameKey, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt } from '../fault.js'
import { sitesOf, technicianOf } from '../site-records.js'

const inApplications = /^sites\/[^/]+\/applications\//

/** Products and ways of applying them that were not the best choice. */
export const choiceFaults: readonly FaultKind[] = [
  {
    name: 'the product used in the month between is the same again',
    expect: 'same-mode-of-action',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const { day, application } = gel.added
      addAgain(draft, gel, addMonths(day, -2), 'first')
      const between = addAgain(draft, gel, addMonths(day, -1), 'second', { product: 'gel-a' })
      return changed(draft, between, ['product'], 'added-gel', reportedAt(application, 'product'))
    },
  },
  {
    name: 'the product used in the month between is of the same group by its label',
    expect: 'same-mode-of-action',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const { day, application } = gel.added
      addAgain(draft, gel, addMonths(day, -2), 'first')
      addAgain(draft, gel, addMonths(day, -1), 'second', { product: 'gel-a' })
      const group = ['active-ingredients', 'indoxacarb', 'mode-of-action']
      // Abamectin is of group 6.
      const where = reportedAt(application, 'product')
      return changed(draft, 'products/gel-a/product.yaml', group, '6', where)
    },
  },
  {
    name: 'an application is dated a month later, so that no month is free of it',
    expect: 'same-mode-of-action',
    at: inApplications,
    make(draft, random) {
      const gel = gelInStore(draft, random)
      const { day, application } = gel.added
      const first = addMonths(day, -3)
      const file = addAgain(draft, gel, first, 'first')
      addAgain(draft, gel, addMonths(day, -1), 'second')
      take(draft, file, ['follow-up'])
      const before = copyOf(draft)
      rename(draft, file, file.replace(isoOf(first), isoOf(addMonths(day, -2))))
      return { ...reportedAt(application, 'product'), before }
    },
  },
  {
    name: 'it is not written why a product with a stronger signal word was chosen',
    expect: 'milder-product-on-register',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayInStore(draft, random)
      put(draft, added.product, ['signal-word'], 'warning')
      const before = copyOf(draft)
      take(draft, added.application, ['chosen-because'])
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  {
    name: 'it is not written why ants were sprayed where bait in stations was at hand',
    expect: 'milder-product-on-register',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayInStore(draft, random, { pest: 'odorous-house-ant' })
      const before = copyOf(draft)
      take(draft, added.application, ['chosen-because'])
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  {
    name: 'the signal word of a product is stronger than those of others',
    expect: 'milder-product-on-register',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayInStore(draft, random)
      take(draft, added.application, ['chosen-because'])
      const where = reportedAt(added.application, 'product')
      return changed(draft, added.product, ['signal-word'], 'danger', where)
    },
  },
  {
    name: 'what was sprayed where bait lies drives insects away',
    expect: 'repellent-near-bait',
    at: inApplications,
    make(draft, random) {
      const spray = sprayInStore(draft, random)
      baitAt(draft, spray, -20, spray.area)
      const before = copyOf(draft)
      renameKey(draft, spray.added.product, ['active-ingredients', 'spinosad'], 'deltamethrin')
      return { ...reportedAt(spray.added.application, 'product'), before }
    },
  },
  {
    name: 'bait is placed in the room that was sprayed, not in the one beside it',
    expect: 'repellent-near-bait',
    at: inApplications,
    make(draft, random) {
      const spray = sprayInStore(draft, random)
      put(draft, spray.added.product, ['repellent'], 'yes')
      const beside = addStoreRoom(draft, spray.site, 'added-store-2')
      const bait = baitAt(draft, spray, 5, beside)
      const before = copyOf(draft)
      renameKey(draft, bait, ['areas', beside], spray.area)
      return { ...reportedAt(bait, 'product'), before }
    },
  },
  {
    name: 'bait was placed on the last day on which it is near a spray that drives insects away',
    expect: 'repellent-near-bait',
    at: inApplications,
    make(draft, random) {
      const spray = sprayInStore(draft, random)
      put(draft, spray.added.product, ['repellent'], 'yes')
      const bait = baitAt(draft, spray, -31, spray.area)
      const before = copyOf(draft)
      rename(draft, bait, bait.replace(isoOf(spray.added.day - 31), isoOf(spray.added.day - 30)))
      return { ...reportedAt(spray.added.application, 'product'), before }
    },
  },
  {
    name: 'a station with ant bait stands in the room that is sprayed',
    expect: 'repellent-near-bait',
    at: inApplications,
    make(draft, random) {
      const spray = sprayInStore(draft, random)
      const { site, added, area } = spray
      put(draft, added.product, ['repellent'], 'yes')
      const beside = addStoreRoom(draft, site, 'added-store-2')
      const station = {
        kind: 'bait-station',
        area: beside,
        for: ['odorous-house-ant'],
        'within-reach': 'no',
        'above-food': 'no',
        'tamper-resistant': 'yes',
        product: 'ant-bait-c',
        'bait-added': '1 station',
      }
      const visit = addVisit(draft, site, added.day - 3, 'set-up', { set: { ADDED1: station } })
      addVisit(draft, site, added.day + 1, 'callback', { 'taken-up': { ADDED1: 'no longer needed' } })
      return changed(draft, visit, ['set', 'ADDED1', 'area'], area, reportedAt(added.application, 'product'))
    },
  },
  {
    name: 'the ants that were sprayed are Pharaoh ants',
    expect: 'repellent-on-pharaoh-ants',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayInStore(draft, random, { pest: 'odorous-house-ant' })
      put(draft, added.product, ['repellent'], 'yes')
      const where = reportedAt(added.application, 'product')
      return changed(draft, added.application, ['pest'], 'pharaoh-ant', where)
    },
  },
  {
    name: 'Pharaoh ants are sprayed beside others',
    expect: 'repellent-on-pharaoh-ants',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayInStore(draft, random, { 'also-against': ['odorous-house-ant'] })
      put(draft, added.product, ['repellent'], 'yes')
      const where = reportedAt(added.application, 'product')
      return changed(draft, added.application, ['also-against', 0], 'pharaoh-ant', where)
    },
  },
  {
    name: 'the active ingredient that Pharaoh ants were sprayed with drives them away',
    expect: 'repellent-on-pharaoh-ants',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayInStore(draft, random, { pest: 'pharaoh-ant' })
      const before = copyOf(draft)
      renameKey(draft, added.product, ['active-ingredients', 'spinosad'], 'bifenthrin')
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  ...['broadcast', 'baseboard', 'space'].map(
    (method): FaultKind => ({
      name: `a spot indoors is recorded as ${method}`,
      expect: 'sprayed-widely-indoors',
      at: inApplications,
      make(draft, random) {
        const { added } = sprayInStore(draft, random)
        put(draft, added.product, [...inLabel, 'methods'], ['spot', method])
        return changed(draft, added.application, ['method'], method)
      },
    }),
  ),
  {
    name: 'what was sprayed widely on the playground was a room',
    expect: 'sprayed-widely-indoors',
    at: inApplications,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const outdoors = areaOfKind(draft, site, 'playground')
      if (outdoors === undefined) return null
      const room = addStoreRoom(draft, site)
      const weather = { wind: '4 mph', 'wind-from': 'SW', temperature: '64 F', sky: 'dry' }
      const application = { method: 'broadcast', weather, 'kept-out': { how: 'fence', until: 'reopened' } }
      const added = addSpray(draft, site, { area: outdoors, application })
      put(draft, added.product, [...inLabel, 'methods'], ['spot', 'broadcast'])
      addVisit(draft, site, added.day + 6, 'follow-up', { inspected: [room] }, 'looked-room')
      const before = copyOf(draft)
      renameKey(draft, added.application, ['areas', outdoors], room)
      return { ...reportedAt(added.application, 'method'), before }
    },
  },
]

function gelInStore(draft: Draft, random: Random): AddedUse {
  const site = random.pick(sitesOf(draft)) ?? ''
  return useOf(draft, site, addGel(draft, site, { area: addStoreRoom(draft, site) }))
}

/** A spray in a room where nothing else is recorded. */
function sprayInStore(
  draft: Draft,
  random: Random,
  application: Readonly<Record<string, Data>> = {},
): AddedUse {
  const site = random.pick(sitesOf(draft)) ?? ''
  return useOf(draft, site, addSpray(draft, site, { area: addStoreRoom(draft, site), application }))
}

/** Gel in an area some days after a spray, or before it; a week later its effect is looked at, in both rooms. */
function baitAt(draft: Draft, { site, added, area: sprayed }: AddedUse, days: number, area: string): string {
  const day = added.day + days
  const who = technicianOf(draft, site)
  addVisit(draft, site, day + 4, 'follow-up', { inspected: [...new Set([area, sprayed])] }, 'looked-bait')
  const bait = {
    status: 'done',
    product: 'gel-a',
    pest: 'german-cockroach',
    areas: { [area]: { amount: '2 g', placements: 4, where: 'hinge voids', 'within-reach': 'no' } },
    method: 'crack-and-crevice',
    amount: '2 g',
    time: '20:30 to 20:40',
    lot: 'L-79',
    pupils: 'none in the building',
    identified: { by: who, how: 'nymphs under a hand lens' },
    threshold: '4 nymphs at the hinge',
    reason: 'catch went on after cleaning',
    'tried-first': 'cleaned, vacuumed',
    'chosen-because': 'cleaning alone did not help',
    'follow-up': { by: isoOf(day + 8), look: 'the hinge' },
  }
  return addEvent(draft, site, 'applications', day, who, bait, 'bait')
}
