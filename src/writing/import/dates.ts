import { dayOf, isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import type { Refused } from './numbers.js'

export type ReadDate = { readonly day: Day } | Refused
export type DateReader = (text: string) => ReadDate

const asTheFormat = 'Correct the cell, or the format in the mapping.'

const parts = /YYYY|YY|MM|M|DD|D|HH|H|mm|ss/g

/**
 * Reads dates of one stated format: YYYY or YY (which is 20YY), MM or M, DD or D, and HH, mm, ss for a time, which is
 * left aside; anything else stands for itself. Refused where the format lacks a part or has one twice.
 */
export function dateReader(format: string): DateReader | { readonly refused: string } {
  const found = format.match(parts) ?? []
  const of = (letter: string) => found.filter((part) => part.startsWith(letter)).length
  if (of('Y') !== 1 || of('M') !== 1 || of('D') !== 1)
    return {
      refused: `the format \`${format}\` has to name year, month and day once each: YYYY (or YY), MM and DD, as in MM/DD/YYYY.`,
    }
  const pattern = patternOf(format)
  return (text) => {
    const match = pattern.exec(text)
    if (!match?.groups) return { refused: `\`${text}\` is not written as ${format}.`, todo: asTheFormat }
    const { year = '', month = '', date = '', hour = '0', minute = '0', second = '0' } = match.groups
    const day =
      Number(hour) < 24 && Number(minute) < 60 && Number(second) < 60 ? civil(year, month, date) : null
    return day === null
      ? { refused: `\`${text}\`, read as ${format}, is no date.`, todo: asTheFormat }
      : { day }
  }
}

function patternOf(format: string): RegExp {
  let source = ''
  let end = 0
  for (const { 0: part, index } of format.matchAll(parts)) {
    source += escaped(format.slice(end, index))
    end = index + part.length
    // One digit is enough only where something else tells where the number ends.
    const touches = /^[YMDHms]/.test(format.slice(end)) || /[YMDHms]$/.test(format.slice(0, index))
    source += `(?<${groupOf(part)}>[0-9]{${part.startsWith('Y') ? part.length : touches ? 2 : '1,2'}})`
  }
  return new RegExp(`^${source}${escaped(format.slice(end))}$`)
}

const groups: Readonly<Record<string, string>> = {
  Y: 'year',
  M: 'month',
  D: 'date',
  H: 'hour',
  m: 'minute',
  s: 'second',
}
const groupOf = (part: string) => groups[part[0] ?? ''] ?? ''
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&')

function civil(year: string, month: string, date: string): Day | null {
  const whole = year.length === 2 ? `20${year}` : year
  return dayOf(`${whole}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`)
}

const formatsTried = ['MM/DD/YYYY', 'DD/MM/YYYY', 'MM/DD/YY', 'DD/MM/YY', 'YY/MM/DD', 'YYYY/MM/DD']

/** Reads year-month-day. Any other spelling is refused with what it could be, and is never guessed. */
export function plainDate(text: string): ReadDate {
  const day = dayOf(text)
  if (day !== null) return { day }
  if (/^[0-9]{5}(?:\.[0-9]+)?$/.test(text))
    return {
      refused: `\`${text}\` looks like the day number of a spreadsheet.`,
      todo: 'Show the column as dates before saving as CSV.',
    }
  const mark = /^[0-9]+([-./ ])[0-9]+\1[0-9]+$/.exec(text)?.[1]
  const readings =
    mark === undefined
      ? []
      : formatsTried.flatMap((slashed) => {
          const format = slashed.replaceAll('/', mark)
          const read = dateReader(format)
          const answer = typeof read === 'function' ? read(text) : read
          return 'day' in answer ? [`${isoOf(answer.day)} (\`format: ${format}\`)`] : []
        })
  if (readings.length > 1)
    return { refused: `\`${text}\` could be ${readings.join(' or ')}.`, todo: 'Say which in the mapping.' }
  if (readings.length === 1)
    return {
      refused: `\`${text}\` is not year-month-day.`,
      todo: `If it is ${readings[0]}, say so in the mapping.`,
    }
  return {
    refused: `\`${text}\` is not a date as 2026-03-12.`,
    todo: `If it is one of another form, say its \`format\` in the mapping.`,
  }
}
