import { addMonths, isoOf } from '../../../src/measure/calendar.js'
import { addSpray } from '../added-applications.js'
import type { KeyPath } from '../draft.js'
import { copyOf, put, take } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import { coordinatorOf, sitesOf, technicianOf } from '../site-records.js'

const inApplications = /^sites\/[^/]+\/applications\//

/** What the coordinator approves before it is applied, and how long records of it are kept. */
export const approvalFaults: readonly FaultKind[] = [
  {
    name: 'the approval of a spray is left out',
    expect: 'approval-missing',
    at: inApplications,
    make(draft, random) {
      const { application } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      const before = copyOf(draft)
      take(draft, application, ['approved'])
      return { ...reportedAt(application, 'product'), before }
    },
  },
  {
    name: 'a spray is approved on the day after',
    expect: 'approval-missing',
    at: inApplications,
    make(draft, random) {
      const { application, day } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      put(draft, application, ['approved', 'on'], isoOf(day))
      const before = copyOf(draft)
      put(draft, application, ['approved', 'on'], isoOf(day + 1))
      return { ...reportedAt(application, 'approved', 'on'), before }
    },
  },
  {
    name: 'whoever applies a spray approves it alone',
    expect: 'approval-missing',
    at: inApplications,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const { application } = addSpray(draft, site)
      const who = technicianOf(draft, site)
      put(draft, application, ['approved', 'by'], [who, coordinatorOf(draft)])
      const before = copyOf(draft)
      put(draft, application, ['approved', 'by'], [who])
      return { ...reportedAt(application, 'approved', 'by'), before }
    },
  },
  {
    name: 'the approval of a spray is older than six months',
    expect: 'approval-missing',
    at: inApplications,
    make(draft, random) {
      const { application, day } = addSpray(draft, random.pick(sitesOf(draft)) ?? '')
      const oldest = addMonths(day, -6)
      put(draft, application, ['approved', 'on'], isoOf(oldest))
      const before = copyOf(draft)
      put(draft, application, ['approved', 'on'], isoOf(oldest - 1))
      return { ...reportedAt(application, 'approved', 'on'), before }
    },
  },
  {
    name: 'records of applications are discarded a day too early',
    expect: 'records-discarded-too-early',
    at: /^district\.yaml$/,
    make: discardedTooEarly('applications', 3, ['on']),
  },
  {
    name: 'records of applications are discarded up to a day too late',
    expect: 'records-discarded-too-early',
    at: /^district\.yaml$/,
    make: discardedTooEarly('applications', 3, ['before']),
  },
  {
    name: 'safety data sheets are discarded in their thirtieth year',
    expect: 'records-discarded-too-early',
    at: /^district\.yaml$/,
    make: discardedTooEarly('sds', 30, ['on']),
  },
]

/**
 * On a day on which the last records of a time were just no longer to be kept: the youngest is of the day as many years
 * before the day before. Then either the day of discarding is one earlier, or records of one more day are among them.
 */
function discardedTooEarly(what: string, years: number, spoilt: KeyPath): FaultKind['make'] {
  return (draft) => {
    const on = draft.lastDay - 10
    const youngest = addMonths(on - 1, -12 * years)
    const at = ['discarded', 0]
    put(
      draft,
      'district.yaml',
      ['discarded'],
      [{ on: isoOf(on), what, before: isoOf(youngest + 1), by: coordinatorOf(draft) }],
    )
    const before = copyOf(draft)
    const day = spoilt[0] === 'on' ? on - 1 : youngest + 2
    put(draft, 'district.yaml', [...at, ...spoilt], isoOf(day))
    return { ...reportedAt('district.yaml', ...at, 'on'), before }
  }
}
