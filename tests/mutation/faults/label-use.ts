import { isoOf } from '../../../src/measure/calendar.js'
import { addVisit } from '../added.js'
import { areaOfKind, changed, filledStation, gelOn, inLabel, sprayOn } from '../added-uses.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, put, renameKey, take, textAt } from '../draft.js'
import type { FaultKind, Where } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import type { Device } from '../site-records.js'
import { areasOf } from '../site-records.js'
import { labelLimitFaults } from './label-limits.js'

const inApplications = /^sites\/[^/]+\/applications\//
const inVisits = /^sites\/[^/]+\/visits\//

/** Uses that the label in force does not name, and limits of a label that are passed. */
export const labelUseFaults: readonly FaultKind[] = [
  {
    name: 'a gel for indoors is put on the playground',
    expect: 'place-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { site, added, area } = gelOn(draft, random)
      const outdoors = [...areasOf(draft, site)].find(([, facts]) => facts.kind === 'playground')?.[0]
      if (outdoors === undefined) return null
      addVisit(draft, site, added.day + 6, 'follow-up', { inspected: [outdoors] }, 'outdoors')
      const before = copyOf(draft)
      renameKey(draft, added.application, ['areas', area], outdoors)
      return { ...reportedAtKey(added.application, 'areas', outdoors), before }
    },
  },
  {
    name: 'the label of a spray excludes the kind of room it was used in',
    expect: 'place-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { site, added, area } = sprayOn(draft, random)
      const kind = areasOf(draft, site).get(area)?.kind ?? ''
      return changed(
        draft,
        added.product,
        [...inLabel, 'not-in'],
        [kind],
        reportedAtKey(added.application, 'areas', area),
      )
    },
  },
  {
    name: 'a bait station with a block for outdoors is set indoors',
    expect: 'place-not-on-label',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      const indoors = found && areaOfKind(draft, found.site, 'custodial')
      if (!found || indoors === undefined) return null
      const { id, set } = found.station
      const where = firstFills(draft, found.station)
      return changed(draft, set.file, ['set', id, 'area'], indoors, { where })
    },
  },
  {
    name: 'a gel for cockroaches is used against silverfish',
    expect: 'pest-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      return changed(draft, added.application, ['pest'], 'silverfish')
    },
  },
  {
    name: 'an ant is added to what a gel for cockroaches is used against',
    expect: 'pest-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random, {
        application: { 'also-against': ['american-cockroach'] },
      })
      return changed(draft, added.application, ['also-against', 0], 'odorous-house-ant')
    },
  },
  {
    name: 'the label of a gel names another cockroach than the one it was used against',
    expect: 'pest-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      take(draft, added.product, [...inLabel, 'pest-groups'])
      put(draft, added.product, [...inLabel, 'pests'], ['german-cockroach'])
      return changed(
        draft,
        added.product,
        [...inLabel, 'pests', 0],
        'american-cockroach',
        reportedAt(added.application, 'pest'),
      )
    },
  },
  {
    name: 'a station with a block against rodents is said to be for ants',
    expect: 'pest-not-on-label',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      if (!found) return null
      const { id, set } = found.station
      const where = firstFills(draft, found.station)
      put(draft, set.file, ['set', id, 'for'], ['norway-rat'])
      return changed(draft, set.file, ['set', id, 'for'], ['norway-rat', 'pavement-ant'], { where })
    },
  },
  {
    name: 'a gel for cracks is put into a void',
    expect: 'method-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { added } = gelOn(draft, random)
      return changed(draft, added.application, ['method'], 'void')
    },
  },
  {
    name: 'a spray for spots is wiped on',
    expect: 'method-not-on-label',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayOn(draft, random)
      return changed(draft, added.application, ['method'], 'wipe')
    },
  },
  {
    name: 'the label of a gel put into a station names only cracks',
    expect: 'method-not-on-label',
    at: inVisits,
    make(draft, random) {
      const { site, added, area } = gelOn(draft, random)
      put(draft, added.product, [...inLabel, 'methods'], ['crack-and-crevice', 'in-a-station'])
      const visit = addVisit(draft, site, draft.lastDay, 'set-up', {
        set: {
          ADDED1: {
            kind: 'bait-station',
            area,
            for: ['german-cockroach'],
            'within-reach': 'no',
            secured: 'yes',
            marked: 'yes',
            'above-food': 'no',
            'tamper-resistant': 'yes',
            product: 'added-gel',
            'bait-added': '0.5 g',
          },
        },
      })
      return changed(
        draft,
        added.product,
        [...inLabel, 'methods', 1],
        'spot',
        reportedAt(visit, 'set', 'ADDED1', 'product'),
      )
    },
  },
  {
    name: 'gel is put where children reach it',
    expect: 'bait-within-reach',
    at: inApplications,
    make(draft, random) {
      const { added, area } = gelOn(draft, random)
      return changed(draft, added.application, ['areas', area, 'within-reach'], 'yes')
    },
  },
  {
    name: 'a station within reach of children can be opened by them',
    expect: 'bait-within-reach',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      if (!found) return null
      const { id, set } = found.station
      put(draft, set.file, ['set', id, 'within-reach'], 'yes')
      put(draft, set.file, ['set', id, 'tamper-resistant'], 'yes')
      return changed(
        draft,
        set.file,
        ['set', id, 'tamper-resistant'],
        'no',
        reportedAt(set.file, 'set', id, 'within-reach'),
      )
    },
  },
  {
    name: 'a station that children may be able to open is moved within their reach',
    expect: 'bait-within-reach',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      if (!found) return null
      const { id, set } = found.station
      take(draft, set.file, ['set', id, 'tamper-resistant'])
      const moved = { 'within-reach': 'no', 'above-food': 'no', secured: 'yes', marked: 'yes' }
      const visit = addVisit(draft, found.site, draft.lastDay, 'callback', { moved: { [id]: moved } })
      return changed(draft, visit, ['moved', id, 'within-reach'], 'yes')
    },
  },
  ...labelLimitFaults,
]

/** Where a station was first filled under each label that its product had: what is wrong is told once for each. */
function firstFills(draft: Draft, { id, set, looks, facts }: Device): Where[] {
  const product = textAt(facts, 'product')
  const labels = listAt(dataOf(draft, `products/${product}/product.yaml`), 'labels')
  const fills = [
    { day: set.day, where: { file: set.file, path: ['set', id, 'product'] } },
    ...looks
      .filter(({ reading }) => reading?.product === product)
      .map(({ visit }) => ({
        day: visit.day,
        where: { file: visit.file, path: ['readings', id, 'product'] },
      })),
  ]
  return labels.flatMap((label) => {
    const isIn = ({ day }: { readonly day: number }) =>
      (textAt(label, 'from') ?? '') <= isoOf(day) && isoOf(day) <= (textAt(label, 'until') ?? '9')
    return fills.find(isIn)?.where ?? []
  })
}
