import { dayIn } from '../../ledger/spans.js'
import { addMonths, civilOf, dayOf, lastOfMonth } from '../../measure/calendar.js'
import { commonPractice, districtRule } from '../rule.js'

/** Whole months the records must have run before there is a year to review. */
const monthsToReview = 6
const usualMonth = 6

export const reviewNotHeld = districtRule<{ year: string; month: string }>({
  id: 'review-not-held',
  title: 'the yearly review is not recorded',
  level: 'warning',
  judgedOn: 'the last day of the month in which the review is due',
  why: 'Repairs, clutter and contracts are decided by people who meet once a year; without the meeting the year teaches nothing.',
  remedy:
    'Hold it and write `reviews/<year>.yaml` with `held`, `by`, `present` and `decisions`; it may still be held late.',
  source: commonPractice,
  actor: 'coordinator',
  gap: true,
  asks: ({ year }) => `hold the review of ${year}`,
  says: ({ year, month }) => `No review for ${year} is recorded by the end of ${month}.`,
  *check(view) {
    const { district, recordsBegin, asOf } = view
    const stated = district.data['annual-review']?.['due-month']
    const month = stated ?? usualMonth
    const held = new Map(view.reviews.map((review) => [review.id, dayIn(review.data.held)]))
    for (let year = civilOf(recordsBegin).year; ; year++) {
      const text = `${year}-${String(month).padStart(2, '0')}`
      const last = lastOfMonth(dayOf(`${text}-01`) ?? recordsBegin)
      if (last < addMonths(recordsBegin, monthsToReview)) continue
      const from = last + 1
      const on = held.get(String(year))
      const known = on !== undefined || view.broken.has(`review ${year}`)
      if (!known || (on !== undefined && on > from))
        yield {
          args: { year: String(year), month: text },
          at: {
            file: district.file,
            path: stated === undefined ? ['records-begin'] : ['annual-review', 'due-month'],
          },
          identity: [String(year)],
          from,
          ...(on === undefined ? {} : { until: on }),
        }
      if (from > asOf && !known) return
    }
  },
  failing: `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2025-01-06
coordinator: [{from: 2025-01-06, who: marsh}]
rulebooks:
  - {from: 2025-01-06, rulebook: practice}
  - {from: 2025-01-06, rulebook: us-federal}
calendar:
  - {from: 2024-09-03, until: 2025-06-13}
  - {from: 2025-09-02, until: 2026-06-12}
annual-review:
  due-month: 11 # expect: review-not-held
=== sites/oak/site.yaml
name: Oak School
from: 2026-03-01
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`,
  passing: `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2025-01-06
coordinator: [{from: 2025-01-06, who: marsh}]
rulebooks:
  - {from: 2025-01-06, rulebook: practice}
  - {from: 2025-01-06, rulebook: us-federal}
calendar:
  - {from: 2024-09-03, until: 2025-06-13}
  - {from: 2025-09-02, until: 2026-06-12}
annual-review:
  due-month: 11
=== reviews/2025.yaml
held: 2025-11-18
by: marsh
present: [IPM coordinator, maintenance head]
decisions:
  door-sweeps: {what: door sweeps on the dock door, who: marsh, by: 2026-02-27, done: 2026-02-20}
=== sites/oak/site.yaml
name: Oak School
from: 2026-03-01
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`,
})
