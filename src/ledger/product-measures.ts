import { parseQuantity, type Quantity } from '../measure/quantities.js'
import type { ProductMeasures } from '../measure/rates.js'
import type { Loaded } from './loaded.js'

const known = new WeakMap<Loaded<'product'>, ProductMeasures>()

/** What the register tells of a product that turns a volume or pieces of it into weight. */
export function measuresOf(product: Loaded<'product'>): ProductMeasures {
  const found = known.get(product)
  if (found) return found
  const { density, 'weight-per': weights } = product.data
  const made: ProductMeasures = {
    density: density === undefined ? undefined : (parseQuantity(density) ?? undefined),
    pieceWeights: new Map(
      Object.entries(weights ?? {}).flatMap(([piece, weight]): [string, Quantity][] => {
        const read = parseQuantity(weight ?? '')
        return read && read.value > 0 ? [[piece, read]] : []
      }),
    ),
  }
  known.set(product, made)
  return made
}
