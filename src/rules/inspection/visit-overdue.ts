import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { routineVisitGaps } from './routine-visit-gaps.js'

export const visitOverdue = siteRule<{ asked: string; about: string; by: string }>({
  id: 'visit-overdue',
  title: 'a routine visit the contract asks for is not recorded',
  level: 'warning',
  judgedOn: 'the last day on which the visit is in time, by the contract then in force',
  why: 'Pests that no one looks for are found by pupils; and the district paid for the visit.',
  remedy:
    'Make the visit and record it with `purpose: routine`; if it was made, enter it from the paper with `on-paper`. If the service was changed, add a dated span to `contract`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: ['visit.month-in-session'],
  asks: ({ asked, about }) => (asked === 'monthly' ? `routine visit for ${about}` : 'routine visit'),
  says: ({ asked, about, by }) =>
    asked === 'monthly'
      ? `The contract asks for a routine visit in each month in session; none is recorded for ${about} by ${by}.`
      : `The contract says \`${asked}\`, counted here from ${about}; no routine visit is recorded after that day by ${by}.`,
  *check(view) {
    for (const { terms, about, lastDay, ...when } of routineVisitGaps(view))
      yield {
        args: { asked: terms.contract['routine-visits'], about, by: isoOf(lastDay) },
        at: { file: view.site.file, path: ['contract', terms.index, 'routine-visits'] },
        identity: [about],
        sources: [{ kind: 'contract', text: view.site.file }],
        ...when,
      }
  },
  failing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract:
  - from: 2026-03-01
    contractor: Invented Pest Services
    routine-visits: weekly # expect: visit-overdue
    grace: 2 days
    checks: {sticky-trap: monthly}
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`,
  passing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract:
  - from: 2026-03-01
    contractor: Invented Pest Services
    routine-visits: monthly
    grace: 2 days
    checks: {sticky-trap: monthly}
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`,
})
