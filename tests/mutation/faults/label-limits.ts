import { addMonths, isoOf } from '../../../src/measure/calendar.js'
import type { AddedApplication } from '../added-applications.js'
import { addAgain, areaOfKind, changed, filledStation, gelOn, inLabel, sprayOn } from '../added-uses.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, mapAt, put, rename, take } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'

const inApplications = /^sites\/[^/]+\/applications\//
const inVisits = /^sites\/[^/]+\/visits\//
const inProducts = /^products\/[^/]+\/product\.yaml$/

/** More than a label allows: at once, too soon again, or in a year; and amounts that cannot be held against it. */
export const labelLimitFaults: readonly FaultKind[] = [
  {
    name: 'the grams of four placements are recorded for one',
    expect: 'label-rate-exceeded',
    at: inApplications,
    make(draft, random) {
      const { added, area } = gelOn(draft, random)
      return changed(
        draft,
        added.application,
        ['areas', area, 'placements'],
        1,
        reportedAt(added.application, 'areas', area, 'amount'),
      )
    },
  },
  {
    name: 'the amount of a gel is written in ounces where grams were meant',
    expect: 'label-rate-exceeded',
    at: inApplications,
    make(draft, random) {
      const { added, area } = gelOn(draft, random)
      take(draft, added.application, ['areas', area, 'amount'])
      return changed(draft, added.application, ['amount'], '2 oz')
    },
  },
  {
    name: 'a spray went on less than its label asks for the amount',
    expect: 'label-rate-exceeded',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      take(draft, added.application, ['treated-extent'])
      // 16 fl oz per 1000 ft2 are 0.04 fl oz on 2.5 ft2, so 0.04 fl oz on 2.4 ft2 is more.
      put(draft, added.application, ['areas', area, 'extent'], '2.5 ft2')
      return changed(
        draft,
        added.application,
        ['areas', area, 'extent'],
        '2.4 ft2',
        reportedAt(added.application, 'areas', area, 'amount'),
      )
    },
  },
  {
    name: 'one block more than the label lets a station hold',
    expect: 'label-rate-exceeded',
    at: inVisits,
    make(draft, random) {
      const found = filledStation(draft, random)
      if (!found) return null
      const { id, set } = found.station
      put(draft, set.file, ['set', id, 'bait-added'], '16 block')
      return changed(
        draft,
        set.file,
        ['set', id, 'bait-added'],
        '17 block',
        reportedAt(set.file, 'set', id, 'product'),
      )
    },
  },
  {
    name: 'the label asks for a day more between two applications',
    expect: 'label-interval-too-short',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const { added } = gel
      addAgain(draft, gel, gel.added.day - 14, 'sooner')
      put(draft, added.product, [...inLabel, 'interval'], '14 days')
      return changed(
        draft,
        added.product,
        [...inLabel, 'interval'],
        '15 days',
        reportedAt(added.application, 'product'),
      )
    },
  },
  {
    name: 'an application is dated a day later, within a month of the next',
    expect: 'label-interval-too-short',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const { added } = gel
      const month = addMonths(added.day, -1)
      const sooner = addAgain(draft, gel, month, 'sooner')
      put(draft, added.product, [...inLabel, 'interval'], '1 month')
      const before = copyOf(draft)
      rename(draft, sooner, sooner.replace(isoOf(month), isoOf(month + 1)))
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  {
    name: 'a place is treated a third time where the label has two in a year',
    expect: 'label-yearly-limit-exceeded',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const { added } = gel
      put(draft, added.product, [...inLabel, 'applications-a-year'], 2)
      // Every second month, since a pest that is treated alike month after month is told as such.
      addAgain(draft, gel, added.day - 120, 'first')
      const before = copyOf(draft)
      addAgain(draft, gel, added.day - 60, 'second')
      return { ...reportedAt(added.application, 'product'), before }
    },
  },
  {
    name: 'no room is treated twice but the site is, where the label has one application in a year',
    expect: 'label-yearly-limit-exceeded',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const { site, added, area } = gel
      const other = areaOfKind(draft, site, area === 'office' ? 'custodial' : 'office')
      if (other === undefined) return null
      const facts = mapAt(dataOf(draft, added.application), 'areas', area)
      addAgain(draft, gel, gel.added.day - 30, 'first', { areas: { [other]: facts } })
      put(draft, added.product, [...inLabel, 'applications-a-year'], 2)
      return changed(
        draft,
        added.product,
        [...inLabel, 'applications-a-year'],
        1,
        reportedAt(added.application, 'product'),
      )
    },
  },
  {
    name: 'the two uses of a year come to more than the label has in all',
    expect: 'label-yearly-limit-exceeded',
    at: inApplications,
    make(draft, random) {
      const gel = gelOn(draft, random)
      const { added } = gel
      addAgain(draft, gel, gel.added.day - 30, 'first')
      put(draft, added.product, [...inLabel, 'amount-a-year'], '4 g')
      return changed(
        draft,
        added.product,
        [...inLabel, 'amount-a-year'],
        '3.9 g',
        reportedAt(added.application, 'amount'),
      )
    },
  },
  {
    name: 'two spots are recorded as one',
    expect: 'spot-too-large',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      spots(draft, added, area)
      return changed(
        draft,
        added.application,
        ['areas', area, 'placements'],
        1,
        reportedAt(added.application, 'areas', area, 'extent'),
      )
    },
  },
  {
    name: 'it is not written how many spots there were',
    expect: 'spot-too-large',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      spots(draft, added, area)
      const before = copyOf(draft)
      take(draft, added.application, ['areas', area, 'placements'])
      return { ...reportedAt(added.application, 'areas', area, 'extent'), before }
    },
  },
  {
    name: 'the label has a spot smaller than it was',
    expect: 'spot-too-large',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      put(draft, added.product, [...inLabel, 'spot-at-most'], '3 ft2')
      return changed(
        draft,
        added.product,
        [...inLabel, 'spot-at-most'],
        '2 ft2',
        reportedAt(added.application, 'areas', area, 'extent'),
      )
    },
  },
  {
    name: 'the fluid ounces of a label are entered as ounces',
    expect: 'weight-rate-of-a-liquid',
    at: inProducts,
    make(draft, random) {
      const { added } = sprayOn(draft, random)
      return changed(draft, added.product, [...inLabel, 'rates', 'floor', 'at-most'], '16 oz')
    },
  },
  {
    name: 'the fluid ounces that were sprayed are written as ounces',
    expect: 'weight-rate-of-a-liquid',
    at: inApplications,
    make(draft, random) {
      const { added, area } = sprayOn(draft, random)
      take(draft, added.application, ['amount'])
      return changed(draft, added.application, ['areas', area, 'amount'], '0.04 oz')
    },
  },
  {
    name: 'the density of a liquid whose label is in pounds is lost',
    expect: 'weight-rate-of-a-liquid',
    at: inApplications,
    make(draft, random) {
      const { added } = sprayOn(draft, random)
      // 1 lb of a liquid of 8 lb per gallon is an eighth of a gallon: the 16 fl oz of the label as it was.
      put(draft, added.product, ['density'], '8 lb/gal')
      put(draft, added.product, [...inLabel, 'rates', 'floor', 'at-most'], '1 lb')
      const before = copyOf(draft)
      take(draft, added.product, ['density'])
      return { ...reportedAt(added.application, 'amount'), before }
    },
  },
]

/** Two spots of 2.5 square feet each; one of 5 would be more than a spot is. */
function spots(draft: Draft, { application }: AddedApplication, area: string): void {
  take(draft, application, ['treated-extent'])
  put(draft, application, ['areas', area, 'extent'], '5 ft2')
  put(draft, application, ['areas', area, 'placements'], 2)
}
