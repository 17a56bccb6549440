import { dayIn, inForce } from '../../ledger/spans.js'
import { dayOfUndated } from '../../ledger/undated.js'
import { nearest } from '../../records/nearest.js'
import { districtRule, ledgerFormat } from '../rule.js'
import { datedLists } from './dated-lists.js'

export const rulebookClassUndefined = districtRule<{ name: string; meant: string; from: string }>({
  id: 'rulebook-class-undefined',
  title: 'a duty speaks of a class of uses that its rulebook does not define',
  level: 'error',
  judgedOn: 'whenever the ledger is read; the class on the first day of the duty',
  why: 'A duty for a class that is defined nowhere holds for nothing, and an exemption of such a class exempts nothing.',
  remedy:
    'Define the class under `uses` of the same rulebook, from the day the duty begins: `uses: {bait-out-of-reach: [{from: 2024-08-01, any: [{method: [in-a-station]}], …}]}`.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: false,
  says: ({ name, meant, from }) =>
    from === ''
      ? `The rulebook defines no class \`${name}\`${meant === '' ? '.' : `; did you mean \`${meant}\`?`}`
      : `The class \`${name}\` is not yet, or no longer, defined on ${from}, when this duty begins.`,
  *check(view) {
    for (const { file, data } of view.ownRulebooks.values()) {
      for (const { path, versions } of datedLists(data)) {
        for (const [n, version] of versions.entries()) {
          for (const key of ['holds-for', 'not-for'] as const) {
            for (const [m, name] of (version[key] ?? []).entries()) {
              const defined = data.uses?.[name]
              if (defined && inForce(defined, dayIn(version.from))) continue
              const meant = defined ? undefined : nearest(name, Object.keys(data.uses ?? {}))
              yield {
                args: { name, meant: meant ?? '', from: defined ? version.from : '' },
                at: { file, path: [...path, n, key, m] },
                from: dayOfUndated(view),
              }
            }
          }
        }
      }
    }
  },
  failing: `
=== rulebooks/own.yaml
title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: who is told before a spray
does-not-cover: [state law]
uses:
  gel-in-cracks:
    - {from: 2026-03-01, any: [{formulation: [gel], method: [crack-and-crevice]}], source: Invented policy, kind: standard, confidence: read}
notices:
  staff:
    - from: 2026-03-01
      to: staff
      reach: all
      lead: 24 hours
      not-for:
        - gel-in-crack # expect: rulebook-class-undefined
      source: Invented policy
      kind: standard
      confidence: read
`,
  passing: `
=== rulebooks/own.yaml
title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: who is told before a spray
does-not-cover: [state law]
uses:
  gel-in-cracks:
    - {from: 2026-03-01, any: [{formulation: [gel], method: [crack-and-crevice]}], source: Invented policy, kind: standard, confidence: read}
notices:
  staff:
    - from: 2026-03-01
      to: staff
      reach: all
      lead: 24 hours
      not-for:
        - gel-in-cracks
      source: Invented policy
      kind: standard
      confidence: read
`,
})
