import { clean } from '../../output/clean.js'

/** Nothing in it needs a closer look: plain printing letters, and no sign that a spreadsheet takes for a formula. */
const plain = /^(?![\s=+\-@])[\x20-\x7e]*$/

/**
 * Text as every file of an export holds it, so that CSV and Parquet read alike: control characters and direction marks
 * made visible, and what a spreadsheet would run as a formula after an apostrophe, as in the CSV of reports.
 */
export function safeText(text: string): string {
  if (plain.test(text)) return text
  const shown = clean(text)
  return /^\s*[=+\-@]/.test(shown) ? `'${shown}` : shown
}
