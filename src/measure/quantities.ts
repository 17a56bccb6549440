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
import { type Dimension, spellings, type Unit, type UnitFacts, unitFacts } from './unit-table.js'

/** One number with its unit. */
export interface Quantity {
  readonly value: number
  readonly unit: Unit
  readonly dimension: Dimension
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
  const known = readBefore.get(text)
  if (known !== undefined) return known
  const read = readQuantity(text)
  if (readBefore.size >= 10_000) readBefore.clear()
  readBefore.set(text, read)
  return read
}

/** A ledger says `4 block` thousands of times. */
const readBefore = new Map<string, Quantity | null>()

function readQuantity(text: string): Quantity | null {
  if (!anyQuantity.test(text)) return null
  const space = text.indexOf(' ')
  const facts = unitFacts(text.slice(space + 1))
  if (facts === undefined) return null
  // −0 is written back as 0.
  return { value: Number(text.slice(0, space)) + 0, unit: facts.unit, dimension: facts.dimension }
}

function factorOf(facts: UnitFacts): Fraction {
  return over(fractionOf(facts.factor), fractionOf(facts.over ?? '1'))
}

function zeroOf(facts: UnitFacts): Fraction {
  return fractionOf(facts.zeroAt ?? '0')
}

/** In base units, exactly; null when the number is not finite. */
function inBaseUnits(value: number, facts: UnitFacts): Fraction | null {
  if (!Number.isFinite(value)) return null
  return times(plus(fractionOf(String(value)), minus(zeroOf(facts))), factorOf(facts))
}

/** A quantity in the base unit of what it measures (mL, g, m, m², g/L, minutes, …), exactly. */
export function exactly(quantity: Quantity): Fraction | null {
  const facts = unitFacts(quantity.unit)
  return facts === undefined ? null : inBaseUnits(quantity.value, facts)
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
  return compareFractions(baseA, baseB)
}
