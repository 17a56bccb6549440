import { dayIn } from '../../ledger/spans.js'
import { dayOfUndated } from '../../ledger/undated.js'
import { districtRule, ledgerFormat } from '../rule.js'
import { datedLists } from './dated-lists.js'

/**
 * A version without an end holds until the next begins. Two versions overlap when they begin on one day, or when one
 * says that it still holds after the other began: then it cannot be told which was meant.
 */
export const rulebookDatesOverlap = districtRule<{ name: string; from: string; other: string }>({
  id: 'rulebook-dates-overlap',
  title: 'two versions of one duty hold on the same day',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'Which version judges a record must never be a guess: the day of the record decides.',
  remedy:
    'End the earlier version on the day before the later one begins: `until: 2025-12-31` above `from: 2026-01-01`; or leave its `until` out.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: false,
  says: ({ name, from, other }) =>
    from === other
      ? `Two versions of \`${name}\` begin on ${from}.`
      : `The version of \`${name}\` from ${from} begins while the one from ${other} still says it holds.`,
  *check(view) {
    for (const { file, data } of view.ownRulebooks.values()) {
      for (const { name, path, versions } of datedLists(data)) {
        for (const [n, later] of versions.entries()) {
          const other = versions.find(
            (earlier, m) =>
              (earlier.from === later.from && m < n) ||
              (earlier.from < later.from &&
                earlier.until !== undefined &&
                dayIn(earlier.until) >= dayIn(later.from)),
          )
          if (other)
            yield {
              args: { name, from: later.from, other: other.from },
              at: { file, path: [...path, n, 'from'] },
              from: dayOfUndated(view),
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
covers: how often traps are read
does-not-cover: [state law]
parameters:
  check.sticky-trap:
    - {from: 2024-08-01, until: 2026-01-31, value: 28 days, source: Invented policy, kind: standard, confidence: read}
    - {from: 2026-01-01, value: 14 days, source: Invented policy, kind: standard, confidence: read} # expect: rulebook-dates-overlap
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
    - {from: 2024-08-01, until: 2025-12-31, value: 28 days, source: Invented policy, kind: standard, confidence: read}
    - {from: 2026-01-01, value: 14 days, source: Invented policy, kind: standard, confidence: read}
`,
})
