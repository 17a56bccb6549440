import type { Duty } from '../../ledger/rulebooks-in-force.js'
import { isPesticide } from '../../ledger/treatments.js'
import { levelOfDuty } from '../adopted.js'
import { underOwnRulebook } from '../own-rulebook.js'
import { siteRule } from '../rule.js'
import { otherProhibitions } from './because-cancelled.js'
import { useOn } from './example-ledgers.js'
import type { ProductUse } from './uses-of-products.js'
import { andLater, findingOf } from './uses-of-products.js'

type ProhibitedArgs = {
  readonly product: string
  readonly what: string
  readonly rulebook: string
  readonly more: number
}

export const useProhibited = siteRule<ProhibitedArgs>({
  id: 'use-prohibited',
  title: 'a use is of a kind that a rulebook rules out',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'Some uses are ruled out in schools whatever the label says, because children live with what is left.',
  remedy:
    'Read the clause and choose another product or method; if the record tells the use wrongly, correct it and say so under `corrections`. `doorsweep rulebook show` prints the clause.',
  source: { kind: 'law', text: 'the prohibition, as its rulebook cites it' },
  actor: 'coordinator',
  gap: false,
  says: ({ product, what, rulebook, more }) =>
    `The rulebook ${rulebook} rules out ${what}; as recorded, this use${andLater(more)} of ${product} is one.`,
  *check(view) {
    const found = new Map<string, ProductUse & { readonly duty: Duty<'prohibitions'> }>()
    for (const use of view.treatments) {
      if (!use.product || !isPesticide(use) || use.day < view.begins) continue
      for (const duty of otherProhibitions(view, use)) {
        const key = `${duty.rulebook} ${duty.name} ${use.productId}`
        const known = found.get(key)
        if (known) found.set(key, { ...known, more: known.more + 1 })
        else found.set(key, { product: use.product, first: use, more: 0, duty })
      }
    }
    for (const use of found.values()) {
      const { rulebook, name, says, citation } = use.duty
      yield {
        args: { product: use.product.data.name, what: says.what, rulebook, more: use.more },
        ...findingOf(use),
        identity: [use.product.id, `${rulebook}/${name}`],
        level: levelOfDuty([citation]),
        sources: [citation],
      }
    }
  },
  failing: underOwnRulebook(noGel('crack-and-crevice')) + useOn('12', ' # expect: use-prohibited'),
  passing: underOwnRulebook(noGel('broadcast')) + useOn('12'),
})

function noGel(method: string): string {
  return `
uses:
  ruled-out:
    - {from: 2020-01-01, any: [{method: [${method}]}], kind: law, confidence: read, source: "Invented Pest Act, section 1"}
prohibitions:
  method:
    - {from: 2020-01-01, what: use as ${method}, holds-for: [ruled-out], kind: law, confidence: read, source: "Invented Pest Act, section 3"}
`
}
