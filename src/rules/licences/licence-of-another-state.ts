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

export const licenceOfAnotherState = siteRule<LicenceArgs>({
  id: 'licence-of-another-state',
  title: 'whoever applied a pesticide shows only a licence of another state',
  level: 'error',
  judgedOn: 'the day of the use, by the licences in force then',
  why: 'Each state licenses for itself; a licence of another holds here only where this one has recognised it.',
  remedy:
    'Enter the licence of this state beside the other; where this state has recognised the other one, enter that recognition as a licence of its own, with its number and span.',
  source: askedByRulebooks('licences'),
  actor: 'coordinator',
  gap: true,
  says: ({ person, supervises, states, state, more }) =>
    `The records show ${person}${supervises ? ', who supervised,' : ''} licensed by ${states.join(', ')} and not by ${state} on the day of this use${andMore(more)}.`,
  check: (view) => licenceGaps(view, 'licence-of-another-state'),
  failing: own + okafor({ state: 'WA' }) + gelInCracks('okafor # expect: licence-of-another-state'),
  passing: own + okafor({ state: 'OR' }) + gelInCracks(),
})
