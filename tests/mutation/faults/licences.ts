import { isoOf } from '../../../src/measure/calendar.js'
import { addGelByHand, hand, licensed, overseer } from '../added-people.js'
import type { Data, DataMap, Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, take, textAt } from '../draft.js'
import type { Fault, FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { coordinatorOf, siteFile, sitesOf, technicianOf } from '../site-records.js'
import type { PesticideUse } from '../used-products.js'
import { firstAtEachSite, personFile, pesticideUses, recordsAlone } from '../used-products.js'
import { approvalFaults } from './approvals.js'
import { trainingFaults } from './training.js'

const inUses = /^sites\/[^/]+\/(?:applications|visits)\//
const inApplications = /^sites\/[^/]+\/applications\//

const firmFile = 'firms/invented-pest-services.yaml'
const licence = ['licences', 'state-commercial']
const firmLicence = ['licences', 'state-operator']

/** Licences of whoever applies, of whoever supervises, and of their firm; approvals, training, and what is kept. */
export const licenceFaults: readonly FaultKind[] = [
  {
    name: 'the licences of an applicator are not entered',
    expect: 'applicator-without-licence',
    at: inUses,
    make: ofApplicator((draft, who) => take(draft, personFile(who), ['licences'])),
  },
  {
    name: 'who supervised someone without a licence is left out',
    expect: 'applicator-without-licence',
    at: inApplications,
    make: ofHand({}, undefined, 'by', (draft, application) => take(draft, application, ['supervised-by'])),
  },
  {
    name: 'neither who applied nor who supervised has a licence',
    expect: 'applicator-without-licence',
    at: inApplications,
    make: ofHand({}, undefined, 'by', (draft, application) =>
      put(draft, application, ['supervised-by'], coordinatorOf(draft)),
    ),
  },
  {
    name: 'the licence of an applicator ran out the day before the last use',
    expect: 'licence-not-in-force',
    at: inUses,
    make(draft, random) {
      const who = technicianOf(draft, random.pick(sitesOf(draft)) ?? '')
      const last = pesticideUses(draft).findLast(({ by }) => by === who)
      if (!last || !isAloneOf(draft, last)) return null
      return endedBefore(draft, personFile(who), licence, last)
    },
  },
  {
    name: 'a licence was renewed a day late, after a use',
    expect: 'licence-not-in-force',
    at: inUses,
    make(draft, random) {
      const uses = pesticideUses(draft)
      const use = random.pick(recordsAlone(uses))
      if (!use) return null
      const file = personFile(use.by)
      const around = spansAround(draft, file, licence, use.day)
      put(draft, file, [...licence, 'spans'], around(use.day))
      const before = copyOf(draft)
      put(draft, file, [...licence, 'spans'], around(use.day + 1))
      return { where: [use.atBy], before }
    },
  },
  {
    name: 'the licence of who supervised began on the next day',
    expect: 'licence-not-in-force',
    at: inApplications,
    make: ofHand({}, licensed(), 'supervised-by', (draft, _, day) =>
      put(draft, personFile(overseer), ['licences', 'own', 'spans', 0, 'from'], isoOf(day + 1)),
    ),
  },
  {
    name: 'the licence of an applicator is one of the state next door',
    expect: 'licence-of-another-state',
    at: inUses,
    make: ofApplicator((draft, who) => put(draft, personFile(who), [...licence, 'state'], 'WA')),
  },
  {
    name: 'the licence of who supervised is one of the state next door',
    expect: 'licence-of-another-state',
    at: inApplications,
    make: ofHand({}, licensed(), 'supervised-by', (draft) =>
      put(draft, personFile(overseer), ['licences', 'own', 'state'], 'WA'),
    ),
  },
  {
    name: 'the licence of an applicator is for plants only',
    expect: 'licence-without-category',
    at: inUses,
    make: ofApplicator((draft, who) =>
      put(draft, personFile(who), [...licence, 'categories'], ['ornamental']),
    ),
  },
  {
    name: 'the licence of someone who applied shows no category',
    expect: 'licence-without-category',
    at: inApplications,
    make: ofHand(licensed(), undefined, 'by', (draft, application) => {
      take(draft, application, ['supervised-by'])
      put(draft, personFile(hand), ['licences', 'own', 'categories'], [])
    }),
  },
  {
    name: 'who supervised the holder of a lesser licence is left out',
    expect: 'applicator-not-supervised',
    at: inApplications,
    make: ofHand(licensed({ certified: 'no' }), undefined, 'by', (draft, application) =>
      take(draft, application, ['supervised-by']),
    ),
  },
  {
    name: 'who supervised has a lesser licence too',
    expect: 'applicator-not-supervised',
    at: inApplications,
    make: ofHand({}, licensed(), 'supervised-by', (draft) =>
      put(draft, personFile(overseer), ['licences', 'own', 'certified'], 'no'),
    ),
  },
  {
    name: 'the licences of the firm are not entered',
    expect: 'firm-without-licence',
    at: inUses,
    make: ofAll((draft) => take(draft, firmFile, ['licences'])),
  },
  {
    name: 'the licence of the firm is one of the state next door',
    expect: 'firm-without-licence',
    at: inUses,
    make: ofAll((draft) => put(draft, firmFile, [...firmLicence, 'state'], 'WA')),
  },
  {
    name: 'the licence of the firm ran out the day before the last use',
    expect: 'firm-without-licence',
    at: inUses,
    make(draft) {
      const last = recordsAlone(pesticideUses(draft)).at(-1)
      if (!last || !isAloneOf(draft, last)) return null
      return endedBefore(draft, firmFile, firmLicence, last)
    },
  },
  {
    name: 'neither an applicator nor the contract names the firm',
    expect: 'firm-without-licence',
    at: inUses,
    make(draft, random) {
      for (const site of sitesOf(draft))
        for (const n of listAt(dataOf(draft, siteFile(site)), 'contract').keys())
          take(draft, siteFile(site), ['contract', n, 'firm'])
      const before = copyOf(draft)
      const fault = ofApplicator((_, who) => take(draft, personFile(who), ['firm']))(draft, random)
      return fault && { ...fault, before }
    },
  },
  ...approvalFaults,
  ...trainingFaults,
]

/** A fault of one applicator of the ledger, told on the first use at each site. */
function ofApplicator(spoil: (draft: Draft, who: string) => void): FaultKind['make'] {
  return (draft, random) => {
    const who = technicianOf(draft, random.pick(sitesOf(draft)) ?? '')
    const uses = firstAtEachSite(pesticideUses(draft).filter(({ by }) => by === who))
    spoil(draft, who)
    return uses.length === 0 ? null : { where: uses.map(({ atBy }) => atBy) }
  }
}

/** A fault of the firm of them all. */
function ofAll(spoil: (draft: Draft) => void): FaultKind['make'] {
  return (draft) => {
    const uses = firstAtEachSite(pesticideUses(draft))
    spoil(draft)
    return uses.length === 0 ? null : { where: uses.map(({ atBy }) => atBy) }
  }
}

/** Someone new puts gel out, once, with someone else new above them or the technician of the site. */
function ofHand(
  handHolds: DataMap,
  overseerHolds: DataMap | undefined,
  at: 'by' | 'supervised-by',
  spoil: (draft: Draft, application: string, day: number) => void,
): FaultKind['make'] {
  return (draft, random) => {
    const site = random.pick(sitesOf(draft)) ?? ''
    const { application, day } = addGelByHand(draft, site, handHolds, overseerHolds)
    const before = copyOf(draft)
    spoil(draft, application, day)
    return { ...reportedAt(application, at), before }
  }
}

/** Whether no other record tells of a use on that day. */
function isAloneOf(draft: Draft, use: PesticideUse): boolean {
  return recordsAlone(pesticideUses(draft)).some(({ file }) => file === use.file)
}

/** A licence that was good through the day of a use ends on the day before it; what came after is not entered. */
function endedBefore(draft: Draft, file: string, path: readonly string[], use: PesticideUse): Fault {
  const spans = listAt(dataOf(draft, file), ...path, 'spans')
  const kept = spans.filter((span) => (textAt(span, 'from') ?? '') < isoOf(use.day))
  const n = kept.length - 1
  put(draft, file, [...path, 'spans'], kept)
  put(draft, file, [...path, 'spans', n, 'until'], isoOf(use.day))
  const before = copyOf(draft)
  put(draft, file, [...path, 'spans', n, 'until'], isoOf(use.day - 1))
  return { where: [use.atBy], before }
}

/** The spans of a licence, the one around a day parted: the first part ends the day before, the second begins when said. */
function spansAround(draft: Draft, file: string, path: readonly string[], day: number) {
  const spans = listAt(dataOf(draft, file), ...path, 'spans').map((span) => mapAt(span))
  return (again: number): Data =>
    spans.flatMap((span) => {
      const [from = '', until = '9999-12-31'] = [textAt(span, 'from'), textAt(span, 'until')]
      if (isoOf(day) < from || until < isoOf(day)) return [span]
      return [
        { ...span, until: isoOf(day - 1) },
        { ...span, from: isoOf(again) },
      ]
    })
}
