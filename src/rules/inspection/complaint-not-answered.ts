import { isoOf } from '../../measure/calendar.js'
import { levelFrom } from '../adopted.js'
import { commonPractice, siteRule } from '../rule.js'
import { answerParameter, complaintsDue } from './complaints-due.js'
import { lateness } from './lapse.js'

export const complaintNotAnswered = siteRule<{ complaint: string; days: number; by: string }>({
  id: 'complaint-not-answered',
  title: 'a complaint was not looked at in time',
  level: 'warning',
  judgedOn: 'the day of the complaint',
  why: 'People who complain and hear nothing stop complaining, and the best detectors in the building are lost.',
  remedy:
    'Look at it and write on the visit what was found: `answers: {2026-03-10-lind: "traps set, nothing seen"}`; if it needs no look, write `withdrawn` with the reason in the complaint.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [answerParameter],
  asks: ({ complaint }) => `look at complaint ${complaint}`,
  says: ({ complaint, days, by }) =>
    `No visit by ${by} answers complaint ${complaint}; it was to be looked at within ${days} ${days === 1 ? 'day' : 'days'}.`,
  *check(view) {
    for (const { complaint, asked, answer } of complaintsDue(view)) {
      if (!asked) continue
      const last = complaint.day + asked.days
      const when = lateness(view, last + 1, answer?.day)
      if (!when) continue
      yield {
        args: { complaint: complaint.id, days: asked.days, by: isoOf(last) },
        at: { file: complaint.file, path: ['says'] },
        level: levelFrom(asked.sources, 'warning'),
        sources: asked.sources,
        ...when,
      }
    }
  },
  failing: `
=== sites/oak/complaints/2026-03-04-lind.yaml
by: lind
from: staff
area: room-1
says: small black droppings in the paper drawer # expect: complaint-not-answered
`,
  passing: `
=== sites/oak/complaints/2026-03-04-lind.yaml
by: lind
from: staff
area: room-1
says: small black droppings in the paper drawer
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
answers: {2026-03-04-lind: crumbs of pencil lead and no droppings}
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
})
