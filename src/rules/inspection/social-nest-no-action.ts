import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import { pestTable } from '../../records/tables.js'
import { commonPractice, siteRule } from '../rule.js'
import type { Answering, Sign } from './answers-to-signs.js'
import { answeredSigns } from './answers-to-signs.js'
import { identifications } from './identified-sightings.js'
import { earliest, lateness } from './lapse.js'

const parameter = 'prompt.social-nest'

export const socialNestNoAction = siteRule<{ pest: string; area: string; by: string }>({
  id: 'social-nest-no-action',
  title: 'a nest of stinging insects was followed by nothing',
  level: 'error',
  judgedOn: 'the day it was seen',
  why: 'Insects that defend a nest sting many times and many at once, and a sting can kill who is allergic.',
  remedy:
    'Keep everyone well away, close the place off, and tell the office and the nurse. Leave the nest alone: removing or treating it is for someone trained, equipped and licensed for it, when no one is about, as the label and local code say; for honey bees ask a beekeeper. Record it: `actions: {closed-off: {tactic: restriction, area: playground, did: taped off and office told}}`.',
  source: commonPractice,
  actor: 'coordinator',
  gap: true,
  parameters: [parameter],
  asks: ({ pest }) => `act on the nest (${pest}), or look again`,
  says: ({ pest, area, by }) =>
    `A nest (${pest}) was seen in \`${area}\` and is not recorded as abandoned; by ${by} no action, application or visit to look again is recorded.`,
  *check(view) {
    for (const [pest, signs] of signsByPest(view)) {
      for (const { sign, answered } of answeredSigns(view, signs, answering(pest))) {
        const advice = view.district.parameters(parameter, sign.day)
        const days = advice && daysOf(advice.value)
        if (!advice || typeof days !== 'number') continue
        const last = sign.day + days
        const when = lateness(view, last + 1, answered)
        if (!when) continue
        yield {
          args: { pest: pestTable().get(pest)?.name ?? pest, area: sign.area, by: isoOf(last) },
          at: sign.at,
          sources: advice.sources,
          ...when,
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
found:
  nest-under-eave:
    pest: paper-wasp
    area: room-1
    evidence: nest # expect: social-nest-no-action
    nest-state: active
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
found:
  nest-under-eave:
    pest: paper-wasp
    area: room-1
    evidence: nest
    nest-state: active
actions:
  closed-off: {did: taped off and office told, tactic: restriction, why: corrective, area: room-1, pest: paper-wasp}
`,
})

/** The animal itself or another of its group: whoever closes off a hornet's nest need not know it is a hornet's. */
function answering(pest: string): Answering {
  const group = pestTable().get(pest)?.group
  return {
    sameAnimal: (other) => pestTable().get(other)?.group === group,
    anywhere: false,
    tactics: new Set([
      'restriction',
      'referral',
      'hand-removal',
      'vacuuming',
      'exclusion',
      'pesticide',
      'bait',
    ]),
    lookedAgain: new Set(['follow-up', 'callback']),
  }
}

/** Nests that are not recorded as abandoned, of insects that defend them. */
function signsByPest(view: SiteView): Map<string, Sign[]> {
  const byPest = new Map<string, Sign[]>()
  const identified = identifications(view)
  for (const { id, facts, day, visit, at } of view.sightings) {
    const { pest, area } = facts
    if (pest === undefined || pestTable().get(pest)?.social !== 'yes') continue
    if (facts.evidence !== 'nest' || facts['nest-state'] === 'abandoned' || facts.age === 'old') continue
    const later = identified.get(id)
    const other = later && pestTable().get(later.pest ?? '')?.social !== 'yes' ? later.day : undefined
    const left = view.sightings.find(
      (seen) =>
        seen.day >= day &&
        seen.facts['nest-state'] === 'abandoned' &&
        seen.facts.pest === pest &&
        seen.facts.area === area,
    )?.day
    const place = { file: at.file, path: [...at.path, 'evidence'] }
    const signs = byPest.get(pest) ?? []
    byPest.set(pest, signs)
    signs.push({ day, visit, area, what: 'nest', at: place, dismissed: earliest(other, left) })
  }
  return byPest
}
