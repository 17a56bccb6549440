import type { Quantity } from '../measure/quantities.js'
import { parseQuantity } from '../measure/quantities.js'
import { UsageError } from './usage-error.js'

/** A length above zero as a person types it: `60 ft`, `60ft`, `0.5 in`. */
export function lengthOption(what: string, text: string, example: string): Quantity {
  const quantity = parseQuantity(text.trim().replace(/^([0-9.]+)([a-z])/, '$1 $2'))
  if (quantity?.dimension !== 'length' || !(quantity.value > 0))
    throw new UsageError(`${what} ${text}: write a length with its unit, such as "${example}" or "0.5 in".`)
  return quantity
}
