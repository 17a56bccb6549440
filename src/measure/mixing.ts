import {
  compareFractions,
  type Fraction,
  fractionOf,
  minus,
  numberOf,
  over,
  plus,
  times,
} from './fractions.js'
import { exactly, type Quantity } from './quantities.js'
import { type Dimension, type Unit, unitFacts } from './unit-table.js'

/**
 * The arithmetic of a label's mixing directions, by exact fractions: Q = A·S/C, and where a weight is to come of a
 * volume Q = A·S·D/C, with A the amount to make, S its strength, C the strength of the product and D the weight of a
 * volume of the diluent (US Army Medical Department, subcourse MD0173).
 */

/** An exact amount in units that go together without further factors: mL, g, g/mL, shares of one, m², m; and how to write it. */
export interface Amount {
  readonly size: Fraction
  readonly unit: Unit
}

export type Operation = '×' | '÷' | '−'

/** One line of the working, in the order in which it is done. */
export interface Step {
  readonly what: StepName
  readonly start: Amount
  readonly then: readonly (readonly [Operation, Amount])[]
  readonly result: Amount
}

export type StepName =
  | 'weight of the mix'
  | 'volume of the mix'
  | 'active ingredient'
  | 'undiluted product'
  | 'undiluted product by weight'
  | 'undiluted product by volume'
  | 'undiluted product in pieces'
  | 'diluent'
  | 'diluent by weight'
  | 'diluent by volume'

/** What goes into a mix. A part is left out where only a density that was not given would tell it. */
export interface Mix {
  /** In the unit that follows from what was asked. */
  readonly product: Amount
  /** The same by weight instead of by volume or in pieces, or the other way round. */
  readonly productOtherwise?: Amount
  readonly diluent?: Amount
  readonly steps: readonly Step[]
}

/** Why there is no answer. */
export type NoMix = 'target stronger than product' | 'more product than mix' | 'density of the diluent needed'

export interface Densities {
  /** Weight of a volume of the undiluted product. */
  readonly product?: Quantity | undefined
  /** Weight of one piece of the undiluted product, by the unit in which it is counted. */
  readonly pieceWeights?: ReadonlyMap<string, Quantity> | undefined
  /** Weight of a volume of the diluent, such as water. */
  readonly diluent?: Quantity | undefined
}

const thousand = fractionOf('1000')
const hundred = fractionOf('100')

export function amountOf(quantity: Quantity): Amount {
  const size = exactly(quantity) ?? fractionOf('0')
  return { size: over(size, baseOf(quantity.dimension)), unit: quantity.unit }
}

/** An amount as a number in its own unit or in another that measures the same, rounded once. */
export function quantityOf(amount: Amount, unit: Unit = amount.unit): Quantity {
  const one = amountOf({ value: 1, unit, dimension: dimensionOf(unit) })
  return { value: numberOf(over(amount.size, one.size)), unit, dimension: dimensionOf(unit) }
}

export function dimensionOf(unit: Unit): Dimension {
  return unitFacts(unit)?.dimension ?? 'pieces'
}

function baseOf(dimension: Dimension): Fraction {
  if (dimension === 'strength') return thousand
  return dimension === 'percent' ? hundred : fractionOf('1')
}

/** The units of a strength or density: lb and gal of lb/gal. */
function weightIn(strength: Quantity): Unit {
  return strength.unit === 'lb/gal' ? 'lb' : 'g'
}

function volumeIn(strength: Quantity): Unit {
  return strength.unit === 'lb/gal' ? 'gal' : 'L'
}

/** Works a line out, and writes it down. */
function worked(
  steps: Step[],
  what: StepName,
  unit: Unit,
  start: Amount,
  ...then: readonly (readonly [Operation, Amount])[]
): Amount {
  const size = then.reduce((sum, [operation, by]) => {
    if (operation === '×') return times(sum, by.size)
    return operation === '÷' ? over(sum, by.size) : plus(sum, minus(by.size))
  }, start.size)
  const result = { size, unit }
  steps.push({ what, start, then, result })
  return result
}

const isVolume = ({ unit }: Amount) => dimensionOf(unit) === 'volume'
const isWeight = ({ unit }: Amount) => dimensionOf(unit) === 'weight'

/** Product by volume or in pieces told by weight, or the other way round, where it is known what a volume or one weighs. */
function otherwise(
  steps: Step[],
  product: Amount,
  { product: density, pieceWeights = new Map() }: Densities,
): Amount | undefined {
  const ofOne = pieceWeights.get(product.unit)
  if (ofOne) return worked(steps, 'undiluted product by weight', ofOne.unit, product, ['×', amountOf(ofOne)])
  // A weight in pieces, where there is one kind of them, and no volume in which it could be told instead.
  const [only, ...others] = pieceWeights
  if (density === undefined && only && others.length === 0 && isWeight(product)) {
    const [piece, weight] = only
    return worked(steps, 'undiluted product in pieces', piece as Unit, product, ['÷', amountOf(weight)])
  }
  if (density === undefined) return undefined
  const by = amountOf(density)
  if (isVolume(product))
    return worked(steps, 'undiluted product by weight', weightIn(density), product, ['×', by])
  if (isWeight(product))
    return worked(steps, 'undiluted product by volume', volumeIn(density), product, ['÷', by])
  return undefined
}

/**
 * How much product gives so much mix of a strength. Two percents and a volume to make are read as parts of volume,
 * unless the weight of a volume of the diluent is given: then they are parts of weight, and the product comes by weight.
 */
export function mixToStrength(
  asked: { readonly strength: Quantity; readonly target: Quantity; readonly make: Quantity },
  densities: Densities = {},
): Mix | NoMix {
  const [strength, target, make] = [amountOf(asked.strength), amountOf(asked.target), amountOf(asked.make)]
  const alike = asked.strength.dimension === asked.target.dimension
  if (alike && compareFractions(target.size, strength.size) > 0) return 'target stronger than product'
  const steps: Step[] = []
  const percents = alike && asked.target.dimension === 'percent'
  const byParts = percents && (isWeight(make) || densities.diluent === undefined)
  const whole = byParts ? make : wholeFor(steps, asked.target, make, densities.diluent)
  if (typeof whole === 'string') return whole
  const product = worked(
    steps,
    'undiluted product',
    byParts ? make.unit : productUnit(asked, whole),
    whole,
    ['×', target],
    ['÷', strength],
  )
  const productOtherwise = otherwise(steps, product, densities)
  return withDiluent(steps, { make, whole }, product, productOtherwise, densities.diluent)
}

function productUnit(
  { strength, target }: { readonly strength: Quantity; readonly target: Quantity },
  whole: Amount,
): Unit {
  if (strength.dimension === 'strength') return volumeIn(strength)
  return isWeight(whole) ? whole.unit : weightIn(target)
}

/** The mix in what its strength is a share of: weight for a percent, volume for a weight per volume. */
function wholeFor(
  steps: Step[],
  target: Quantity,
  make: Amount,
  density: Quantity | undefined,
): Amount | NoMix {
  const asWeight = target.dimension === 'percent'
  if (asWeight ? isWeight(make) : isVolume(make)) return make
  if (density === undefined) return 'density of the diluent needed'
  return asWeight
    ? worked(steps, 'weight of the mix', weightIn(density), make, ['×', amountOf(density)])
    : worked(steps, 'volume of the mix', volumeIn(density), make, ['÷', amountOf(density)])
}

/** What is left of the mix when the product is taken off, as far as volumes or weights can be told. */
function withDiluent(
  steps: Step[],
  { make, whole }: { readonly make: Amount; readonly whole: Amount },
  product: Amount,
  productOtherwise: Amount | undefined,
  density: Quantity | undefined,
): Mix | NoMix {
  const mix = { product, ...(productOtherwise ? { productOtherwise } : {}) }
  const forms = productOtherwise ? [product, productOtherwise] : [product]
  const like = (amount: Amount) => forms.find((form) => dimensionOf(form.unit) === dimensionOf(amount.unit))
  const sameAsMade = like(make)
  if (sameAsMade) {
    if (compareFractions(sameAsMade.size, make.size) > 0) return 'more product than mix'
    const diluent = worked(steps, 'diluent', make.unit, make, ['−', sameAsMade])
    return { ...mix, diluent, steps }
  }
  const sameAsWhole = like(whole)
  if (!sameAsWhole || density === undefined) return { ...mix, steps }
  if (compareFractions(sameAsWhole.size, whole.size) > 0) return 'more product than mix'
  const left = worked(steps, isWeight(whole) ? 'diluent by weight' : 'diluent by volume', whole.unit, whole, [
    '−',
    sameAsWhole,
  ])
  const diluent = isWeight(whole)
    ? worked(steps, 'diluent by volume', make.unit, left, ['÷', amountOf(density)])
    : worked(steps, 'diluent by weight', make.unit, left, ['×', amountOf(density)])
  return { ...mix, diluent, steps }
}

/** A rate of the label: so much on, or in, so much. */
export interface MixingRate {
  readonly rate: Quantity
  readonly per: Quantity
  /** The extent to treat, or the volume of mix to make; measures the same as `per`. */
  readonly on: Quantity
}

/**
 * How much product a rate comes to. `strength` is given when the rate is of active ingredient. `carrier` is water per
 * extent, as a label states it; a rate per volume is one of finished mix.
 */
export function mixAtRate(
  asked: MixingRate & {
    readonly strength?: Quantity | undefined
    readonly carrier?: { readonly water: Quantity; readonly per: Quantity } | undefined
    readonly inMix: boolean
  },
  densities: Densities = {},
): Mix | NoMix {
  const steps: Step[] = []
  const on = amountOf(asked.on)
  const { strength, carrier } = asked
  const total = worked(
    steps,
    strength ? 'active ingredient' : 'undiluted product',
    asked.rate.unit,
    on,
    ['×', amountOf(asked.rate)],
    ['÷', amountOf(asked.per)],
  )
  const product = strength
    ? worked(
        steps,
        'undiluted product',
        strength.dimension === 'strength' ? volumeIn(strength) : total.unit,
        total,
        ['÷', amountOf(strength)],
      )
    : total
  const productOtherwise = otherwise(steps, product, densities)
  if (asked.inMix) return withDiluent(steps, { make: on, whole: on }, product, productOtherwise, undefined)
  const mix = { product, ...(productOtherwise ? { productOtherwise } : {}) }
  if (!carrier) return { ...mix, steps }
  const diluent = worked(
    steps,
    'diluent',
    carrier.water.unit,
    on,
    ['×', amountOf(carrier.water)],
    ['÷', amountOf(carrier.per)],
  )
  return { ...mix, diluent, steps }
}

/** Active ingredient in the product of a mix: volume × weight per volume, or weight × percent. */
export function activeIn({ product, productOtherwise }: Mix, strength: Quantity): Step | undefined {
  const forms = productOtherwise ? [product, productOtherwise] : [product]
  const isShare = strength.dimension === 'percent'
  const form = forms.find((amount) => (isShare ? isWeight(amount) : isVolume(amount)))
  if (!form) return undefined
  const steps: Step[] = []
  worked(steps, 'active ingredient', isShare ? form.unit : weightIn(strength), form, [
    '×',
    amountOf(strength),
  ])
  return steps[0]
}

/** Whether a mix spread over an extent is below (−1), at (0) or above (1) a limit, exactly; null where units differ. */
export function againstLimit(
  { product, productOtherwise }: Mix,
  on: Quantity,
  limit: { readonly most: Quantity; readonly per: Quantity },
): -1 | 0 | 1 | null {
  if (!measureAlike(on, limit.per)) return null
  const form = (productOtherwise ? [product, productOtherwise] : [product]).find((amount) =>
    measureAlike(quantityOf(amount), limit.most),
  )
  if (!form) return null
  return compareFractions(
    times(form.size, amountOf(limit.per).size),
    times(amountOf(limit.most).size, amountOf(on).size),
  )
}

export function measureAlike(a: Quantity, b: Quantity): boolean {
  return a.dimension === b.dimension && (a.dimension !== 'pieces' || a.unit === b.unit)
}
