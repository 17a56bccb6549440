import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import { tactics } from '../../records/action.js'
import { pestTable } from '../../records/tables.js'
import { purposes } from '../../records/visit.js'
import { commonPractice, siteRule } from '../rule.js'
import type { Answering, Sign } from './answers-to-signs.js'
import { answeredSigns } from './answers-to-signs.js'
import { identifications } from './identified-sightings.js'
import { lateness } from './lapse.js'

const parameter = 'prompt.cockroach-by-day'

export const cockroachByDayNoFollowUp = siteRule<{ pest: string; area: string; by: string }>({
  id: 'cockroach-by-day-no-follow-up',
  title: 'cockroaches out by day were followed by nothing',
  level: 'warning',
  judgedOn: 'the day they were seen',
  why: 'These cockroaches hide by day; one in the open says that the hiding places are full.',
  remedy:
    'Look where they hide and what feeds them, vacuum and clean, set sticky traps, and come back within days; write `actions` on the visit, or a visit with `purpose: follow-up` and the area under `inspected`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  asks: ({ pest }) => `act against the ${pest} seen by day, or look again`,
  says: ({ pest, area, by }) =>
    `A live ${pest} was seen by day in \`${area}\`; by ${by} no action, application or further visit to the area is recorded.`,
  *check(view) {
    for (const { sign, answered } of answeredSigns(view, signsOf(view), answering)) {
      const advice = view.district.parameters(parameter, sign.day)
      const days = advice && daysOf(advice.value)
      if (!advice || typeof days !== 'number') continue
      const last = sign.day + days
      const when = lateness(view, last + 1, answered)
      if (!when) continue
      yield {
        args: { pest: sign.what, area: sign.area, by: isoOf(last) },
        at: sign.at,
        sources: advice.sources,
        ...when,
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
found:
  on-the-wall:
    pest: brown-banded-cockroach
    area: room-1
    evidence: live
    by-day: yes # expect: cockroach-by-day-no-follow-up
`,
  passing: `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
found:
  on-the-wall:
    pest: brown-banded-cockroach
    area: room-1
    evidence: live
    by-day: yes
actions:
  vacuumed: {did: vacuumed behind the cupboard, tactic: vacuuming, why: corrective, area: room-1, pest: brown-banded-cockroach}
`,
})

/** Other cockroaches are often seen by day without being many. */
const hidesByDay: ReadonlySet<string> = new Set(['german-cockroach', 'brown-banded-cockroach'])

const answering: Answering = {
  sameAnimal: (pest) => pestTable().get(pest)?.group === 'cockroach',
  anywhere: false,
  tactics: new Set(tactics),
  lookedAgain: new Set(purposes),
}

function signsOf(view: SiteView): Sign[] {
  const identified = identifications(view)
  return view.sightings.flatMap(({ id, facts, day, visit, at }) => {
    const { pest, area } = facts
    if (pest === undefined || !hidesByDay.has(pest)) return []
    if (facts.evidence !== 'live' || facts['by-day'] !== 'yes') return []
    const later = identified.get(id)
    const place = { file: at.file, path: [...at.path, 'by-day'] }
    const what = pestTable().get(pest)?.name ?? pest
    const dismissed = later && !hidesByDay.has(later.pest ?? '') ? later.day : undefined
    return [{ day, visit, area, what, at: place, dismissed }]
  })
}
