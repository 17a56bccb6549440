import { nearest } from '../../records/nearest.js'
import { amountUnits } from '../../records/units.js'
import type { Decimal, Refused } from './numbers.js'
import { isFormula } from './numbers.js'

/** An undiluted amount as a record has it, `1 block`; or none of it. */
export type ReadAmount = { readonly amount: string } | { readonly none: true } | Refused

/**
 * An amount with its unit, or a number whose unit stands elsewhere. Units are spelled as in records; none is guessed, and
 * a number with three digits behind its mark is read only where the mapping says what the mark is.
 */
export function readAmount(text: string, unit: string | undefined, decimal: Decimal | undefined): ReadAmount {
  if (isFormula(text))
    return {
      refused: `\`${text}\` is a formula, not an amount.`,
      todo: 'Save the sheet with the values of its cells.',
    }
  const match = /^([0-9][0-9.,]*)(?: *([^0-9.,\s].*))?$/.exec(text)
  if (!match)
    return { refused: `\`${text}\` is not an amount.`, todo: 'Write a number and its unit: `1 block`.' }
  const [, written = '', own] = match
  if (own !== undefined && unit !== undefined && own !== unit)
    return {
      refused: `\`${text}\` has a unit of its own, and its unit is to be \`${unit}\`.`,
      todo: 'Keep one of the two.',
    }
  const value = valueIn(written, decimal)
  if ('refused' in value) return value
  if (value.value === '0') return { none: true }
  const spelled = own ?? unit
  if (spelled === undefined)
    return {
      refused: `\`${text}\` has no unit.`,
      todo: `Write \`${text} block\`, \`${text} g\` or what it was; or say for all rows \`bait-unit: {always: block}\` in the mapping.`,
    }
  if ((amountUnits as readonly string[]).includes(spelled)) return { amount: `${value.value} ${spelled}` }
  const meant = nearest(spelled, amountUnits)
  return {
    refused: `\`${spelled}\` is no unit of an amount${meant === undefined ? '' : `; did you mean \`${meant}\`?`}${meant === undefined ? '.' : ''}`,
    todo: `There are ${amountUnits.join(', ')}; where the unit has a column of its own, say under \`names\` of \`bait-unit\` which it is.`,
  }
}

function valueIn(written: string, decimal: Decimal | undefined): { readonly value: string } | Refused {
  const match = /^([0-9]{1,9})(?:([.,])([0-9]{1,6}))?$/.exec(written)
  if (!match)
    return {
      refused: `\`${written}\` is not a number.`,
      todo: 'Write digits, with one decimal mark at most.',
    }
  const [, whole = '', mark, rest = ''] = match
  if (mark !== undefined && mark !== (decimal ?? '.'))
    return {
      refused: `\`${written}\` has a mark that is not the decimal one.`,
      todo: `Say \`decimal: "${mark}"\` in the mapping if it is.`,
    }
  if (mark !== undefined && decimal === undefined && rest.length === 3)
    return {
      refused: `\`${written}\` could be ${whole}${rest} or ${whole}.${rest}.`,
      todo: `Say \`decimal: "${mark}"\` in the mapping if the mark is the decimal one.`,
    }
  const decimals = rest.replace(/0+$/, '')
  const plain = whole.replace(/^0+(?=[0-9])/, '')
  return { value: decimals === '' ? plain : `${plain}.${decimals}` }
}
