import { baitApplication } from '../example-applications.js'

/** Files that the examples of this family share: the product in question, one complete use of it, duties of one's own. */

const facts: Readonly<Record<string, string>> = {
  name: 'Invented Bait A',
  kind: 'pesticide',
  registration: '99999-1',
  states: '{OR: [{from: 2025-01-01}]}',
  'active-ingredients': '{boric-acid: {strength: 5 %}}',
  formulation: 'gel',
  'signal-word': 'caution',
  'restricted-use': 'no',
  labels:
    '[{from: 2026-01-05, file: label.txt, says: {places: [indoors], pest-groups: [cockroach], methods: [crack-and-crevice]}}]',
  sds: '[{from: 2026-01-05, file: sds.txt}]',
}

/** The gel of the base ledger with some keys written otherwise, or left out where the text is null. */
export function baitA(changes: Readonly<Record<string, string | null>>): string {
  const lines = Object.entries({ ...facts, ...changes })
    .filter(([, text]) => text !== null)
    .map(([key, text]) => `${key}: ${text}`)
  return `
=== products/bait-a/product.yaml
${lines.join('\n')}
`
}

/** An application of it that lacks nothing, on a day of March 2026; `mark` ends the line of its product. */
export const useOn = (day: string, mark = '') => baitApplication(`2026-03-${day}`, `product: bait-a${mark}`)
