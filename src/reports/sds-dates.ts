import type { PdfLine } from '../files/pdf-lines.js'
import { dayOf } from '../measure/calendar.js'

/** A date as a sheet prints it, and the days it can mean: several where month and day could be either. */
export interface PrintedDate {
  readonly written: string
  /** Days as YYYY-MM-DD, in order; none where the calendar has no such day, or only a month is given. */
  readonly readings: readonly string[]
  /** YYYY-MM, where no day of the month is printed. */
  readonly month?: string
  readonly page: number
  readonly of: 'revision' | 'preparation'
}

/** What the sheet says of its date: agreed, or several that contradict each other. */
export interface RevisionOnSheet {
  readonly dates: readonly PrintedDate[]
  /** The days on which all of them agree. */
  readonly readings: readonly string[]
  readonly of: 'revision' | 'preparation'
}

const labels: readonly (readonly [PrintedDate['of'], RegExp])[] = [
  [
    'revision',
    /\b(?:(?:sds |msds )?(?:revision|rev\.?|revised) date|date (?:of )?(?:the )?(?:last |latest )?(?:revision|revised|change|update)|(?:last|latest) (?:revision|revised|update[ds]?|change)(?: date| on)?|revised(?: on)?|revision)\b/gi,
  ],
  [
    'preparation',
    /\b(?:date (?:of )?(?:preparation|prepared|issue[d]?|compilation)|(?:preparation|issue|issuing|sds) date|prepared(?: on)?|issued(?: on)?)\b/gi,
  ],
]

/** The words before a label that make it another date. */
const ofAnother =
  /\b(?:previous|prior|former|supersede[sd]?|replace[sd]?|next|first|original|print(?:ed|ing)?)\W*(?:\w+\W+){0,2}$/i

/** The date of the last revision; where none is printed, that of preparation. */
export function revisionOn(lines: readonly PdfLine[]): RevisionOnSheet | undefined {
  for (const [of, label] of labels) {
    const dates = lines.flatMap(({ text, page }, at) => {
      // Label and date may stand on lines of their own, each broken once more in a narrow cell.
      const below = lines.slice(at + 1, at + 4).filter((line) => line.page === page)
      const line = oneBlank(text)
      const window = oneBlank([text, ...below.map((one) => one.text)].join(' '))
      return [...window.matchAll(label)].flatMap((match) => {
        if (match.index >= line.length || ofAnother.test(line.slice(0, match.index))) return []
        const date = dateAt(window.slice(match.index + match[0].length))
        return date ? [{ ...date, page, of }] : []
      })
    })
    if (dates.length === 0) continue
    const different = dates.filter((date, at) => dates.findIndex((other) => sameDate(date, other)) === at)
    return { dates: different, readings: agreed(different), of }
  }
  return undefined
}

function sameDate(one: PrintedDate, other: PrintedDate): boolean {
  return one.month === other.month && one.readings.join() === other.readings.join()
}

/** `03/12/2026` in the head and `March 12, 2026` at the foot are one day. */
function agreed(dates: readonly PrintedDate[]): string[] {
  const first = dates.find(({ month }) => month === undefined)
  return (first?.readings ?? []).filter((day) =>
    dates.every(({ month, readings }) =>
      month === undefined ? readings.includes(day) : day.startsWith(month),
    ),
  )
}

type Order = 'm d y' | 'd m y' | 'y m d'

const orderHint =
  /\(?\s*(?:mm?|month)[/. -](?:dd?|day)[/. -](?:y{2,4}|year)\s*\)?|\(?\s*(?:dd?|day)[/. -](?:mm?|month)[/. -](?:y{2,4}|year)\s*\)?|\(?\s*(?:y{4}|year)[/. -](?:mm?|month)[/. -](?:dd?|day)\s*\)?/i

const months = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ')
const monthName =
  '(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\\.?'
const weekday = '(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?\\.?,? ?)?'
const part = ' ?[-/., ] ?'

const forms: readonly (readonly [RegExp, (match: readonly string[], order?: Order) => Meant])[] = [
  [/^(\d{4}) ?[-/.] ?(\d{1,2}) ?[-/.] ?(\d{1,2})(?!\d)/, ([, y, m, d]) => days([y, m, d])],
  [/^(\d{1,2}) ?[-/.] ?(\d{1,2}) ?[-/.] ?(\d{4})(?!\d)/, ([, a, b, y], order) => inNumbers(y, a, b, order)],
  [
    /^(\d{2}) ?[-/.] ?(\d{2}) ?[-/.] ?(\d{2})(?!\d)/,
    // A year of two digits could also be the day, so every order is a reading, unless the sheet says which.
    ([, a = '', b = '', c = ''], order) =>
      order === undefined
        ? days([`20${c}`, a, b], [`20${c}`, b, a], [`20${a}`, b, c])
        : order === 'y m d'
          ? days([`20${a}`, b, c])
          : inNumbers(`20${c}`, a, b, order),
  ],
  [
    form(`(\\d{1,2})(?:st|nd|rd|th)?(?:${part})?(?:of )?${monthName}(?:${part})?(\\d{4})`),
    ([, d, m, y]) => days([y, m, d]),
  ],
  [
    form(`(\\d{1,2})${part}${monthName}${part}(\\d{2})`),
    ([, a = '', m, b = '']) => days([`20${b}`, m, a], [`20${a.padStart(2, '0')}`, m, b]),
  ],
  [form(`${monthName} ?(\\d{1,2})(?:st|nd|rd|th)?(?:,| ,)? ?(\\d{4})`), ([, m, d, y]) => days([y, m, d])],
  [form(`(\\d{4})${part}${monthName}${part}(\\d{1,2})`), ([, y, m, d]) => days([y, m, d])],
  [form(`${monthName}${part}(\\d{4})`), ([, m, y]) => ({ readings: [], month: `${y}-${twoDigits(m)}` })],
  [
    /^(0?[1-9]|1[0-2]) ?[-/.] ?(\d{4})(?!\d)/,
    ([, m, y]) => ({ readings: [], month: `${y}-${twoDigits(m)}` }),
  ],
]

interface Meant {
  readonly readings: readonly string[]
  readonly month?: string
}

function form(pattern: string): RegExp {
  return new RegExp(`^${weekday}${pattern}(?!\\d)`, 'i')
}

/** The date at the beginning of a text, behind a colon, a dash or the order in which it is written. */
function dateAt(text: string): (Meant & { readonly written: string }) | undefined {
  const before = orderHint.exec(text)
  const hasBefore = before !== null && /^[\s:.;|(-]*$/.test(text.slice(0, before.index))
  const rest = (hasBefore ? text.slice(before.index + before[0].length) : text).replace(/^[\s:.;|)-]+/, '')
  for (const [shape, meant] of forms) {
    const match = shape.exec(rest)
    if (!match) continue
    const after = orderHint.exec(rest.slice(match[0].length, match[0].length + 16))
    const hint = hasBefore ? before : after?.index !== undefined && after.index <= 1 ? after : null
    return { written: match[0].trim(), ...meant([...match], hint ? orderOf(hint[0]) : undefined) }
  }
  return undefined
}

function oneBlank(text: string): string {
  return text.replace(/\s+/g, ' ')
}

function orderOf(hint: string): Order {
  const first = /[a-z]/i.exec(hint)?.[0].toLowerCase()
  return first === 'm' ? 'm d y' : first === 'd' ? 'd m y' : 'y m d'
}

/** Two numbers and a year: month and day as the sheet says they stand; else either, where the calendar has both. */
function inNumbers(
  y: string | undefined,
  a: string | undefined,
  b: string | undefined,
  order?: Order,
): Meant {
  if (order === 'm d y') return days([y, a, b])
  if (order === 'd m y') return days([y, b, a])
  return days([y, a, b], [y, b, a])
}

function days(...dates: readonly (readonly (string | undefined)[])[]): Meant {
  const written = dates.map(([y, m, d]) => `${y}-${twoDigits(m)}-${twoDigits(d)}`)
  return { readings: [...new Set(written.filter((day) => dayOf(day) !== null))].sort() }
}

function twoDigits(text = ''): string {
  const month = months.indexOf(text.slice(0, 3).toLowerCase())
  return (month === -1 ? text : String(month + 1)).padStart(2, '0')
}
