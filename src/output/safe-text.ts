import { clean } from './clean.js'

/** Nothing in it needs a closer look: plain printing letters, and no sign that a spreadsheet takes for a formula. */
const plain = /^(?![\s=+\-@])[\x20-\x7e]*$/

/**
 * Text for files that a spreadsheet may open: control characters and direction marks made visible, and what would be run as a
 * formula after an apostrophe.
 */
export function safeText(text: string): string {
  if (plain.test(text)) return text
  const shown = clean(text)
  return /^\s*[=+\-@]/.test(shown) ? `'${shown}` : shown
}
