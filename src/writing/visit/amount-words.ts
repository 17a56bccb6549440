import { amountUnits } from '../../records/units.js'
import type { YamlMap } from '../demo/yaml.js'
import { matched } from './words.js'

/** A quantity at the beginning of some words, and the words after it; undefined where there is none. */
export function quantityTyped(
  words: readonly string[],
  units: readonly string[],
): { readonly quantity: string; readonly rest: readonly string[] } | undefined {
  const [number = '', ...after] = words
  const line = after.join(' ')
  const unit = [...units]
    .sort((a, b) => b.length - a.length)
    .find((one) => line === one || line.startsWith(`${one} `))
  if (!/^(?:0|[1-9][0-9]*)(?:\.[0-9]+)?$/.test(number) || unit === undefined) return undefined
  return { quantity: `${number} ${unit}`, rest: after.slice(unit.split(' ').length) }
}

/** `1 block block-x`: bait put in, and the product that it is of, where one is named and no other word follows. */
export function baitTyped(
  words: readonly string[],
  products: readonly string[],
  isWord: (word: string) => boolean,
): { readonly facts: YamlMap; readonly rest: readonly string[] } | { readonly complaint: string } {
  const amount = quantityTyped(words, amountUnits)
  if (!amount)
    return {
      complaint: `how much? Write the amount with its unit, as added 1 block; units are ${amountUnits.join(', ')}.`,
    }
  const facts = { 'bait-added': amount.quantity }
  const [product, ...rest] = amount.rest
  if (product === undefined || isWord(product)) return { facts, rest: amount.rest }
  const found = matched(product, products, 'product')
  return 'complaint' in found ? found : { facts: { ...facts, product: found.word }, rest }
}
