import { isoOf } from '../../../src/measure/calendar.js'
import { addEmergencySpray, dated, faultAfter } from '../added-notices.js'
import { copyOf, put, take } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { hourAfterThreeDays } from './postings.js'

const inNotices = /^sites\/[^/]+\/notices\//
const inApplications = /^sites\/[^/]+\/applications\//

/** A spray that could not wait, stated, told and posted as it has to be, and what goes wrong with that. */
export const emergencyFaults: readonly FaultKind[] = [
  {
    name: 'the statement of an emergency is not signed',
    expect: 'emergency-without-statement',
    at: inApplications,
    make: faultAfter(addEmergencySpray, (draft, { application }) => {
      take(draft, application, ['emergency', 'signed'])
      return reportedAtKey(application, 'emergency')
    }),
  },
  {
    name: 'how the next emergency is prevented is left out',
    expect: 'emergency-without-statement',
    at: inApplications,
    make: faultAfter(addEmergencySpray, (draft, { application }) => {
      take(draft, application, ['emergency', 'prevention'])
      return reportedAtKey(application, 'emergency')
    }),
  },
  {
    name: 'the notice after an emergency is lost',
    expect: 'emergency-notice-late',
    at: inApplications,
    make: faultAfter(addEmergencySpray, (draft, { application, notice }) => {
      draft.files.delete(notice)
      return reportedAtKey(application, 'emergency')
    }),
  },
  {
    name: 'after an emergency parents are told and staff are not',
    expect: 'emergency-notice-late',
    at: inApplications,
    make: faultAfter(addEmergencySpray, (draft, { application, notice }) => {
      put(draft, notice, ['sent', 'to'], 'all parents')
      return reportedAtKey(application, 'emergency')
    }),
  },
  {
    name: 'the notice after an emergency is sent a minute too late',
    expect: 'emergency-notice-late',
    at: inNotices,
    make(draft, random) {
      const { notice } = addEmergencySpray(draft, random)
      // It began on the Friday at 20:00, and the notice is of the Saturday: 24 hours after.
      put(draft, notice, ['sent', 'at'], '20:00')
      const before = copyOf(draft)
      put(draft, notice, ['sent', 'at'], '20:01')
      return { ...reportedAt(notice, 'sent', 'at'), before }
    },
  },
  {
    name: 'the notice on the day after an emergency has no hour',
    expect: 'emergency-notice-late',
    at: inNotices,
    make: faultAfter(addEmergencySpray, (draft, { notice }) => {
      take(draft, notice, ['sent', 'at'])
      return reportedAt(notice, 'application')
    }),
  },
  {
    name: 'after an emergency only those who asked are told',
    expect: 'notice-to-too-few',
    at: inNotices,
    make: faultAfter(addEmergencySpray, (draft, { notice }) => {
      put(draft, notice, ['sent', 'to'], 'those who asked')
      return reportedAt(notice, 'sent', 'to')
    }),
  },
  {
    name: 'no sign is recorded of an emergency',
    expect: 'posting-missing',
    at: inApplications,
    make: faultAfter(addEmergencySpray, (draft, { application, signs }) => {
      draft.files.delete(signs)
      return reportedAt(application, 'product')
    }),
  },
  {
    name: 'signs go up a minute after an emergency application began',
    expect: 'posting-late',
    at: inNotices,
    make(draft, random) {
      const { signs } = addEmergencySpray(draft, random)
      put(draft, signs, ['posted', 'at'], '20:00')
      const before = copyOf(draft)
      put(draft, signs, ['posted', 'at'], '20:01')
      return { ...reportedAt(signs, 'posted', 'at'), before }
    },
  },
  {
    name: 'signs of an emergency are dated the next day, without an hour',
    expect: 'posting-late',
    at: inNotices,
    make(draft, random) {
      const { signs, day } = addEmergencySpray(draft, random)
      take(draft, signs, ['posted', 'at'])
      const before = copyOf(draft)
      return { ...reportedAt(dated(draft, signs, day + 1), 'application'), before }
    },
  },
  {
    name: 'signs of an emergency are taken down a minute too early',
    expect: 'posting-removed-early',
    at: inNotices,
    make(draft, random) {
      const { signs, day } = addEmergencySpray(draft, random)
      const hour = hourAfterThreeDays(day)
      put(draft, signs, ['posted', 'taken-down'], isoOf(day + 3))
      put(draft, signs, ['posted', 'taken-down-at'], `${hour}:20`)
      const before = copyOf(draft)
      put(draft, signs, ['posted', 'taken-down-at'], `${hour}:19`)
      return { ...reportedAt(signs, 'posted', 'taken-down-at'), before }
    },
  },
]
