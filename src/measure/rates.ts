import {
  compareFractions,
  type Fraction,
  fractionOf,
  nought,
  numberOf,
  over,
  plus,
  times,
} from './fractions.js'
import { convert, exactly, type Quantity } from './quantities.js'
import type { Unit } from './unit-table.js'

/**
 * Exact sums by what they measure: volume, weight, extent …, and each kind of piece apart. A fluid ounce and an ounce
 * never meet here; only a density brings them together.
 */
export type Sums = ReadonlyMap<string, Fraction>

/** What a quantity adds to: pieces of different kinds are as unlike as volume and weight. */
function kindOf({ dimension, unit }: Quantity): string {
  return dimension === 'pieces' ? unit : dimension
}

/** The sums with one more quantity, or with one taken away. */
export function withOne(sums: Sums, quantity: Quantity, take: 'add' | 'take away' = 'add'): Sums {
  const size = exactly(quantity)
  if (size === null) return sums
  const signed = take === 'add' ? size : { ...size, numerator: -size.numerator }
  const kind = kindOf(quantity)
  return new Map(sums).set(kind, reduced(plus(sums.get(kind) ?? nought, signed)))
}

export function sumsOf(quantities: readonly Quantity[]): Sums {
  return quantities.reduce((sums: Sums, quantity) => withOne(sums, quantity), new Map())
}

/** What turns one measure of a product into another: weight is where volume and pieces meet. */
export interface ProductMeasures {
  /** Weight of a volume. */
  readonly density?: Quantity | undefined
  /** Weight of one piece, by the unit in which it is counted. */
  readonly pieceWeights?: ReadonlyMap<string, Quantity> | undefined
}

/**
 * Everything in the sums that measures the same as `like`, in its base unit: weight as volume and volume as weight
 * where the density is known, and pieces as either where it is known what one weighs. What cannot be told in that way
 * is `leftOut`.
 */
export function sumAs(
  sums: Sums,
  like: Quantity,
  measures?: ProductMeasures,
): { readonly size: Fraction; readonly leftOut: boolean } {
  let size = nought
  let leftOut = false
  for (const [kind, part] of sums) {
    const told = kind === kindOf(like) ? part : overWeight(kind, part, kindOf(like), measures)
    if (told) size = plus(size, told)
    else leftOut = true
  }
  return { size: reduced(size), leftOut }
}

/** Millilitres, grams or pieces of one kind as another of these, over what they weigh. */
function overWeight(
  kind: string,
  part: Fraction,
  asKind: string,
  measures?: ProductMeasures,
): Fraction | null {
  const from = gramsOfOne(kind, measures)
  const to = gramsOfOne(asKind, measures)
  return from && to ? over(times(part, from), to) : null
}

/** What a gram, a millilitre or a piece of a product weighs, in grams; null where nothing tells it. */
export function gramsOfOne(kind: string, measures: ProductMeasures | undefined): Fraction | null {
  if (kind === 'weight') return fractionOf('1')
  if (kind === 'volume') {
    const { density } = measures ?? {}
    const gramsALitre = density?.dimension === 'strength' ? aboveZero(density) : null
    return gramsALitre && over(gramsALitre, fractionOf('1000'))
  }
  const weight = measures?.pieceWeights?.get(kind)
  return weight?.dimension === 'weight' ? aboveZero(weight) : null
}

function aboveZero(quantity: Quantity): Fraction | null {
  const size = exactly(quantity)
  return size && size.numerator > 0n ? size : null
}

/** A limit such as 16 fl oz per 1000 ft2; what is counted, such as placements, is per `1 each`. */
export interface Rate {
  readonly most: Quantity
  readonly per: Quantity
}

/** How an amount on an extent, a length, a space or a number of places stands to a rate. */
export interface HeldAgainstRate {
  /** −1, 0 or 1 as it is below, at or above the rate, exactly. */
  readonly compared: -1 | 0 | 1
  /** The rate that was used, in the unit of the limit and per the same. */
  readonly used: Quantity
}

/**
 * Holds amounts on something against a rate, by cross-multiplication, so that exactly the limit is never above it.
 * Null where the units do not compare, nothing is given, or it was used on nothing.
 */
export function heldAgainstRate(
  amounts: readonly Quantity[],
  on: readonly Quantity[],
  rate: Rate,
  measures?: ProductMeasures,
): HeldAgainstRate | null {
  const amount = sumAs(sumsOf(amounts), rate.most, measures)
  const size = sumAs(sumsOf(on), rate.per)
  const most = exactly(rate.most)
  const per = exactly(rate.per)
  if (amounts.length === 0 || amount.leftOut || size.leftOut || most === null || per === null) return null
  if (size.size.numerator <= 0n) return null
  const used = over(times(amount.size, per), size.size)
  return { compared: compareFractions(used, most), used: inUnitOf(used, rate.most) }
}

/** A size in base units as a quantity in the unit of another. */
export function inUnitOf(size: Fraction, like: Quantity): Quantity {
  const one = exactly({ ...like, value: 1 })
  return { ...like, value: one === null ? Number.NaN : numberOf(over(size, one)) }
}

/** A count as a quantity, for rates per placement, station or area. */
export function counted(value: number): Quantity {
  return { value, unit: 'each' satisfies Unit, dimension: 'pieces' }
}

/**
 * A quantity as text with at most six significant digits. `above` is a limit known to be exceeded: a figure that
 * rounds to it is said to be just above it.
 */
export function shown(quantity: Quantity, above?: Quantity): string {
  const text = (value: number) => String(Number(value.toPrecision(6)))
  const limit = above && convert(above, quantity.unit)
  const just = limit && text(limit.value) === text(quantity.value) ? 'just above ' : ''
  return `${just}${text(quantity.value)} ${quantity.unit}`
}

function reduced({ numerator, denominator }: Fraction): Fraction {
  let [a, b] = [numerator < 0n ? -numerator : numerator, denominator]
  while (b > 0n) [a, b] = [b, a % b]
  return a > 1n ? { numerator: numerator / a, denominator: denominator / a } : { numerator, denominator }
}
