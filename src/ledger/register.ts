import type { RecordOf } from '../records/kinds.js'
import type { Loaded } from './loaded.js'

/** What is looked at of a product that was not used, when it is asked whether it could have been. */
const keysOfChoice = [
  'name',
  'kind',
  'signal-word',
  'formulation',
  'restricted-use',
  'states',
  'cancelled',
  'labels',
] as const satisfies readonly (keyof RecordOf<'product'>)[]

/** A product as someone sees it who chooses among all: with no more of its record than the choice rests on. */
export interface RegisterEntry extends Omit<Loaded<'product'>, 'data'> {
  readonly data: Pick<RecordOf<'product'>, (typeof keysOfChoice)[number]>
}

/** The register of products. What else is changed in a record, such as a safety data sheet, leaves it as it was. */
export function registerOf(products: ReadonlyMap<string, Loaded<'product'>>): RegisterEntry[] {
  return [...products.values()].map((product) => {
    const data = Object.fromEntries(keysOfChoice.map((key) => [key, product.data[key]]))
    return { ...product, data: data as RegisterEntry['data'] }
  })
}
