import { type Fraction, fractionOf, nought, over, plus, times } from './fractions.js'
import { exactly, type Quantity } from './quantities.js'
import { gramsOfOne, type ProductMeasures, type Sums, sumAs } from './rates.js'

/**
 * How much of an active ingredient is in an amount of undiluted product. A percentage is of the weight of the product
 * (40 CFR 156.10(g)(4), from memory), so that of a volume it tells nothing without the density; a strength by volume
 * (lb/gal, g/L) tells nothing of a weight without it. Pieces tell nothing unless it is known what one weighs.
 */

/** Why the active ingredient in part of an amount cannot be told. */
export type NotTold = 'pieces' | 'percent-of-a-volume' | 'strength-by-volume-of-a-weight'

export interface ActiveIngredient {
  /** Grams of it in whatever can be told; null if nothing can. */
  readonly grams: Fraction | null
  /** What could not be told, each reason once, in a fixed order. */
  readonly notTold: readonly NotTold[]
}

const gram: Quantity = { value: 1, unit: 'g', dimension: 'weight' }
const millilitre: Quantity = { value: 1, unit: 'mL', dimension: 'volume' }
const reasons: readonly NotTold[] = ['pieces', 'percent-of-a-volume', 'strength-by-volume-of-a-weight']

/** The grams of an ingredient of this strength (%, lb/gal or g/L) in sums of undiluted product. */
export function activeIngredientIn(
  sums: Sums,
  strength: Quantity,
  measures?: ProductMeasures,
): ActiveIngredient {
  let grams: Fraction | null = null
  const found = new Set<NotTold>()
  for (const [kind, size] of sums) {
    const part = partOf(kind, size, strength, measures)
    if (typeof part === 'string') found.add(part)
    else grams = plus(grams ?? nought, part)
  }
  return { grams, notTold: reasons.filter((reason) => found.has(reason)) }
}

function partOf(
  kind: string,
  size: Fraction,
  strength: Quantity,
  measures: ProductMeasures | undefined,
): Fraction | NotTold {
  if (kind !== 'weight' && kind !== 'volume' && !gramsOfOne(kind, measures)) return 'pieces'
  const inPercent = strength.dimension === 'percent'
  const told = sumAs(new Map([[kind, size]]), inPercent ? gram : millilitre, measures)
  if (told.leftOut) return inPercent ? 'percent-of-a-volume' : 'strength-by-volume-of-a-weight'
  const ratio = exactly(strength) ?? nought
  return over(times(told.size, ratio), fractionOf(inPercent ? '100' : '1000'))
}
