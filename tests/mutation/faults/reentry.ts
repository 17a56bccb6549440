import type { AddedApplication } from '../added-applications.js'
import { addGel, addSpray } from '../added-applications.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, put, take } from '../draft.js'
import type { Fault, FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { openDaysSince } from '../school-days.js'
import { sitesOf, technicianOf, visitsOf } from '../site-records.js'

const inApplications = /^sites\/[^/]+\/applications\//
const policy = 'rulebooks/tarn-hollow.yaml'

/**
 * Who was there during a spray and after it. It is applied from 20:00 to 20:20, seen dry at 20:50, and opened again on the
 * next morning at 06:30.
 */
export const reentryFaults: readonly FaultKind[] = [
  {
    name: 'pupils are recorded in the area that is treated',
    expect: 'pupils-present',
    at: inApplications,
    make: afterSpray((draft, { application }) => {
      put(draft, application, ['pupils'], 'in the area')
      return reportedAt(application, 'pupils')
    }),
  },
  {
    name: 'pupils are recorded elsewhere in the building',
    expect: 'pupils-present',
    at: inApplications,
    make: afterSpray((draft, { application }) => {
      put(draft, application, ['pupils'], 'elsewhere in the building')
      return reportedAt(application, 'pupils')
    }),
  },
  {
    name: 'pupils stay in a room where the label asks for it to be empty',
    expect: 'pupils-present',
    at: inApplications,
    make(draft, random) {
      // Gel is exempt from what the policy asks, and not from its label.
      const { application, product } = addGel(draft, random.pick(sitesOf(draft)) ?? '')
      put(draft, product, ['labels', 0, 'says', 'with-people-present'], 'no')
      put(draft, application, ['pupils'], 'elsewhere in the building')
      const before = copyOf(draft)
      put(draft, application, ['pupils'], 'in the area')
      return { ...reportedAt(application, 'pupils'), before }
    },
  },
  {
    name: 'where pupils were at midday is left out, and no record has to say it',
    expect: 'pupils-present',
    at: inApplications,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const { application, day } = addSpray(draft, site, {
        application: { time: '12:00 to 12:20', dry: { at: '12:50', by: technicianOf(draft, site) } },
      })
      if (isClosed(draft, day) || makesVisits(draft, technicianOf(draft, site), day)) return null
      const elements = ['records', 'applications-on-record', 0, 'elements']
      take(draft, policy, [...elements, listAt(dataOf(draft, policy), ...elements).indexOf('pupils')])
      const before = copyOf(draft)
      take(draft, application, ['pupils'])
      return { ...reportedAt(application, 'time'), before }
    },
  },
  {
    name: 'an area is opened again a minute too early',
    expect: 'reopened-too-early',
    at: inApplications,
    make(draft, random) {
      const { application } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      // Seven hours after 20:20.
      put(draft, application, ['reopened', 'at'], '03:20')
      const before = copyOf(draft)
      put(draft, application, ['reopened', 'at'], '03:19')
      return { ...reportedAt(application, 'reopened', 'at'), before }
    },
  },
  {
    name: 'an application ends a minute later than the wait was counted from',
    expect: 'reopened-too-early',
    at: inApplications,
    make(draft, random) {
      const { application } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      put(draft, application, ['reopened', 'at'], '03:20')
      const before = copyOf(draft)
      put(draft, application, ['time'], '20:00 to 20:21')
      return { ...reportedAt(application, 'reopened', 'at'), before }
    },
  },
  {
    name: 'the later day on which an area was opened again is left out',
    expect: 'reopened-too-early',
    at: inApplications,
    make: afterSpray((draft, { application }) => {
      take(draft, application, ['reopened', 'on'])
      return reportedAt(application, 'reopened', 'at')
    }),
  },
  {
    name: 'the label asks for a minute more than was waited',
    expect: 'reopened-too-early',
    at: inApplications,
    make(draft, random) {
      const { application, product } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      // From 20:20 to 06:30 are 10 h 10 min, or 610 min.
      put(draft, product, ['labels', 0, 'says', 'keep-out'], '610 min')
      const before = copyOf(draft)
      put(draft, product, ['labels', 0, 'says', 'keep-out'], '611 min')
      return { ...reportedAt(application, 'reopened', 'at'), before }
    },
  },
  {
    name: 'that it was dry is left out',
    expect: 'dry-not-seen',
    at: inApplications,
    make: afterSpray((draft, { application }) => {
      take(draft, application, ['dry'])
      return reportedAt(application, 'reopened')
    }),
  },
  {
    name: 'it was seen dry ten minutes before the application ended, and opened on the next morning',
    expect: 'dry-not-seen',
    at: inApplications,
    make: afterSpray((draft, { application }) => {
      put(draft, application, ['dry', 'at'], '20:10')
      return reportedAt(application, 'dry', 'at')
    }),
  },
  {
    name: 'it was seen dry before the application ended',
    expect: 'dry-not-seen',
    at: inApplications,
    make(draft, random) {
      const { application } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      // Opened again on the same evening, so that the hour can be of that day only.
      put(draft, application, ['time'], '14:00 to 15:00')
      take(draft, application, ['reopened', 'on'])
      put(draft, application, ['reopened', 'at'], '23:00')
      const before = copyOf(draft)
      put(draft, application, ['dry', 'at'], '14:59')
      return { ...reportedAt(application, 'dry', 'at'), before }
    },
  },
  {
    name: 'an area is opened again before it was seen dry',
    expect: 'dry-not-seen',
    at: inApplications,
    make(draft, random) {
      const { application } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      put(draft, application, ['dry', 'at'], '06:30')
      const before = copyOf(draft)
      put(draft, application, ['dry', 'at'], '06:31')
      return { ...reportedAt(application, 'dry', 'at'), before }
    },
  },
  {
    name: 'when an area was opened again is left out',
    expect: 'reopening-not-recorded',
    at: inApplications,
    make: afterSpray((draft, { application }) => {
      take(draft, application, ['reopened'])
      return reportedAt(application, 'time')
    }),
  },
  {
    name: 'when an area was opened again is left out, and only the label asks to wait',
    expect: 'reopening-not-recorded',
    at: inApplications,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const { application, product } = addGel(draft, site, {
        // Two hours after the end.
        application: { reopened: { at: '22:20', by: technicianOf(draft, site) } },
      })
      put(draft, product, ['labels', 0, 'says', 'keep-out'], '2 h')
      const before = copyOf(draft)
      take(draft, application, ['reopened'])
      return { ...reportedAt(application, 'time'), before }
    },
  },
  {
    name: 'it was seen dry after midnight, and when it was opened again is left out',
    expect: 'reopening-not-recorded',
    at: inApplications,
    make: dryAfterMidnight((draft, application) => {
      take(draft, application, ['reopened'])
      return reportedAt(application, 'time')
    }),
  },
  {
    name: 'it was seen dry after midnight, and the later day of opening is left out',
    expect: 'reopened-too-early',
    at: inApplications,
    make: dryAfterMidnight((draft, application) => {
      take(draft, application, ['reopened', 'on'])
      return reportedAt(application, 'reopened', 'at')
    }),
  },
]

function afterSpray(change: (draft: Draft, added: AddedApplication) => Fault): FaultKind['make'] {
  return (draft, random) => {
    const added = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
    const before = copyOf(draft)
    return { ...change(draft, added), before }
  }
}

function dryAfterMidnight(change: (draft: Draft, application: string) => Fault): FaultKind['make'] {
  return (draft, random) => {
    const { application } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
    put(draft, application, ['dry', 'at'], '00:30')
    const before = copyOf(draft)
    return { ...change(draft, application), before }
  }
}

function isClosed(draft: Draft, day: number): boolean {
  return openDaysSince(draft, day - 1) === openDaysSince(draft, day)
}

function makesVisits(draft: Draft, who: string, day: number): boolean {
  return sitesOf(draft).some((site) =>
    visitsOf(draft, site).some((visit) => visit.day === day && visit.data.by === who),
  )
}
