import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import { pestTable } from '../../records/tables.js'
import { commonPractice, siteRule } from '../rule.js'
import type { Answering, Sign } from './answers-to-signs.js'
import { answeredSigns } from './answers-to-signs.js'
import { identifications } from './identified-sightings.js'
import { lateness } from './lapse.js'

const parameter = 'prompt.termite'

export const termiteSignNoAction = siteRule<{ what: string; area: string; by: string }>({
  id: 'termite-sign-no-action',
  title: 'a sign of termites was followed by nothing',
  level: 'error',
  judgedOn: 'the day of the sign',
  why: 'Termites eat what carries the building, out of sight; swarmers and mud tubes are the little of it that shows.',
  remedy:
    'Leave tubes, wings and wood as they are, keep a specimen, and have a licensed structural inspector look. Record what is done: `actions: {called-inspector: {tactic: referral, pest: termite, did: structural inspector called}}`. Treatment of the structure or the soil is licensed work; the label, state law and local code govern it.',
  source: commonPractice,
  actor: 'coordinator',
  gap: true,
  parameters: [parameter],
  asks: ({ what }) => `act on the termites (${what}), or look again`,
  says: ({ what, area, by }) =>
    `Termites: ${what} in \`${area}\`; by ${by} no action, application or visit to look again is recorded.`,
  *check(view) {
    for (const { sign, answered } of answeredSigns(view, signsOf(view), answering)) {
      const advice = view.district.parameters(parameter, sign.day)
      const days = advice && daysOf(advice.value)
      if (!advice || typeof days !== 'number') continue
      const last = sign.day + days
      const when = lateness(view, last + 1, answered)
      if (!when) continue
      yield {
        args: { what: sign.what, area: sign.area, by: isoOf(last) },
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
  tubes-by-sill:
    pest: western-subterranean-termite
    area: room-1
    evidence: mud-tube # expect: termite-sign-no-action
    age: fresh
`,
  passing: `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
found:
  tubes-by-sill:
    pest: western-subterranean-termite
    area: room-1
    evidence: mud-tube
    age: fresh
actions:
  called-inspector: {did: licensed structural inspector called, tactic: referral, why: corrective, area: room-1, pest: western-subterranean-termite}
`,
})

const answering: Answering = {
  sameAnimal: isTermite,
  anywhere: true,
  tactics: new Set(['referral', 'pesticide', 'bait', 'exclusion', 'repair', 'restriction', 'heat', 'cold']),
  lookedAgain: new Set(['follow-up', 'callback']),
}

const termiteEvidence: ReadonlySet<string> = new Set(['mud-tube', 'swarmers', 'wings', 'live', 'damage'])

function isTermite(pest: string): boolean {
  return pestTable().get(pest)?.group === 'termite'
}

function signsOf(view: SiteView): Sign[] {
  const signs: Sign[] = []
  const identified = identifications(view)
  for (const { id, facts, day, visit, at } of view.sightings) {
    if (facts.pest === undefined || !isTermite(facts.pest) || facts.age === 'old') continue
    if (!termiteEvidence.has(facts.evidence)) continue
    const later = identified.get(id)
    const dismissed = later && !isTermite(later.pest ?? '') ? later.day : undefined
    const place = { file: at.file, path: [...at.path, 'evidence'] }
    signs.push({ day, visit, area: facts.area, what: facts.evidence, at: place, dismissed })
  }
  for (const device of view.devices) {
    if (device.kind !== 'termite-station') continue
    for (const { moment, area, reading } of device.checks) {
      if (reading?.active !== 'yes') continue
      const at = { file: moment.visit.file, path: [...moment.path, 'active'] }
      const what = `station ${device.id} active`
      signs.push({ day: moment.day, visit: moment.visit, area, what, at, dismissed: undefined })
    }
  }
  return signs
}
