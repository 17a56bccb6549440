import { andMore } from '../products/papers-at-hand.js'
import { siteRule } from '../rule.js'
import { askedByRulebooks } from './asked-by-rulebooks.js'
import { gelInCracks, inventedAct, okafor, ownRulebook } from './example-ledgers.js'
import type { LicenceArgs } from './licence-gaps.js'
import { licenceGaps } from './licence-gaps.js'

const own = ownRulebook(`
licences:
  applicator: [{${inventedAct} 3, of: applicator, in-state: yes}]
`)

export const applicatorWithoutLicence = siteRule<LicenceArgs>({
  id: 'applicator-without-licence',
  title: 'no licence is recorded of whoever applied a pesticide',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'Whether someone was trained and authorised to apply a pesticide near children shows only in their licence.',
  remedy:
    'Enter the licence in the record of the person, in each span in which it was valid: `licences: {or-applicator: {number: "00-1234", state: OR, kind: commercial applicator, categories: [structural], spans: [{from: 2026-01-01, until: 2026-12-31}]}}`. Where someone certified supervised, and the law lets that do, name them under `supervised-by`.',
  source: askedByRulebooks('licences'),
  actor: 'coordinator',
  gap: true,
  says: ({ person, supervisor, more }) =>
    `The records show no licence of ${person}${supervisor === '' ? '' : `, nor of ${supervisor}, who supervised,`} for the day of this use${andMore(more)}.`,
  check: (view) => licenceGaps(view, 'applicator-without-licence'),
  failing: own + okafor() + gelInCracks('okafor # expect: applicator-without-licence'),
  passing: own + gelInCracks(),
})
