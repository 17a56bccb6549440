/** Applications that the examples of several families are made of: each lacks nothing that any rule asks for. */

/** A complete application of spray-a to one spot in the kitchen. Lines of the same key take the place of its own. */
export function sprayApplication(day: string, ...lines: readonly string[]): string {
  return application(
    day,
    {
      by: 'okafor',
      status: 'done',
      product: 'spray-a',
      pest: 'german-cockroach',
      areas: '{kitchen: {amount: 0.04 fl oz, extent: 3 ft2, placements: 1, where: behind the range}}',
      method: 'spot',
      amount: '0.04 fl oz',
      'treated-extent': '3 ft2',
      equipment: 'trigger bottle',
    },
    lines,
  )
}

/** A complete application of bait-a to voids of the kitchen. Lines of the same key take the place of its own. */
export function baitApplication(day: string, ...lines: readonly string[]): string {
  return application(
    day,
    {
      by: 'okafor',
      status: 'done',
      product: 'bait-a',
      pest: 'german-cockroach',
      areas:
        '{kitchen: {amount: 2 g, placements: 8, where: hinge voids of the dish machine, within-reach: no}}',
      method: 'crack-and-crevice',
      formulation: 'gel',
      amount: '2 g',
      equipment: 'bait gun',
    },
    lines,
  )
}

const rest = {
  time: '15:40 to 16:05',
  lot: 'L-2211',
  pupils: 'none in the building',
  identified: '{by: okafor, how: nymphs on K1 under a hand lens}',
  threshold: '2 nymphs on K1 on 2026-03-11',
  reason: 'second catch of nymphs after cleaning',
  'tried-first': 'cleaned, vacuumed, leak mended',
  'chosen-because': 'no milder product takes nymphs in closed voids',
  dry: '{at: 16:05, by: okafor}',
  reopened: '{at: 16:30, by: lind}',
  'follow-up': '{by: 2026-04-02, look: K1}',
}

/** Keys with no text left after the colon are left out. */
function application(day: string, facts: Readonly<Record<string, string>>, lines: readonly string[]): string {
  const all = new Map<string, string>(Object.entries({ ...facts, ...rest }))
  for (const line of lines) {
    const colon = line.indexOf(':')
    all.set(line.slice(0, colon), line.slice(colon + 1).trim())
  }
  const written = [...all].filter(([, value]) => value !== '').map(([key, value]) => `${key}: ${value}\n`)
  return `\n=== sites/oak/applications/${day}-okafor.yaml\n${written.join('')}`
}
