import type { ToldSpray } from '../added-notices.js'
import {
  addCancelled,
  addCopy,
  addEmergencySpray,
  addToldSpray,
  dated,
  faultAfter,
} from '../added-notices.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, put, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { emergencyFaults } from './emergencies.js'
import { postingFaults } from './postings.js'

const inNotices = /^sites\/[^/]+\/notices\//
const inApplications = /^sites\/[^/]+\/applications\//

/** Notices about a lawful spray, and what goes wrong with one. */
const toldFaults: readonly FaultKind[] = [
  {
    name: 'the record of a notice is lost',
    expect: 'notice-missing',
    at: inApplications,
    make: faultAfter(addToldSpray, (draft, { notice, application }) => {
      draft.files.delete(notice)
      return reportedAt(application, 'product')
    }),
  },
  {
    name: 'a notice names the application that was cancelled',
    expect: 'notice-missing',
    at: inApplications,
    make(draft, random) {
      const told = addToldSpray(draft, random)
      const cancelled = addCancelled(draft, told)
      const before = copyOf(draft)
      put(draft, told.notice, ['application'], cancelled)
      return { ...reportedAt(told.application, 'product'), before }
    },
  },
  {
    name: 'a notice goes to parents and not to staff',
    expect: 'notice-missing',
    at: inApplications,
    make: faultAfter(addToldSpray, (draft, { notice, application }) => {
      put(draft, notice, ['sent', 'to'], 'all parents')
      return reportedAt(application, 'product')
    }),
  },
  {
    name: 'a notice is sent a minute after the last moment for it',
    expect: 'notice-late',
    at: inNotices,
    make: faultAfter(toldAtTheLastMoment, (draft, { notice }) => {
      put(draft, notice, ['sent', 'at'], '20:01')
      return reportedAt(notice, 'sent', 'at')
    }),
  },
  {
    name: 'an application begins an hour sooner than its notice allows for',
    expect: 'notice-late',
    at: inNotices,
    make: faultAfter(toldAtTheLastMoment, (draft, { notice, application }) => {
      put(draft, application, ['time'], '19:00 to 20:20')
      return reportedAt(notice, 'sent', 'at')
    }),
  },
  {
    name: 'a notice of the last day for it has no hour',
    expect: 'notice-late',
    at: inNotices,
    make: faultAfter(toldAtTheLastMoment, (draft, { notice }) => {
      take(draft, notice, ['sent', 'at'])
      return reportedAt(notice, 'application')
    }),
  },
  {
    name: 'a notice is dated the day after the application',
    expect: 'notice-late',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { notice, day }) =>
      reportedAt(dated(draft, notice, day + 1), 'sent', 'at'),
    ),
  },
  {
    name: 'an application is no longer stated as an emergency',
    expect: 'notice-late',
    at: inNotices,
    also: { 'posting-late': 'signs of an emergency hang from its start, others from days before' },
    make(draft, random) {
      const { application, notice } = addEmergencySpray(draft, random)
      const before = copyOf(draft)
      take(draft, application, ['emergency'])
      return { ...reportedAt(notice, 'sent', 'at'), before }
    },
  },
  {
    name: 'a notice is dated a day before the first one for it',
    expect: 'notice-too-early',
    at: inNotices,
    make(draft, random) {
      const { notice, day } = addToldSpray(draft, random)
      // 30 days at most: the first of them is lawful from its first minute on.
      const first = dated(draft, notice, day - 30)
      put(draft, first, ['sent', 'at'], '00:00')
      const before = copyOf(draft)
      return { ...reportedAt(dated(draft, first, day - 31), 'sent', 'at'), before }
    },
  },
  {
    name: 'of two notices the one in time is lost, and the other was too early by a minute',
    expect: 'notice-too-early',
    at: inNotices,
    make(draft, random) {
      const { notice, day } = addToldSpray(draft, random)
      const early = dated(draft, addCopy(draft, notice, 'early'), day - 31)
      put(draft, early, ['sent', 'at'], '23:59')
      const before = copyOf(draft)
      draft.files.delete(notice)
      return { ...reportedAt(early, 'sent', 'at'), before }
    },
  },
  {
    name: 'a notice goes to those who asked where all are to be told',
    expect: 'notice-to-too-few',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { notice }) => {
      put(draft, notice, ['sent', 'to'], 'those who asked')
      return reportedAt(notice, 'sent', 'to')
    }),
  },
  {
    name: 'of parents only those who asked are told, and all of staff',
    expect: 'notice-to-too-few',
    at: inNotices,
    make(draft, random) {
      const { notice } = addToldSpray(draft, random)
      put(draft, addCopy(draft, notice, 'staff'), ['sent', 'to'], 'all staff')
      put(draft, notice, ['sent', 'to'], 'all parents')
      const before = copyOf(draft)
      put(draft, notice, ['sent', 'to'], 'those who asked')
      return { ...reportedAt(notice, 'sent', 'to'), before }
    },
  },
  {
    name: 'a notice leaves out one of the facts asked',
    expect: 'notice-incomplete',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { notice }, random) => {
      const says = listAt(dataOf(draft, notice), 'sent', 'says')
      take(draft, notice, ['sent', 'says', random.below(says.length)])
      return reportedAt(notice, 'sent', 'says')
    }),
  },
  {
    name: 'what a notice said is not recorded',
    expect: 'notice-incomplete',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { notice }) => {
      take(draft, notice, ['sent', 'says'])
      return reportedAtKey(notice, 'sent')
    }),
  },
  {
    name: 'a notice is kept as a file, and what it said is not listed',
    expect: 'notice-incomplete',
    at: inNotices,
    make: faultAfter(addToldSpray, (draft, { site, notice }) => {
      draft.files.set(`sites/${site}/notices/letter.txt`, 'An invented letter.\n')
      put(draft, notice, ['text'], 'letter.txt')
      take(draft, notice, ['sent', 'says'])
      return reportedAtKey(notice, 'sent')
    }),
  },
]

export const noticeFaults: readonly FaultKind[] = [...toldFaults, ...postingFaults, ...emergencyFaults]

/** The notice is sent on the Tuesday at 20:00: 72 hours before the application begins, and the clocks are not set between. */
function toldAtTheLastMoment(draft: Draft, random: Random): ToldSpray {
  const told = addToldSpray(draft, random)
  const notice = dated(draft, told.notice, told.day - 3)
  put(draft, notice, ['sent', 'at'], '20:00')
  return { ...told, notice }
}
