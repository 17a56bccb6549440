import type { RecordOf } from '../../records/kinds.js'
import { siteRule } from '../rule.js'
import { baitA, useOn } from './example-ledgers.js'
import { andLater, findingOf, usesOfProducts } from './uses-of-products.js'

/** Whether a product is of a kind that is registered, and the register shows no number of it. */
export function lacksRegistration(data: RecordOf<'product'>): boolean {
  return (
    (data.kind === 'pesticide' || data.kind === 'antimicrobial') &&
    data.registration === undefined &&
    data['special-local-need'] === undefined
  )
}

export const pesticideWithoutRegistration = siteRule<{ product: string; kind: string; more: number }>({
  id: 'pesticide-without-registration',
  title: 'a pesticide was used for which the register shows no registration',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'Only a registered pesticide has been looked at for what it does to people; the number on its label shows that it was.',
  remedy:
    'Copy the number after "EPA Reg. No." on the label into product.yaml: `registration: 99999-1`. Where the label says that it is exempt: `kind: minimum-risk`. Where it bears neither, it is not used; ask the maker or the state.',
  source: {
    kind: 'law',
    text: 'FIFRA, 7 U.S.C. 136a(a), from memory: no pesticide is distributed or sold that is not registered',
  },
  actor: 'coordinator',
  gap: true,
  says: ({ product, kind, more }) =>
    `The register shows no registration number of the ${kind} ${product}, which this use${andLater(more)} put out.`,
  *check(view) {
    const uses = usesOfProducts(view, ({ data }) => lacksRegistration(data))
    for (const use of uses)
      yield {
        args: { product: use.product.data.name, kind: use.product.data.kind, more: use.more },
        ...findingOf(use),
      }
  },
  failing: baitA({ registration: null }) + useOn('12', ' # expect: pesticide-without-registration'),
  passing: baitA({ registration: null, 'special-local-need': 'OR-240001' }) + useOn('12'),
})
