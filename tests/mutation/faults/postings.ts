import { isoOf } from '../../../src/measure/calendar.js'
import type { ToldSpray } from '../added-notices.js'
import { addCancelled, addToldSpray, dated, faultAfter } from '../added-notices.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, put, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'

const inNotices = /^sites\/[^/]+\/notices\//
const inApplications = /^sites\/[^/]+\/applications\//

/** Signs about a lawful spray, and what goes wrong with them. */
export const postingFaults: readonly FaultKind[] = [
  {
    name: 'the record of signs is lost',
    expect: 'posting-missing',
    at: inApplications,
    make: faultAfter(addToldSpray, (draft, { signs, application }) => {
      draft.files.delete(signs)
      return reportedAt(application, 'product')
    }),
  },
  {
    name: 'the record of signs names the application that was cancelled',
    expect: 'posting-missing',
    at: inApplications,
    make(draft, random) {
      const told = addToldSpray(draft, random)
      const cancelled = addCancelled(draft, told)
      const before = copyOf(draft)
      put(draft, told.signs, ['application'], cancelled)
      return { ...reportedAt(told.application, 'product'), before }
    },
  },
  {
    name: 'signs are put up a minute after the last moment for it',
    expect: 'posting-late',
    at: inNotices,
    make: faultAfter(postedAtTheLastMoment, (draft, { signs }) => {
      put(draft, signs, ['posted', 'at'], '20:01')
      return reportedAt(signs, 'posted', 'at')
    }),
  },
  {
    name: 'signs put up on the last day for it have no hour',
    expect: 'posting-late',
    at: inNotices,
    make: faultAfter(postedAtTheLastMoment, (draft, { signs }) => {
      take(draft, signs, ['posted', 'at'])
      return reportedAt(signs, 'application')
    }),
  },
  {
    name: 'signs are put up the day after the application',
    expect: 'posting-late',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs, day }) =>
      reportedAt(dated(draft, signs, day + 1), 'posted', 'at'),
    ),
  },
  {
    name: 'signs are printed on a narrower sheet',
    expect: 'posting-too-small',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs }) => {
      // A4, ISO 216, from memory: its short side is 21 cm, and 8.5 in are 21.59 cm.
      put(draft, signs, ['posted', 'size'], '21 x 29.7 cm')
      return reportedAt(signs, 'posted', 'size')
    }),
  },
  {
    name: 'the short side of signs lacks a tenth of a millimetre',
    expect: 'posting-too-small',
    at: inNotices,
    make(draft, random) {
      const { signs } = addToldSpray(draft, random)
      // 2.54 cm to the inch: 8.5 in are 21.59 cm, 11 in are 27.94 cm; they may hang either way.
      put(draft, signs, ['posted', 'size'], '27.94 x 21.59 cm')
      const before = copyOf(draft)
      put(draft, signs, ['posted', 'size'], '27.94 x 21.58 cm')
      return { ...reportedAt(signs, 'posted', 'size'), before }
    },
  },
  {
    name: 'the size of signs is not recorded',
    expect: 'posting-too-small',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs }) => {
      take(draft, signs, ['posted', 'size'])
      return reportedAtKey(signs, 'posted')
    }),
  },
  {
    name: 'signs hang at one kind of place only',
    expect: 'posting-not-everywhere',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs }, random) => {
      take(draft, signs, ['posted', 'at-the', random.below(2)])
      return reportedAt(signs, 'posted', 'at-the')
    }),
  },
  {
    name: 'at which kinds of places signs hung is not recorded',
    expect: 'posting-not-everywhere',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs }) => {
      take(draft, signs, ['posted', 'at-the'])
      return reportedAt(signs, 'posted', 'places')
    }),
  },
  {
    name: 'a sign leaves out one of the facts asked',
    expect: 'posting-incomplete',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs }, random) => {
      const says = listAt(dataOf(draft, signs), 'posted', 'says')
      take(draft, signs, ['posted', 'says', random.below(says.length)])
      return reportedAt(signs, 'posted', 'says')
    }),
  },
  {
    name: 'what a sign said is not recorded',
    expect: 'posting-incomplete',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs }) => {
      take(draft, signs, ['posted', 'says'])
      return reportedAtKey(signs, 'posted')
    }),
  },
  {
    name: 'signs are taken down a minute too early',
    expect: 'posting-removed-early',
    at: inNotices,
    make(draft, random) {
      const { signs, day } = addToldSpray(draft, random)
      const hour = hourAfterThreeDays(day)
      put(draft, signs, ['posted', 'taken-down'], isoOf(day + 3))
      put(draft, signs, ['posted', 'taken-down-at'], `${hour}:20`)
      const before = copyOf(draft)
      put(draft, signs, ['posted', 'taken-down-at'], `${hour}:19`)
      return { ...reportedAt(signs, 'posted', 'taken-down-at'), before }
    },
  },
  {
    name: 'signs are taken down on the morning after',
    expect: 'posting-removed-early',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { signs, day }) => {
      put(draft, signs, ['posted', 'taken-down'], isoOf(day + 1))
      return reportedAt(signs, 'posted', 'taken-down-at')
    }),
  },
  {
    name: 'signs taken down on the last day of the time have no hour',
    expect: 'posting-removed-early',
    at: inNotices,
    make(draft, random) {
      const { signs, day } = addToldSpray(draft, random)
      put(draft, signs, ['posted', 'taken-down'], isoOf(day + 3))
      put(draft, signs, ['posted', 'taken-down-at'], '23:00')
      const before = copyOf(draft)
      take(draft, signs, ['posted', 'taken-down-at'])
      return { ...reportedAt(signs, 'posted', 'taken-down'), before }
    },
  },
]

/**
 * The hour in which 72 hours end that began on a Friday at 20:20. On the second Sunday of March the clock is set an hour
 * forward (15 U.S.C. 260a, from memory), so that it shows an hour more.
 */
export function hourAfterThreeDays(friday: number): number {
  const sunday = isoOf(friday + 2)
  const isSetForward = sunday.slice(5, 7) === '03' && sunday.slice(8) >= '08' && sunday.slice(8) <= '14'
  return isSetForward ? 21 : 20
}

/** The signs are put up on the Tuesday at 20:00: 72 hours before the application begins. */
function postedAtTheLastMoment(draft: Draft, random: Random): ToldSpray {
  const told = addToldSpray(draft, random)
  const signs = dated(draft, told.signs, told.day - 3)
  put(draft, signs, ['posted', 'at'], '20:00')
  return { ...told, signs }
}
