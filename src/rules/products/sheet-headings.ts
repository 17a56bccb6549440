/**
 * The sixteen headings of a safety data sheet, 29 CFR 1910.1200, Appendix D, Table D.1. 1 to 11 read in a
 * reprint, 12 to 16 from memory; OSHA does not enforce what 12 to 15 hold but asks for the headings, from memory.
 */
export const sheetHeadings = [
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
] as const

/** Headings that are not among the numbers, as `12 Ecological information`. */
export function headingsMissing(found: readonly number[]): string[] {
  return sheetHeadings.flatMap((heading, at) => (found.includes(at + 1) ? [] : [`${at + 1} ${heading}`]))
}
