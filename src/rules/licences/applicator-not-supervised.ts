import type { Citation } from '../../types.js'
import { siteRule } from '../rule.js'
import { gelInCracks, inventedAct, okafor, ownRulebook, vale } from './example-ledgers.js'
import type { LicenceArgs } from './licence-gaps.js'
import { licenceGaps } from './licence-gaps.js'

const own = ownRulebook(`
licences:
  applicator: [{${inventedAct} 3, of: applicator, in-state: yes, supervised: yes}]
`)

const restrictedUse: Citation = {
  kind: 'law',
  text: 'FIFRA, 7 U.S.C. 136j(a)(2)(F) and 136(e), from memory: a restricted-use pesticide is applied by a certified applicator or under the direct supervision of one',
}

export const applicatorNotSupervised = siteRule<LicenceArgs>({
  id: 'applicator-not-supervised',
  title: 'no certified applicator is shown to have supervised',
  level: 'error',
  judgedOn: 'the day of the use, by the licences in force then',
  why: 'Whoever is not certified applies under someone who answers for the work and can be asked while it is done.',
  remedy:
    'Write who supervised, in the record of this use: `supervised-by: vale`. They hold a licence that certifies them, in force on that day. If nobody did, a certified applicator does this work.',
  source: restrictedUse,
  actor: 'technician',
  gap: true,
  says: ({ person, supervises, licences, more }) => {
    const uses = `this use${more === 0 ? '' : ` and ${more} later ${more === 1 ? 'use' : 'uses'}`}`
    if (!supervises)
      return `The licence of ${person} (${licences.join(', ')}) is for work under a certified applicator, and the record does not say who supervised ${uses}.`
    return licences.length === 0
      ? `${person} is named as having supervised ${uses}, and the records show no licence of theirs.`
      : `${person} is named as having supervised ${uses}, and their licence (${licences.join(', ')}) is itself for work under a certified applicator.`
  },
  check: (view) => licenceGaps(view, 'applicator-not-supervised'),
  failing: own + okafor({ certified: 'no' }) + gelInCracks('okafor # expect: applicator-not-supervised'),
  passing:
    own +
    okafor({ certified: 'no' }) +
    vale({ certified: 'yes' }) +
    gelInCracks('okafor', 'supervised-by: vale'),
})
