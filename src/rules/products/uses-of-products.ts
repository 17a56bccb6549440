import type { Loaded } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'

/** What the first use of a product shows, and how many later uses at the site show the same. */
export interface ProductUse {
  readonly product: Loaded<'product'>
  readonly first: Treatment
  readonly more: number
}

/**
 * Uses of products of the register that a rule is about, one entry for each product, or for each key where `keyOf` gives
 * another: a fault of a product is said once, not at every use.
 */
export function usesOfProducts(
  view: SiteView,
  isAbout: (product: Loaded<'product'>, use: Treatment) => boolean,
  keyOf: (use: Treatment) => string = ({ productId }) => productId,
): ProductUse[] {
  const found = new Map<string, ProductUse>()
  for (const use of view.treatments) {
    if (!use.product || use.day < view.begins || !isAbout(use.product, use)) continue
    const key = keyOf(use)
    const known = found.get(key)
    found.set(key, known ? { ...known, more: known.more + 1 } : { product: use.product, first: use, more: 0 })
  }
  return [...found.values()]
}

/** What every finding about a product and its uses shares. */
export function findingOf({ product, first }: ProductUse) {
  return { at: first.at('product'), from: first.day, identity: [product.id] }
}

export function andLater(more: number): string {
  return more === 0 ? '' : ` and ${more} later ${more === 1 ? 'use' : 'uses'}`
}
