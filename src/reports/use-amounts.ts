import type { Loaded } from '../ledger/loaded.js'
import { measuresOf } from '../ledger/product-measures.js'
import { activeIngredientIn, type NotTold } from '../measure/active-ingredient.js'
import { type Fraction, nought, numberOf, plus } from '../measure/fractions.js'
import type { Quantity } from '../measure/quantities.js'
import { parseQuantity } from '../measure/quantities.js'
import {
  gramsOfOne,
  inUnitOf,
  type ProductMeasures,
  type Sums,
  shown,
  sumAs,
  sumsOf,
} from '../measure/rates.js'
import type { Unit } from '../measure/unit-table.js'
import { activeTable } from '../records/tables.js'

/** Amounts of one product that are added up. */
export interface Portion {
  readonly product: Loaded<'product'>
  readonly amounts: readonly Quantity[]
}

const gram: Quantity = { value: 1, unit: 'g', dimension: 'weight' }
const millilitre: Quantity = { value: 1, unit: 'mL', dimension: 'volume' }

/** Undiluted amounts of whatever products, by what they measure. */
export interface Amounts {
  readonly grams: number | null
  readonly millilitres: number | null
  /** Each kind of piece apart, of those that the weight does not tell: `8 block; 2 packet`. */
  readonly pieces: string | null
  readonly pieceCounts: ReadonlyMap<string, number>
  /** Pieces that the weight tells, since the register has what one weighs. */
  readonly weighedPieces: string | null
  /** All of it for a person, in the unit it was written in where that is one. */
  readonly text: string | null
}

/**
 * What the portions add up to. Weight and volume are added only within one product and with its density, and then as
 * weight; otherwise they stand side by side. Pieces are told by weight where the register has what one weighs.
 */
export function amountsOf(portions: readonly Portion[]): Amounts {
  const sums = new Map<string, Fraction>()
  const weighed = new Map<string, Fraction>()
  const written: Quantity[] = []
  let onlyPieces = true
  const add = (to: Map<string, Fraction>, kind: string, size: Fraction) =>
    to.set(kind, plus(to.get(kind) ?? nought, size))
  for (const { product, amounts } of byProduct(portions)) {
    const measures = measuresOf(product)
    const each = sumsOf(amounts)
    const told = toldOnce(each, measures)
    for (const [kind, size] of told) add(sums, kind, size)
    if (each.has('weight') || (each.has('volume') && !told.has('volume'))) onlyPieces = false
    written.push(...amounts)
    for (const [kind, size] of each) {
      const ofOne = measures.pieceWeights?.get(kind)
      if (!ofOne || !gramsOfOne(kind, measures)) continue
      add(weighed, kind, size)
      written.push(ofOne)
    }
  }
  const [weight, volume] = [sums.get('weight'), sums.get('volume')]
  const counts = countsIn(sums)
  const pieces = inPieces(counts)
  const inWeight = inPieces(countsIn(weighed))
  const ofIt = inWeight.length === 0 ? '' : ` (${inWeight.join(', ')}${onlyPieces ? '' : ' in it'})`
  const texts = [
    ...(weight ? [`${shown(inUnitOf(weight, oneUnit(written, gram)))}${ofIt}`] : []),
    ...(volume ? [shown(inUnitOf(volume, oneUnit(written, millilitre)))] : []),
    ...pieces,
  ]
  return {
    grams: weight ? numberOf(weight) : null,
    millilitres: volume ? numberOf(volume) : null,
    pieces: pieces.length === 0 ? null : pieces.join('; '),
    pieceCounts: counts,
    weighedPieces: inWeight.length === 0 ? null : inWeight.join('; '),
    text: texts.length === 0 ? null : texts.join('; '),
  }
}

const plainly = (value: number) => String(Number(value.toPrecision(6)))

const isPiece = (kind: string) => kind !== 'weight' && kind !== 'volume'

/** Sums of pieces by their kind, in a fixed order. */
function countsIn(sums: Sums): ReadonlyMap<string, number> {
  const kinds = [...sums.keys()].filter(isPiece).sort()
  return new Map(kinds.map((kind) => [kind, numberOf(sums.get(kind) ?? nought)]))
}

const inPieces = (counts: ReadonlyMap<string, number>) =>
  [...counts].map(([kind, count]) => `${plainly(count)} ${kind}`)

/**
 * Amounts of a product as one weight, as far as the register tells it: pieces always, a volume only beside something
 * that is weighed.
 */
function toldOnce(sums: Sums, measures: ProductMeasures): Sums {
  const isTold = (kind: string) => gramsOfOne(kind, measures) !== null
  if (![...sums.keys()].some((kind) => kind !== 'volume' && isTold(kind))) return sums
  const told = new Map([...sums].filter(([kind]) => isTold(kind)))
  const others = [...sums].filter(([kind]) => !isTold(kind))
  return new Map([...others, ['weight', sumAs(told, gram, measures).size] as const])
}

/** The unit in which all that measures the same as `like` was written, or the base unit. */
function oneUnit(written: readonly Quantity[], like: Quantity): Quantity {
  const units = new Set(
    written.filter(({ dimension }) => dimension === like.dimension).map(({ unit }) => unit),
  )
  const [unit] = units
  return unit !== undefined && units.size === 1 ? { ...like, unit: unit as Unit } : like
}

/** Why the active ingredient in something is not told, or not in all of it. */
export type WhyNot = NotTold | 'no-amount' | 'no-strength'

const whyNotInWords: Readonly<Record<WhyNot, string>> = {
  'no-amount': 'no amount recorded',
  'no-strength': 'no active ingredient in the register',
  pieces: 'pieces, and no weight of one in the register',
  'percent-of-a-volume': 'a volume of a product whose strength is in %, and no density in the register',
  'strength-by-volume-of-a-weight':
    'a weight of a product whose strength is by volume, and no density in the register',
}

export function inWords(reasons: ReadonlySet<WhyNot>): string | null {
  const said = (Object.keys(whyNotInWords) as WhyNot[]).filter((reason) => reasons.has(reason))
  return said.length === 0 ? null : said.map((reason) => whyNotInWords[reason]).join('; ')
}

export interface IngredientOfProduct {
  readonly id: string
  readonly name: string
  readonly strength: Quantity
}

export function ingredientsOf(product: Loaded<'product'>): IngredientOfProduct[] {
  return Object.entries(product.data['active-ingredients'] ?? {}).flatMap(([id, { strength }]) => {
    const read = parseQuantity(strength)
    return read ? [{ id, name: activeTable().get(id)?.name ?? id, strength: read }] : []
  })
}

export interface ActiveTold {
  readonly grams: Fraction | null
  readonly whyNot: ReadonlySet<WhyNot>
}

/** Active ingredient in portions: one ingredient, or all of them together if none is named. */
export function activeOf(portions: readonly Portion[], ingredient?: string): ActiveTold {
  let grams: Fraction | null = null
  const whyNot = new Set<WhyNot>()
  for (const { product, amounts } of byProduct(portions)) {
    const all = ingredientsOf(product)
    if (all.length === 0) whyNot.add('no-strength')
    for (const { id, strength } of all) {
      if (ingredient !== undefined && id !== ingredient) continue
      const told = activeIngredientIn(sumsOf(amounts), strength, measuresOf(product))
      if (told.grams) grams = plus(grams ?? nought, told.grams)
      for (const reason of told.notTold) whyNot.add(reason)
    }
  }
  return { grams, whyNot }
}

/** Portions of the same product as one, so that sums stay short. */
function byProduct(portions: readonly Portion[]): Portion[] {
  const products = new Map<string, { product: Loaded<'product'>; amounts: Quantity[] }>()
  for (const { product, amounts } of portions) {
    const known = products.get(product.id)
    if (known) known.amounts.push(...amounts)
    else products.set(product.id, { product, amounts: [...amounts] })
  }
  return [...products.values()]
}
