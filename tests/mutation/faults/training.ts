import { addMonths, isoOf } from '../../../src/measure/calendar.js'
import { addGelByHand, hand, licensed } from '../added-people.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, mapAt, put, take, textAt } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { coordinatorOf, sitesOf, technicianOf } from '../site-records.js'
import { firstAtEachSite, personFile, pesticideUses } from '../used-products.js'

const inUses = /^sites\/[^/]+\/(?:applications|visits)\//
const inDistrict = /^district\.yaml$/

/** Courses of whoever applies, and of the coordinator. */
export const trainingFaults: readonly FaultKind[] = [
  {
    name: 'the coordinator leaves and nobody is named',
    expect: 'no-coordinator',
    at: inDistrict,
    make(draft) {
      put(draft, 'district.yaml', ['coordinator', 0, 'until'], isoOf(draft.lastDay))
      const before = copyOf(draft)
      put(draft, 'district.yaml', ['coordinator', 0, 'until'], isoOf(draft.lastDay - 1))
      return { ...reportedAt('district.yaml', 'coordinator', 0), before }
    },
  },
  {
    name: 'the next coordinator is named a day late',
    expect: 'no-coordinator',
    at: inDistrict,
    ended: true,
    make(draft) {
      const who = coordinatorOf(draft)
      const next = { from: isoOf(draft.lastDay - 40), who }
      put(draft, 'district.yaml', ['coordinator', 0, 'until'], isoOf(draft.lastDay - 41))
      put(draft, 'district.yaml', ['coordinator', 1], next)
      const before = copyOf(draft)
      put(draft, 'district.yaml', ['coordinator', 1, 'from'], isoOf(draft.lastDay - 39))
      return { ...reportedAt('district.yaml', 'coordinator', 0), before }
    },
  },
  {
    name: 'the courses of an applicator are not entered',
    expect: 'training-missing',
    at: inUses,
    make: ofApplicator((draft, who) => take(draft, personFile(who), ['training'])),
  },
  {
    name: 'an applicator took another course',
    expect: 'training-missing',
    at: inUses,
    make: ofApplicator((draft, who) => {
      for (const id of coursesOf(draft, who))
        put(draft, personFile(who), ['training', id, 'course'], 'turf-care')
    }),
  },
  {
    name: 'the course of someone who applied is older than a year by a day',
    expect: 'training-missing',
    at: inUses,
    make(draft, random) {
      const { application, day } = addGelByHand(draft, random.pick(sitesOf(draft)) ?? '', licensed())
      const oldest = addMonths(day, -12)
      put(draft, personFile(hand), ['training', 'course', 'on'], isoOf(oldest))
      const before = copyOf(draft)
      put(draft, personFile(hand), ['training', 'course', 'on'], isoOf(oldest - 1))
      return { ...reportedAt(application, 'by'), before }
    },
  },
  {
    name: 'the last course of the coordinator is not entered',
    expect: 'training-missing',
    at: inDistrict,
    make(draft) {
      const who = coordinatorOf(draft)
      const last = coursesOf(draft, who).at(-1)
      // Whoever has just begun still has time for the first course.
      put(draft, 'district.yaml', ['coordinator', 0, 'from'], isoOf(draft.lastDay - 800))
      const before = copyOf(draft)
      if (last === undefined) return null
      take(draft, personFile(who), ['training', last])
      return { ...reportedAt('district.yaml', 'coordinator', 0, 'who'), before }
    },
  },
  {
    name: 'the coordinator took the next course a day late',
    expect: 'training-missing',
    at: inDistrict,
    ended: true,
    make(draft) {
      const who = coordinatorOf(draft)
      const again = draft.lastDay - 60
      const course = { topic: 'Pests in schools', course: 'school-ipm' }
      put(draft, 'district.yaml', ['coordinator', 0, 'from'], isoOf(draft.lastDay - 700))
      put(draft, personFile(who), ['training'], {
        // A course counts through the day a year later, and the next one is in time on the day after that.
        first: { on: isoOf(addMonths(again - 1, -12)), ...course },
        second: { on: isoOf(again), ...course },
      })
      const before = copyOf(draft)
      put(draft, personFile(who), ['training', 'second', 'on'], isoOf(again + 1))
      return { ...reportedAt('district.yaml', 'coordinator', 0, 'who'), before }
    },
  },
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

/** The courses someone took that count here, as their record has them, the oldest first. */
function coursesOf(draft: Draft, who: string): string[] {
  return Object.entries(mapAt(dataOf(draft, personFile(who)), 'training'))
    .filter(([, taken]) => textAt(taken, 'course') !== undefined)
    .sort(([, a], [, b]) => ((textAt(a, 'on') ?? '') < (textAt(b, 'on') ?? '') ? -1 : 1))
    .map(([id]) => id)
}
