import type { Quantity } from '../../measure/quantities.js'
import { parseQuantity } from '../../measure/quantities.js'
import { type Dimension, spellings } from '../../measure/unit-table.js'
import { nearest } from '../../records/nearest.js'
import { UsageError } from '../usage-error.js'

/** Words people write for a unit, and how it is written here. An ounce alone does not say which of the two it is. */
const otherWords = new Map([
  ['gallon', 'gal'],
  ['gallons', 'gal'],
  ['quart', 'qt'],
  ['quarts', 'qt'],
  ['pint', 'pt'],
  ['pints', 'pt'],
  ['pound', 'lb'],
  ['pounds', 'lb'],
  ['lbs', 'lb'],
  ['gram', 'g'],
  ['grams', 'g'],
  ['liter', 'L'],
  ['liters', 'L'],
  ['teaspoons', 'tsp'],
  ['tablespoons', 'tbsp'],
  ['sq ft', 'ft2'],
  ['square feet', 'ft2'],
  ['feet', 'ft'],
  ['percent', '%'],
  ['lbs/gal', 'lb/gal'],
  ['ounce', 'fl oz for a fluid ounce (volume), oz for an ounce of weight'],
  ['ounces', 'fl oz for a fluid ounce (volume), oz for an ounce of weight'],
])

const measures: Readonly<Partial<Record<Dimension, string>>> = {
  volume: 'a volume',
  weight: 'a weight',
  length: 'a length',
  area: 'an area',
  pieces: 'a count',
  percent: 'a percent',
  strength: 'a weight per volume',
}

export interface Wanted {
  readonly option: string
  readonly dimensions: readonly Dimension[]
  readonly example: string
}

/** A quantity above zero, as an option gives it; each mistake is told with what to write instead. */
export function quantityGiven(wanted: Wanted, text: string): Quantity {
  const { option, dimensions, example } = wanted
  const wrong = (why: string) => new UsageError(`${option} "${text}": ${why}`)
  const read = parseQuantity(text.trim())
  if (!read) throw wrong(whyUnreadable(text.trim(), wanted))
  if (!dimensions.includes(read.dimension)) throw wrong(whyWrongKind(read, wanted))
  if (read.value <= 0) throw wrong(`it has to be above zero, such as "${example}".`)
  if (read.dimension === 'percent' && read.value > 100) throw wrong('nothing is stronger than 100 %.')
  return read
}

/** What a rate is per: `1 acre`, or `placement` for one of them. */
export function perGiven(wanted: Wanted, text: string): Quantity {
  const isBare = !/^[-+.\d]/.test(text.trim())
  return quantityGiven(wanted, isBare ? `1 ${text.trim()}` : text)
}

function whyUnreadable(text: string, { dimensions, example }: Wanted): string {
  const [, number = '', unit = ''] = /^([-+]?[\d.,/]*)\s*(.*)$/.exec(text) ?? []
  if (number.startsWith('-')) return `an amount cannot be below zero; write it such as "${example}".`
  if (number === '') return `it needs a number and a unit, such as "${example}".`
  if (unit === '') return `it has no unit; write the number and its unit, such as "${example}".`
  const known = spellings(...dimensions)
  if (!spellings().includes(unit)) {
    const meant = otherWords.get(unit.toLowerCase()) ?? nearest(unit, known)
    return `${unit} is no unit known here; ${meant === undefined ? `it may be ${known.join(', ')}` : `did you mean ${meant}?`}${meant === undefined ? '.' : ''}`
  }
  if (parseQuantity(`${number} ${unit}`)) return `put one space between number and unit: "${number} ${unit}".`
  return `write the number as a plain decimal, such as "${example}" (0.5, not .5, 1/2 or 1,000; six decimals at most).`
}

function whyWrongKind({ unit, dimension }: Quantity, { dimensions, example }: Wanted): string {
  const asked = dimensions.map((one) => measures[one] ?? one).join(' or ')
  const is = measures[dimension] ?? `a ${dimension}`
  const ounces = unit === 'oz' ? ' A fluid ounce is written fl oz.' : ''
  return `${unit} measures ${is}, and this has to be ${asked}, such as "${example}".${ounces}`
}
