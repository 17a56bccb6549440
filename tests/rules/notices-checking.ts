import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { noticesRules } from '../../src/rules/notices/index.js'
import type { Problem } from '../../src/types.js'
import { day } from '../ledger/small-site.js'

const ids = new Set(noticesRules.map(({ id }) => id))

/** Problems of this family that stand on a day; other rules are judged by their own tests. */
export function problemsOf(overlay: string, asOf = '2026-03-20'): Problem[] {
  const { problems, faults } = runCheck(memorySource(ledgerWith(overlay)), {
    asOf: day(asOf),
    asOfIsToday: true,
  })
  if (faults.length > 0) throw new Error(`the ledger of this test cannot be read: ${JSON.stringify(faults)}`)
  return problems.filter((problem) => ids.has(problem.rule) && standsOn(problem, day(asOf)))
}

/** The same in short: `rule level`. */
export function told(overlay: string, asOf?: string): string[] {
  return problemsOf(overlay, asOf)
    .map(({ rule, level }) => `${rule} ${level}`)
    .sort()
}

/** A duty of an invented law, as a flow map inside a section. */
export const law = (facts: string, from = '2026-03-01') =>
  `{from: ${from}, kind: law, confidence: read, source: "Invented Pest Act, section 3", ${facts}}`

export const parentsTold = (facts: string) => `
notices:
  parents: [${law(`to: parents, ${facts}`)}]
`

/** The district with more than one rulebook of its own, and a calendar of one's own. */
export const districtWith = (
  rulebooks: Readonly<Record<string, string>>,
  calendar = '[{from: 2025-09-02, until: 2026-06-12}]',
  zone = 'America/Los_Angeles',
) => `
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: ${zone}
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: us-federal}
${Object.keys(rulebooks)
  .map((id) => `  - {from: 2026-03-01, rulebook: ${id}}\n`)
  .join('')}calendar: ${calendar}
${Object.entries(rulebooks)
  .map(
    ([id, sections]) => `
=== rulebooks/${id}.yaml
title: Invented rules
jurisdiction: Example District
read-on: 2026-03-01
covers: what this test shows
does-not-cover: [everything else]
${sections.trim()}
`,
  )
  .join('')}`

/** A spray at the site, without what no rule of this family reads. */
export const sprayed = (
  on: string,
  facts = 'time: 15:40 to 16:05',
  area = 'kitchen',
  status = 'done',
  product = 'spray-a',
) => `
=== sites/oak/applications/${on}-okafor.yaml
by: okafor
status: ${status}
product: ${product}
pest: german-cockroach
areas: {${area}: {amount: 2 fl oz, extent: 3 ft2}}
method: spot
amount: 2 fl oz
${facts.trim()}
`

/** A notice record, about the application of Thursday 2026-03-12 unless said. */
export const notice = (on: string, body: string, about = '2026-03-12', who = 'marsh') => `
=== sites/oak/notices/${on}-${who}.yaml
by: ${who}
application: ${about}-okafor
${body.trim()}
`
