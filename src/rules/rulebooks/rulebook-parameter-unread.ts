import { dayOfUndated } from '../../ledger/undated.js'
import { nearest } from '../../records/nearest.js'
import { parametersOfReports } from '../report-parameters.js'
import type { Rule } from '../rule.js'
import { districtRule, ledgerFormat } from '../rule.js'

/** The rules there are come as an argument, since this is itself one of them. */
export const rulebookParameterUnread = (rules: () => readonly Rule[]) =>
  districtRule<{ name: string; meant: string }>({
    id: 'rulebook-parameter-unread',
    title: 'a rulebook sets a value that no rule reads',
    level: 'error',
    judgedOn: 'whenever the ledger is read',
    why: 'A value that nothing reads changes nothing, while the district believes that it is held to it.',
    remedy:
      'Write the name as `doorsweep rulebook list` gives it, such as `check.sticky-trap`, or take the value out.',
    source: ledgerFormat,
    actor: 'coordinator',
    gap: false,
    says: ({ name, meant }) =>
      `No rule reads a value named \`${name}\`${meant === '' ? '.' : `; did you mean \`${meant}\`?`}`,
    *check(view) {
      if (view.ownRulebooks.size === 0) return
      const read = parametersRead(rules())
      for (const { file, data } of view.ownRulebooks.values()) {
        for (const name of Object.keys(data.parameters ?? {})) {
          if (read.has(name)) continue
          yield {
            args: { name, meant: nearest(name, read) ?? '' },
            at: { file, path: ['parameters', name], onKey: true },
            from: dayOfUndated(view),
          }
        }
      }
    },
    failing: `
=== rulebooks/own.yaml
title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: how often traps are read
does-not-cover: [state law]
parameters:
  check.sticky-traps: # expect: rulebook-parameter-unread
    - {from: 2024-08-01, value: 14 days, source: Invented policy, kind: standard, confidence: read}
`,
    passing: `
=== rulebooks/own.yaml
title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: how often traps are read
does-not-cover: [state law]
parameters:
  check.sticky-trap:
    - {from: 2024-08-01, value: 14 days, source: Invented policy, kind: standard, confidence: read}
`,
  })

/** Names of every value that some rule or report reads. */
export function parametersRead(rules: readonly Rule[]): Set<string> {
  return new Set([...rules.flatMap(({ parameters }) => parameters ?? []), ...parametersOfReports])
}
