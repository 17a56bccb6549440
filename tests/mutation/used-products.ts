import type { Draft } from './draft.js'
import { dataOf, mapAt, textAt } from './draft.js'
import type { Where } from './fault.js'
import { eventsOf, sitesOf, visitsOf } from './site-records.js'

/** A pesticide put to use, by an application or by filling a station. */
export interface PesticideUse {
  readonly site: string
  readonly file: string
  readonly day: number
  readonly by: string
  readonly product: string
  /** Where the record names the product, and where it names who did it. */
  readonly atProduct: Where
  readonly atBy: Where
}

export const productFile = (id: string) => `products/${id}/product.yaml`
export const personFile = (id: string) => `people/${id}.yaml`

/** Every use of a pesticide, by day, then by record. */
export function pesticideUses(draft: Draft): PesticideUse[] {
  const uses: PesticideUse[] = []
  for (const site of sitesOf(draft)) {
    const add = (event: { readonly file: string; readonly day: number }, by: string, path: string[]) => {
      const { file, day } = event
      const product = textAt(dataOf(draft, file), ...path) ?? ''
      if (!draft.files.has(productFile(product))) return
      if (textAt(dataOf(draft, productFile(product)), 'kind') !== 'pesticide') return
      uses.push({
        site,
        file,
        day,
        by,
        product,
        atProduct: { file, path },
        atBy: { file, path: ['by'] },
      })
    }
    for (const event of eventsOf(draft, site, 'applications'))
      if (event.data.status === 'done') add(event, textAt(event.data, 'by') ?? '', ['product'])
    for (const visit of visitsOf(draft, site))
      for (const key of ['set', 'readings'])
        for (const [device, facts] of Object.entries(mapAt(visit.data, key)))
          if (textAt(facts, 'product') !== undefined)
            add(visit, textAt(visit.data, 'by') ?? '', [key, device, 'product'])
  }
  return uses.sort((a, b) => a.day - b.day || (a.file < b.file ? -1 : a.file > b.file ? 1 : 0))
}

/** The first use at each site, on which what is wrong with all of them is told. */
export function firstAtEachSite(uses: readonly PesticideUse[]): PesticideUse[] {
  return uses.filter((use) => uses.find(({ site }) => site === use.site) === use)
}

/** Uses on days on which nothing else was used, so that it is clear which of them is told. */
export function usesAlone(uses: readonly PesticideUse[]): PesticideUse[] {
  return uses.filter((use) => uses.every((other) => other === use || other.day !== use.day))
}

/** The same where only the record is told, and not which of several stations it fills: one use of each. */
export function recordsAlone(uses: readonly PesticideUse[]): PesticideUse[] {
  const records = uses.filter((use) => uses.find(({ file }) => file === use.file) === use)
  return usesAlone(records)
}
