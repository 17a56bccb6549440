import { dayOfUndated } from '../../ledger/undated.js'
import type { Day } from '../../types.js'
import { ledgerFormat, siteRule } from '../rule.js'

export const ambiguousCondition = siteRule<{ name: string; candidates: readonly string[] }>({
  id: 'ambiguous-condition',
  title: 'a short name fits several open conditions',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'What is said under the short name is left out of all of them, so a condition that was put right still stands open.',
  remedy:
    'Write the full name, the visit that found it and a slash before it: `2026-03-10-okafor/sink-drip`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ name, candidates }) =>
    `\`${name}\` may mean any of ${candidates.length} open conditions: ${candidates.map((full) => `\`${full}\``).join(', ')}.`,
  *check(view) {
    if (view.conditionMentions.length === 0) return
    const days = new Map<string, Day>([...view.visits, ...view.repairs].map(({ file, day }) => [file, day]))
    for (const { fault, name, at, candidates } of view.conditionMentions) {
      if (fault !== 'ambiguous') continue
      yield {
        args: { name, candidates },
        at: { ...at, onKey: true },
        from: days.get(at.file) ?? dayOfUndated(view),
        identity: [name],
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  drip: {new: drip under sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  drip: {new: drip at window, area: room-1, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
=== sites/oak/visits/2026-03-16-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  drip: {still: dripping} # expect: ambiguous-condition
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  drip: {new: drip under sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  drip: {new: drip at window, area: room-1, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
=== sites/oak/visits/2026-03-16-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  2026-03-12-okafor/drip: {still: dripping}
`,
})
