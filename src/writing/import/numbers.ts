export type Decimal = '.' | ','
/** Why a cell cannot be read, and what to do about it. */
export interface Refused {
  readonly refused: string
  readonly todo?: string
}
export type ReadCount = { readonly count: number } | Refused

/** What a spreadsheet would work out instead of showing. */
export const isFormula = (text: string) => /^[=+\-@]/.test(text)

const notANumber = 'Write digits; or say under `names` what the word is: `names: {none: "0"}`.'
const wholeOnly = 'Write the number of animals.'

/**
 * A count as written: digits alone. A mark within a number is read only where the mapping states what it is, since
 * 1.000 is one here and a thousand there.
 */
export function readCount(text: string, decimal: Decimal | undefined): ReadCount {
  if (/^[0-9]{1,9}$/.test(text)) return { count: Number(text) }
  if (/^-[0-9]/.test(text))
    return { refused: `\`${text}\` is less than none.`, todo: 'A count is none or more.' }
  if (/^\+[0-9]+$/.test(text)) return { refused: `\`${text}\` has a sign.`, todo: `Write ${text.slice(1)}.` }
  if (isFormula(text))
    return {
      refused: `\`${text}\` is a formula, not a number.`,
      todo: 'Save the sheet with the values of its cells.',
    }
  const match = /^([0-9]{1,9})([.,])([0-9]+)$/.exec(text)
  if (!match) return { refused: `\`${text}\` is not a number.`, todo: notANumber }
  const [, whole = '', mark = '', rest = ''] = match
  if (mark === decimal)
    return /^0+$/.test(rest)
      ? { count: Number(whole) }
      : { refused: `\`${text}\` is not a whole number; animals are counted whole.`, todo: wholeOnly }
  if (decimal !== undefined)
    return { refused: `\`${text}\` has a mark that is not the decimal one.`, todo: 'Write digits alone.' }
  return rest.length === 3
    ? {
        refused: `\`${text}\` could be ${whole}${rest} or ${whole}.`,
        todo: `Write digits alone, or say \`decimal: "${mark}"\` in the mapping if the mark is the decimal one.`,
      }
    : /^0+$/.test(rest)
      ? {
          refused: `\`${text}\` has a mark.`,
          todo: `Write digits alone, or say \`decimal: "${mark}"\` in the mapping.`,
        }
      : { refused: `\`${text}\` is not a whole number; animals are counted whole.`, todo: wholeOnly }
}

/** An amount of dollars as a record has it: `84 USD`. */
export function readCost(text: string, decimal: Decimal | undefined): { readonly cost: string } | Refused {
  const bare = text.replace(/ ?USD$/, '')
  const match = /^(0|[1-9][0-9]{0,9})(?:([.,])([0-9]{1,2}))?$/.exec(bare)
  if (!match)
    return {
      refused: `\`${text}\` is not an amount.`,
      todo: 'Write digits alone, with no sign of money and no mark of thousands.',
    }
  const [, whole, mark, cents] = match
  if (mark === undefined) return { cost: `${whole} USD` }
  if (mark !== (decimal ?? '.'))
    return {
      refused: `\`${text}\` has a mark that is not the decimal one.`,
      todo: `Say \`decimal: "${mark}"\` in the mapping if it is.`,
    }
  return { cost: `${whole}.${cents} USD` }
}
