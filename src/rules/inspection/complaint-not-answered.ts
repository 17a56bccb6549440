import { daysOf } from '../../ledger/parameters.js'
import { serviceTermsOn } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import type { Citation, Day } from '../../types.js'
import { levelFrom } from '../adopted.js'
import { commonPractice, siteRule } from '../rule.js'
import { lateness } from './lapse.js'

const parameter = 'complaint.answer'

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
  parameters: [parameter],
  says: ({ complaint, days, by }) =>
    `No visit by ${by} answers complaint ${complaint}; it was to be looked at within ${days} ${days === 1 ? 'day' : 'days'}.`,
  *check(view) {
    const answered = answeredOn(view)
    for (const complaint of view.complaints) {
      if (complaint.data.withdrawn !== undefined || complaint.day < view.begins) continue
      const asked = asks(view, complaint.day)
      if (!asked) continue
      const last = complaint.day + asked.days
      const when = lateness(view, last + 1, answered.get(complaint.id))
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

/** The day of the first visit that answers each complaint. */
function answeredOn(view: SiteView): Map<string, Day> {
  const answered = new Map<string, Day>()
  for (const visit of view.visits)
    for (const complaint of Object.keys(visit.data.answers ?? {}))
      if (!answered.has(complaint)) answered.set(complaint, visit.day)
  return answered
}

/** Contract, then district, then rulebooks. */
function asks(
  view: SiteView,
  day: Day,
): { readonly days: number; readonly sources: readonly Citation[] } | undefined {
  const agreed = serviceTermsOn(view, day)?.contract['complaint-days']
  if (agreed !== undefined) return { days: agreed, sources: [{ kind: 'contract', text: view.site.file }] }
  const { district } = view.district
  const own = district.data['unanswered-complaint-days']
  if (own !== undefined)
    return { days: own, sources: [{ kind: 'standard', text: `${district.file}, set by the district` }] }
  const advice = view.district.parameters(parameter, day)
  const days = advice && daysOf(advice.value)
  return advice && typeof days === 'number' ? { days, sources: advice.sources } : undefined
}
