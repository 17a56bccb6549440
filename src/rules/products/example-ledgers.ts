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
export function useOn(day: string, mark = ''): string {
  return `
=== sites/oak/applications/2026-03-${day}-okafor.yaml
by: okafor
status: done
product: bait-a${mark}
pest: german-cockroach
areas: {kitchen: {amount: 2 g, placements: 8, where: hinge voids of the dish machine, within-reach: no}}
method: crack-and-crevice
formulation: gel
amount: 2 g
time: 15:40 to 16:05
equipment: bait gun
lot: L-2211
pupils: none in the building
identified: {by: okafor, how: nymphs on K1 under a hand lens}
threshold: 2 nymphs on K1 on 2026-03-${day}
reason: second catch of nymphs after cleaning
tried-first: cleaned, vacuumed, leak mended
chosen-because: no milder product takes nymphs in closed voids
dry: {at: 16:05, by: okafor}
reopened: {at: 16:30, by: lind}
follow-up: {by: 2026-04-02, look: K1}
`
}

/** The district of the base, held to a rulebook of its own as well. */
export function withRulebook(entries: string): string {
  return `
=== district.yaml
format: 1
name: Example District
state: OR
address: 1 Example Square
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
  - {from: 2026-03-01, rulebook: own}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
=== rulebooks/own.yaml
title: Invented Pest Act
jurisdiction: Example State
state: OR
read-on: 2026-03-01
covers: what an example needs
does-not-cover: [everything else]
${entries.trim()}
`
}
