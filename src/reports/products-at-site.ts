import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { Loaded } from '../ledger/loaded.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Day } from '../types.js'

/** A product that was used at a site, or lies there. */
export interface ProductAtSite {
  /** Id in the register; undefined for something that is no product of it. */
  readonly id: string | undefined
  /** Undefined where the register does not have it. */
  readonly product: Loaded<'product'> | undefined
  readonly name: string
  /** The last use by the as-of day, also one before the period. */
  readonly lastUse: Use | undefined
  readonly stored: readonly Stored[]
  readonly records: readonly string[]
}

interface Use {
  readonly day: Day
  readonly file: string
  readonly areas: readonly string[]
}

interface Stored {
  readonly area: string
  readonly place: string
  readonly amount: string | undefined
  readonly file: string
}

/**
 * Every product used at a site from a day on, or kept there by its last storage record, by name. Bait and lures put
 * into devices are uses, and so is what a plant of the site was treated with elsewhere: the plant comes back.
 */
export function productsAtSite(view: SiteView, from: Day): ProductAtSite[] {
  const uses = lastUses(view)
  const { products, others } = storedNow(view)
  const wanted = new Set(products.keys())
  for (const [id, { day }] of uses) if (day >= from) wanted.add(id)
  const known = [...wanted].map((id): ProductAtSite => {
    const product = view.district.products.get(id)
    const lastUse = uses.get(id)
    const stored = products.get(id) ?? []
    return {
      id,
      product,
      name: product?.data.name ?? id,
      lastUse,
      stored,
      records: [
        ...new Set([
          ...(product ? [product.file] : []),
          ...(lastUse ? [lastUse.file] : []),
          ...stored.map(({ file }) => file),
        ]),
      ],
    }
  })
  return [...known, ...others].sort((a, b) => compareText(a.name, b.name))
}

/** Day of the last storage record; undefined where there is none. */
export function storageDay(view: SiteView): Day | undefined {
  return view.storage.at(-1)?.day
}

function lastUses(view: SiteView): Map<string, Use> {
  const uses = new Map<string, Use>()
  const add = (id: string, use: Use) => {
    const known = uses.get(id)
    if (known === undefined || use.day >= known.day) uses.set(id, use)
  }
  for (const { productId, day, record, areas } of view.treatments)
    add(productId, { day, file: record.file, areas: areas.map(({ id }) => id) })
  for (const visit of view.visits) {
    for (const { product, area } of Object.values(visit.data.plants ?? {})) {
      if (product !== undefined)
        add(product, { day: visit.day, file: visit.file, areas: area === undefined ? [] : [area] })
    }
  }
  return uses
}

/** What the storage records of the last day of storage list, but for what they say was disposed of. */
function storedNow(view: SiteView): {
  readonly products: ReadonlyMap<string, readonly Stored[]>
  readonly others: readonly ProductAtSite[]
} {
  const products = new Map<string, Stored[]>()
  const others: ProductAtSite[] = []
  const last = storageDay(view)
  for (const { day, file, data } of view.storage) {
    if (day !== last) continue
    for (const [place, { area, items }] of Object.entries(data.places)) {
      for (const [name, { product, what, amount, disposed }] of Object.entries(items)) {
        if (disposed !== undefined) continue
        const stored = { area, place, amount, file }
        if (product !== undefined) getOrMake(products, product, () => []).push(stored)
        else
          others.push({
            id: undefined,
            product: undefined,
            name: what ?? name,
            lastUse: undefined,
            stored: [stored],
            records: [file],
          })
      }
    }
  }
  return { products, others }
}
