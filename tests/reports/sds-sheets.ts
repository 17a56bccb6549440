import type { Page } from '../files/pdf-writer.js'

/** The sixteen of 29 CFR 1910.1200, Appendix D, Table D.1, typed from there and not taken from the program. */
export const tableD1 = [
  'Identification',
  'Hazard(s) identification',
  'Composition/information on ingredients',
  'First-aid measures',
  'Fire-fighting measures',
  'Accidental release measures',
  'Handling and storage',
  'Exposure controls/personal protection',
  'Physical and chemical properties',
  'Stability and reactivity',
  'Toxicological information',
  'Ecological information',
  'Disposal considerations',
  'Transport information',
  'Regulatory information',
  'Other information',
]

export const sixteen = tableD1.map((_, at) => at + 1)

export interface SheetWords {
  readonly heading?: (words: string, number: number) => string
  readonly without?: readonly number[]
  readonly name?: string
  readonly date?: string
  readonly number?: string
}

/** A whole invented sheet over two pages, the first with sections 1 to 8. */
export function sheetPages({
  heading = (words, number) => `SECTION ${number}: ${words}`,
  without = [],
  name = 'Product name: Invented Bait A',
  date = 'Revision date: 2026-02-10',
  number = 'EPA Reg. No. 99999-1',
}: SheetWords = {}): Page[] {
  const section = (at: number): string[] => [
    ...(without.includes(at + 1) ? [] : [heading(tableD1[at] ?? '', at + 1)]),
    ...(at === 0 ? [name, number] : [`Invented words under heading ${at + 1}.`]),
  ]
  const sections = tableD1.map((_, at) => section(at))
  return [['SAFETY DATA SHEET', date, ...sections.slice(0, 8).flat()], [...sections.slice(8).flat()]]
}
