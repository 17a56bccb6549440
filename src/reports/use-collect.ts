import type { Loaded } from '../ledger/loaded.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import type { Quantity } from '../measure/quantities.js'
import { parseQuantity } from '../measure/quantities.js'
import type { Method } from '../records/use-words.js'
import type { Day } from '../types.js'
import { areaName } from './area-name.js'
import type { Period } from './period.js'

/** One time a pesticide was put to use, with what its amounts add up to. */
export interface Use {
  readonly siteId: string
  readonly how: Treatment['how']
  readonly day: Day
  readonly product: Loaded<'product'>
  readonly pests: readonly string[]
  readonly method: Method
  /** Undiluted amounts that add up to what is recorded of it. */
  readonly amounts: readonly Quantity[]
  /** Whether that is the whole: an amount of the whole is recorded, or one for every area. */
  readonly isWhole: boolean
  /** The amount as written for the whole, where it is. */
  readonly inAll: Quantity | undefined
  readonly parts: readonly PartOfUse[]
  readonly by: string
  /** Start and end as written; for bait in a device those of the visit. */
  readonly time: string | undefined
  readonly supervisedBy: string | undefined
  readonly file: string
}

/** What was used in one area. */
export interface PartOfUse {
  readonly area: string
  readonly areaName: string
  /** Size of the area, where the site record has it. */
  readonly extent: Quantity | undefined
  readonly amount: Quantity | undefined
}

/** A site as far as the report needs it, so that the rest of its records can be let go. */
export interface SiteFacts {
  readonly id: string
  readonly name: string
  readonly address: string | undefined
  readonly file: string
  readonly begins: Day
  /** Extents of the areas that were part of it in the period; undefined where none is recorded. */
  readonly extents: readonly (Quantity | undefined)[]
}

export interface UsesOfSite {
  readonly uses: readonly Use[]
  /** Uses of which nobody can tell whether they were of a pesticide: the product is not in the register. */
  readonly ofUnknownProducts: readonly Treatment[]
}

/** Uses of pesticides at a site from the first day to the last, both counted. */
export function usesOf(view: SiteView, { from, to }: Period, pest: string | undefined): UsesOfSite {
  const inPeriod = view.treatments.filter(
    ({ day, pests }) => from <= day && day <= to && (pest === undefined || pests.includes(pest)),
  )
  return {
    uses: inPeriod.flatMap((treatment) => {
      const { product } = treatment
      return product && isPesticide(treatment) ? [useOf(view, treatment, product)] : []
    }),
    ofUnknownProducts: inPeriod.filter(({ product }) => product === undefined),
  }
}

export function factsOf(view: SiteView, period: Period): SiteFacts {
  const { name, address } = view.site.data
  return {
    id: view.id,
    name,
    address,
    file: view.site.file,
    begins: view.begins,
    extents: [...view.areas.values()]
      .filter(({ from, until }) => from <= period.to && (until === undefined || until >= period.from))
      .map(({ facts }) => quantityOf(facts.extent)),
  }
}

function useOf(view: SiteView, treatment: Treatment, product: Loaded<'product'>): Use {
  const inAll = quantityOf(treatment.amount)
  const isAlone = treatment.areas.length === 1
  const parts = treatment.areas.map(({ id, area, amount }) => ({
    area: id,
    areaName: areaName(view, id),
    extent: quantityOf(area?.facts.extent),
    amount: quantityOf(amount) ?? (isAlone ? inAll : undefined),
  }))
  const recorded = parts.flatMap(({ amount }) => (amount ? [amount] : []))
  return {
    siteId: view.id,
    how: treatment.how,
    day: treatment.day,
    product,
    pests: treatment.pests,
    method: treatment.method,
    amounts: inAll ? [inAll] : recorded,
    isWhole: inAll !== undefined || (recorded.length > 0 && recorded.length === parts.length),
    inAll,
    parts,
    by: treatment.by,
    time: treatment.record.data.time,
    supervisedBy: treatment.application?.['supervised-by'],
    file: treatment.record.file,
  }
}

function quantityOf(text: string | undefined): Quantity | undefined {
  return text === undefined ? undefined : (parseQuantity(text) ?? undefined)
}
