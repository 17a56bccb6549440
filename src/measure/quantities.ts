import { type Dimension, spellings, type Unit, type UnitFacts, unitFacts } from './unit-table.js'

/** One number with its unit. */
export interface Quantity {
  value: number
  unit: Unit
  dimension: Dimension
}

/** An exact fraction; the denominator is above zero. */
interface Ratio {
  numerator: bigint
  denominator: bigint
}

/**
 * Nine digits before the point and six after it: every such number survives the way through a double and
 * back.
 */
const plainNumber = '(?:0|[1-9][0-9]{0,8})(?:\\.[0-9]{1,6})?'

/**
 * Source of a regular expression (anchored, no flags needed; the same in a JSON Schema `pattern`) for a
 * quantity of the given dimensions, or of any when none is given: a plain decimal number, one space, a unit.
 * Only a temperature may be below zero.
 */
export function quantityPatternFor(...dimensions: readonly Dimension[]): string {
  const asked = spellings(...dimensions)
  const temperatures = spellings('temperature').filter((spelling) => asked.includes(spelling))
  const others = asked.filter((spelling) => !temperatures.includes(spelling))
  const branches: string[] = []
  if (others.length > 0) branches.push(`${plainNumber} (?:${others.join('|')})`)
  if (temperatures.length > 0) branches.push(`-?${plainNumber} (?:${temperatures.join('|')})`)
  return `^(?:${branches.join('|')})$`
}

/** `quantityPatternFor` every dimension. */
export const quantityPattern = quantityPatternFor()

const anyQuantity = new RegExp(quantityPattern)

/**
 * Reads one number with its unit: `4.5 fl oz`, `12 ft`, `0.5 %`. The number is a plain decimal (0.5, not .5
 * or 1/2 or 1,000) followed by one space; the unit is spelled as in `unitTable`, where `ft²` is read as `ft2`
 * and `3 days` as `3 day`. Null for anything else, and for numbers of more than nine digits before or six
 * after the point.
 */
export function parseQuantity(text: string): Quantity | null {
  if (!anyQuantity.test(text)) return null
  const space = text.indexOf(' ')
  const facts = unitFacts(text.slice(space + 1))
  if (facts === undefined) return null
  // −0 is written back as 0.
  return { value: Number(text.slice(0, space)) + 0, unit: facts.unit, dimension: facts.dimension }
}

/** Exact value of a decimal numeral, with or without an exponent. */
function ratioOf(decimal: string): Ratio {
  const [mantissa = '0', exponent = '0'] = decimal.toLowerCase().split('e')
  const [whole = '0', fraction = ''] = mantissa.split('.')
  const digits = BigInt(whole + fraction)
  const places = fraction.length - Number(exponent)
  return places >= 0
    ? { numerator: digits, denominator: 10n ** BigInt(places) }
    : { numerator: digits * 10n ** BigInt(-places), denominator: 1n }
}

function times(a: Ratio, b: Ratio): Ratio {
  return { numerator: a.numerator * b.numerator, denominator: a.denominator * b.denominator }
}

function over(a: Ratio, b: Ratio): Ratio {
  return { numerator: a.numerator * b.denominator, denominator: a.denominator * b.numerator }
}

function plus(a: Ratio, b: Ratio): Ratio {
  return {
    numerator: a.numerator * b.denominator + b.numerator * a.denominator,
    denominator: a.denominator * b.denominator,
  }
}

function factorOf(facts: UnitFacts): Ratio {
  return over(ratioOf(facts.factor), ratioOf(facts.over ?? '1'))
}

function zeroOf(facts: UnitFacts): Ratio {
  return ratioOf(facts.zeroAt ?? '0')
}

function minus(a: Ratio): Ratio {
  return { numerator: -a.numerator, denominator: a.denominator }
}

/** In base units, exactly; null when the number is not finite. */
function inBaseUnits(value: number, facts: UnitFacts): Ratio | null {
  if (!Number.isFinite(value)) return null
  return times(plus(ratioOf(String(value)), minus(zeroOf(facts))), factorOf(facts))
}

/** The double nearest to a fraction (to twenty digits, then rounded). */
function numberOf({ numerator, denominator }: Ratio): number {
  if (numerator === 0n) return 0
  const size = numerator < 0n ? -numerator : numerator
  const shift = 20 + denominator.toString().length - size.toString().length
  const scaled =
    shift >= 0 ? (size * 10n ** BigInt(shift)) / denominator : size / (denominator * 10n ** BigInt(-shift))
  return Number(`${numerator < 0n ? '-' : ''}${scaled}e${-shift}`)
}

/** Pieces of different kinds are as unlike as volume and weight. */
function alike(a: UnitFacts, b: UnitFacts): boolean {
  return a.dimension === b.dimension && (a.dimension !== 'pieces' || a.unit === b.unit)
}

/**
 * The same quantity in another unit, by exact arithmetic, rounded once at the end. Null when the units do not
 * measure the same thing (a fluid ounce is never an ounce, a block never a packet, a month never 30 days) or
 * there is no such unit.
 */
export function convert(quantity: Quantity, unit: string): Quantity | null {
  const from = unitFacts(quantity.unit)
  const to = unitFacts(unit)
  if (from === undefined || to === undefined || !alike(from, to)) return null
  const base = inBaseUnits(quantity.value, from)
  if (base === null) return null
  const value = from.unit === to.unit ? quantity.value : numberOf(plus(over(base, factorOf(to)), zeroOf(to)))
  return { value, unit: to.unit, dimension: to.dimension }
}

/**
 * −1, 0 or 1 as the first quantity is smaller than, equal to or larger than the second, exactly: 4356 ft2
 * equals 0.1 acre. A number counts as the decimal it is written as (0.1 is one tenth). Null when the two do
 * not measure the same thing.
 */
export function compareQuantities(a: Quantity, b: Quantity): -1 | 0 | 1 | null {
  const factsA = unitFacts(a.unit)
  const factsB = unitFacts(b.unit)
  if (factsA === undefined || factsB === undefined || !alike(factsA, factsB)) return null
  const baseA = inBaseUnits(a.value, factsA)
  const baseB = inBaseUnits(b.value, factsB)
  if (baseA === null || baseB === null) return null
  const left = baseA.numerator * baseB.denominator
  const right = baseB.numerator * baseA.denominator
  if (left === right) return 0
  return left < right ? -1 : 1
}
