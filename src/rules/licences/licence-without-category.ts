import { andMore } from '../products/papers-at-hand.js'
import { siteRule } from '../rule.js'
import { askedByRulebooks } from './asked-by-rulebooks.js'
import { gelInCracks, inventedAct, okafor, ownRulebook } from './example-ledgers.js'
import type { LicenceArgs } from './licence-gaps.js'
import { licenceGaps } from './licence-gaps.js'

const own = ownRulebook(`
licences:
  applicator:
    - {${inventedAct} 3, of: applicator, in-state: yes, categories: [structural, institutional]}
`)

export const licenceWithoutCategory = siteRule<LicenceArgs>({
  id: 'licence-without-category',
  title: 'the licence of whoever applied a pesticide does not show the category asked for',
  level: 'error',
  judgedOn: 'the day of the use, by the licences in force then',
  why: 'Work indoors and work on turf are examined apart; a licence covers the categories that stand on it.',
  remedy:
    'Compare with the licence itself and write its categories as they stand there: `categories: [structural]`. If the category is not on it, someone who has it does this work.',
  source: askedByRulebooks('licences'),
  actor: 'coordinator',
  gap: true,
  says: ({ person, supervises, licences, held, categories, more }) =>
    `The licence of ${person}${supervises ? ', who supervised' : ''} (${licences.join(', ')}) shows ${held.length === 0 ? 'no category' : held.join(', ')} on the day of this use${andMore(more)}; asked for is ${categories.join(' or ')}.`,
  check: (view) => licenceGaps(view, 'licence-without-category'),
  failing: own + okafor({ category: 'turf' }) + gelInCracks('okafor # expect: licence-without-category'),
  passing: own + okafor({ category: 'Institutional' }) + gelInCracks(),
})
