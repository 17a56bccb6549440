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

export const licenceNotInForce = siteRule<LicenceArgs>({
  id: 'licence-not-in-force',
  title: 'the licence of whoever applied a pesticide was not in force',
  level: 'error',
  judgedOn: 'the day of the use, by the licence as it stood then',
  why: 'A licence that has run out or has not begun covers no work; renewed later, it does not cover the days between.',
  remedy:
    'If it was renewed in time, enter the renewal as a span of its own: `- {from: 2026-01-01, until: 2026-12-31}`. If not, let nobody apply under it until it is renewed.',
  source: askedByRulebooks('licences'),
  actor: 'coordinator',
  gap: true,
  says: ({ person, supervises, licences, ended, begins, more }) =>
    `The records do not show licence ${licences.join(', ')} of ${person}${supervises ? ', who supervised,' : ''} in force on the day of this use${andMore(more)}${spanWords(ended, begins)}.`,
  check: (view) => licenceGaps(view, 'licence-not-in-force'),
  failing: own + okafor({ until: '2026-03-11' }) + gelInCracks('okafor # expect: licence-not-in-force'),
  passing: own + okafor({ until: '2026-03-12' }) + gelInCracks(),
})

function spanWords(ended: string, begins: string): string {
  return `${ended === '' ? '' : `; the last span ended on ${ended}`}${begins === '' ? '' : `; the next begins on ${begins}`}`
}
