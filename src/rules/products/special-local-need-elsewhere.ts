import type { RecordOf } from '../../records/kinds.js'
import { siteRule } from '../rule.js'
import { baitA, useOn } from './example-ledgers.js'
import { andLater, findingOf, usesOfProducts } from './uses-of-products.js'

type NeedArgs = {
  readonly product: string
  readonly number: string
  readonly state: string
  readonly more: number
}

/** Whether a product is entered under a special local need registration that is not of this state. */
export function isForAnotherState(
  { 'special-local-need': number }: RecordOf<'product'>,
  state: string,
): boolean {
  return number !== undefined && number.slice(0, 2) !== state
}

export const specialLocalNeedElsewhere = siteRule<NeedArgs>({
  id: 'special-local-need-elsewhere',
  title: 'a product was used under a special local need registration of another state',
  level: 'error',
  judgedOn: 'the day of the use',
  why: 'Such a registration answers a need of one state; outside it the use it adds is not on any label.',
  remedy:
    'Where the use is also on the label under the registration number, take `special-local-need` out of product.yaml; where it is not, the product is not used that way here.',
  source: {
    kind: 'law',
    text: '40 CFR 162.150 to 162.156, from memory: a special local need registration is good only in the state that gave it',
  },
  actor: 'coordinator',
  gap: false,
  says: ({ product, number, state, more }) => {
    const use = `${product} is entered as used under ${number}, which is good in ${number.slice(0, 2)} only`
    return state === ''
      ? `${use}, and district.yaml does not show that this use${andLater(more)} was there.`
      : `${use}, and this use${andLater(more)} was in ${state}.`
  },
  *check(view) {
    const state = view.district.district.data.state ?? ''
    const uses = usesOfProducts(view, ({ data }) => isForAnotherState(data, state))
    for (const use of uses) {
      const { name, 'special-local-need': number = '' } = use.product.data
      yield {
        args: { product: name, number, state, more: use.more },
        ...findingOf(use),
        // Where the district does not name its state, all that is shown is that nothing is.
        ...(state === '' ? { level: 'warning' as const } : {}),
      }
    }
  },
  failing:
    baitA({ 'special-local-need': 'WA-240001' }) + useOn('12', ' # expect: special-local-need-elsewhere'),
  passing: baitA({ 'special-local-need': 'OR-240001' }) + useOn('12'),
})
