import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { isCancelled } from '../ledger/use-classes.js'
import { inStateDuties } from '../rules/products/not-registered-in-state.js'
import type { Day } from '../types.js'
import type { Period } from './period.js'
import { productsAtSite } from './products-at-site.js'

/** A duty that asked, on the day of a use, that the product be registered in a state; '' where none is named. */
export interface StateAsked {
  readonly day: Day
  readonly state: string
  readonly clause: string
}

/** Uses of one product at one site in a period, and whether it is kept there. */
export interface ProductFacts {
  readonly site: string
  readonly product: string
  /** Days of use since the records of the site begin. */
  readonly days: readonly Day[]
  readonly uses: number
  /** Days of use after its registration had ended. */
  readonly cancelledDays: readonly Day[]
  readonly states: readonly StateAsked[]
  /** Whether the last storage record lists it. */
  readonly isKept: boolean
  readonly records: readonly string[]
}

/** Every product used at a site in a period, or kept there by its last storage record. */
export function collectPapers(view: SiteView, { from, to }: Period): ProductFacts[] {
  const first = Math.max(from, view.begins)
  const uses = new Map<string, Treatment[]>()
  for (const use of view.treatments)
    if (first <= use.day && use.day <= to) getOrMake(uses, use.productId, () => []).push(use)
  const plants = plantsTreated(view, first, to)
  const kept = new Map(
    productsAtSite(atEndOf(view, to), to + 1).flatMap(({ id, stored }) =>
      id === undefined || stored.length === 0 ? [] : [[id, stored.map(({ file }) => file)] as const],
    ),
  )
  return [...new Set([...uses.keys(), ...plants.keys(), ...kept.keys()])].map((product) => {
    const here = uses.get(product) ?? []
    const elsewhere = plants.get(product) ?? []
    return {
      site: view.id,
      product,
      days: [...here, ...elsewhere].map(({ day }) => day),
      uses: here.length + elsewhere.length,
      cancelledDays: here.filter(isCancelled).map(({ day }) => day),
      states: here.filter(isPesticide).flatMap((use) =>
        inStateDuties(view, use).map(({ of, citation }) => ({
          day: use.day,
          state: of,
          clause: citation.text,
        })),
      ),
      isKept: kept.has(product),
      records: [
        ...new Set([
          ...here.map(({ record }) => record.file),
          ...elsewhere.map(({ file }) => file),
          ...(kept.get(product) ?? []),
        ]),
      ],
    }
  })
}

/** The site as its storage records had it at the end of a period; before its own records begin nothing lies there. */
function atEndOf(view: SiteView, to: Day): SiteView {
  return { ...view, storage: view.begins > to ? [] : view.storage.filter(({ day }) => day <= to) }
}

/** What plants of the site were treated with elsewhere: they come back with it. */
function plantsTreated(view: SiteView, from: Day, to: Day) {
  const found = new Map<string, { readonly day: Day; readonly file: string }[]>()
  for (const { day, file, data } of view.visits) {
    if (day < from || day > to) continue
    for (const { product } of Object.values(data.plants ?? {}))
      if (product !== undefined) getOrMake(found, product, () => []).push({ day, file })
  }
  return found
}
