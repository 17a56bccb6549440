import type { Loaded } from '../ledger/loaded.js'
import { normalRegistration } from '../measure/registration-number.js'
import type { Sheet } from '../rules/products/sheets-in-force.js'
import type { PrintedDate } from './sds-dates.js'
import type { SheetFacts } from './sds-facts.js'

/** What the register has of a sheet: its product, and the entry of the sheet itself. */
export interface InRegister {
  readonly product: Loaded<'product'>
  readonly entry?: { readonly sheet: Sheet; readonly position: number }
}

export interface Compared {
  readonly what: string
  readonly sheet: string | undefined
  readonly register: string | undefined
  readonly result:
    | 'agrees'
    | 'agrees in part'
    | 'differs'
    | 'not found'
    | 'ambiguous'
    | 'not in register'
    | undefined
}

/** Results that leave the reader something to do. */
export function isOpen({ result }: Pick<Compared, 'result'>): boolean {
  return result !== undefined && result !== 'agrees' && result !== 'agrees in part'
}

export function compared(facts: SheetFacts, sha256: string, register: InRegister | undefined): Compared[] {
  return [
    told('title', facts.title),
    ...(facts.fileTitle === undefined ? [] : [told('title of the file', facts.fileTitle)]),
    nameCompared(facts.name, register),
    registrationCompared(facts.registrations, register),
    dateCompared(facts, register),
    headingsCompared(facts, register),
    hashCompared(sha256, register),
  ]
}

/** Something that the register has no place for. */
function told(what: string, sheet: string | undefined): Compared {
  return { what, sheet, register: undefined, result: undefined }
}

function nameCompared(name: string | undefined, register: InRegister | undefined): Compared {
  const what = 'product identifier'
  const named = register?.product.data.name
  const row = { what, sheet: name, register: named }
  if (name === undefined) return { ...row, result: 'not found' }
  if (named === undefined) return { ...row, result: undefined }
  const [one, other] = [lettersOf(name), lettersOf(named)]
  const isPart = Math.min(one.length, other.length) >= 3 && (one.includes(other) || other.includes(one))
  return { ...row, result: one === other ? 'agrees' : isPart ? 'agrees in part' : 'differs' }
}

/** `Invented Bait-A®` and `INVENTED BAIT A` are one name. */
function lettersOf(text: string): string {
  return text
    .normalize('NFKC')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase()
}

/** A sheet need not print the number, so a number that is not there is nothing to do. */
function registrationCompared(numbers: readonly string[], register: InRegister | undefined): Compared {
  const stated = register?.product.data.registration
  const row = {
    what: 'EPA Reg. No.',
    sheet: numbers.length === 0 ? undefined : numbers.slice(0, 4).join(', '),
    register: stated,
  }
  if (numbers.length === 0 || !register) return { ...row, result: undefined }
  if (stated === undefined) return { ...row, result: 'not in register' }
  const normal = normalRegistration(stated) ?? stated
  const ofCompany = (number: string) => number.split('-').slice(0, 2).join('-')
  if (numbers.includes(normal)) return { ...row, result: 'agrees' }
  // The third part is the distributor, whose sheet may be that of the maker.
  const isPart = numbers.some((number) => ofCompany(number) === ofCompany(normal))
  return { ...row, result: isPart ? 'agrees in part' : 'differs' }
}

function dateCompared({ revision }: SheetFacts, register: InRegister | undefined): Compared {
  const stated = register?.entry?.sheet.revised
  const what = revision?.of === 'preparation' ? 'date of preparation' : 'revision date'
  if (!revision) return { what, sheet: undefined, register: stated, result: 'not found' }
  const { dates, readings } = revision
  const row = { what, sheet: dates.slice(0, 4).map(dateText).join('; '), register: stated }
  const [day] = readings
  if (readings.length === 1 && day !== undefined) {
    if (!register) return { ...row, result: undefined }
    return {
      ...row,
      result: stated === undefined ? 'not in register' : stated === day ? 'agrees' : 'differs',
    }
  }
  if (stated === undefined || dates.length > 1) return { ...row, result: 'ambiguous' }
  // One date that can be read in two ways, or has no day, never contradicts a register that has one of them.
  return { ...row, result: canMean(dates[0], stated) ? 'agrees in part' : 'differs' }
}

function canMean(date: PrintedDate | undefined, day: string): boolean {
  return date?.month !== undefined ? day.startsWith(date.month) : date?.readings.includes(day) === true
}

/** `March 12, 2026 = 2026-03-12`, `03/12/2026 = 2026-03-12 or 2026-12-03`. */
export function dateText({ written, readings, month }: PrintedDate): string {
  if (month !== undefined) return `${written} (no day)`
  if (readings.length === 0) return `${written} (not in the calendar)`
  return readings.length === 1 && readings[0] === written ? written : `${written} = ${readings.join(' or ')}`
}

function headingsCompared({ headings }: SheetFacts, register: InRegister | undefined): Compared {
  const listed = register?.entry?.sheet.sections
  const distinct = listed === undefined ? undefined : new Set(listed)
  const missing = headings.headings.filter(({ number }) => !headings.found.includes(number))
  const astray = headings.headings.filter(({ state }) => state === 'out of order')
  const numbers = (some: readonly { readonly number: number }[]) =>
    some.map(({ number }) => number).join(', ')
  const row = {
    what: 'headings',
    sheet: [
      `${headings.found.length} of 16`,
      ...(missing.length > 0 ? [`not found: ${numbers(missing)}`] : []),
      ...(astray.length > 0 ? [`out of order: ${numbers(astray)}`] : []),
    ].join('; '),
    register: distinct === undefined ? undefined : `${distinct.size} listed`,
  }
  const isSame =
    distinct?.size === headings.found.length && headings.found.every((number) => distinct.has(number))
  if (distinct !== undefined && !isSame) return { ...row, result: 'differs' }
  if (missing.length > 0) return { ...row, result: 'not found' }
  if (astray.length > 0) return { ...row, result: 'differs' }
  if (!register) return { ...row, result: undefined }
  return { ...row, result: distinct === undefined ? 'not in register' : 'agrees' }
}

function hashCompared(sha256: string, register: InRegister | undefined): Compared {
  const stated = register?.entry?.sheet.sha256
  const short = (text: string | undefined) => (text === undefined ? undefined : `${text.slice(0, 12)}…`)
  const row = { what: 'SHA-256', sheet: short(sha256), register: short(stated) }
  if (!register) return { ...row, result: undefined }
  return {
    ...row,
    result: stated === undefined ? 'not in register' : stated === sha256 ? 'agrees' : 'differs',
  }
}
