import { answeredFor } from '../../ledger/answered-for.js'
import type { ConditionEvent, ConditionHistory } from '../../ledger/condition-history.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day, Place } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import { openSpells } from './open-spells.js'
import { whoMends } from './who-mends.js'

export const conditionOverdue = siteRule<{
  readonly condition: string
  readonly owner: string
  readonly due: string
}>({
  id: 'condition-overdue',
  title: 'a condition is open past its day',
  level: 'warning',
  judgedOn: 'the latest day stated for it',
  why: 'Food, water, shelter or a way in that is left goes on feeding pests, whatever is trapped or applied.',
  remedy:
    'Mend it and record the repair (`mends: [sink-drip]` in repairs/), or agree on a new day and write it when it is next seen: `sink-drip: {still: dripping, by: 2026-04-24}`.',
  source: commonPractice,
  actor: 'maintenance',
  gap: true,
  says: ({ condition, owner, due }) =>
    `${condition} is open past ${due}, the day stated for it${owner === '' ? '' : ` (${owner})`}.`,
  *check(view) {
    for (const condition of view.conditions) {
      for (const { due, at, from, until } of overdueSpans(condition)) {
        const span = answeredFor(view, { from, until })
        if (!span) continue
        yield {
          args: { condition: condition.name, owner: condition.owner ?? '', due: isoOf(due) },
          at,
          ...span,
          actor: whoMends(condition.owner),
          identity: [condition.id],
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-19} # expect: condition-overdue
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-20}
`,
})

interface OverdueSpan {
  readonly due: Day
  readonly at: Place
  readonly from: Day
  readonly until: Day | undefined
}

/**
 * Each day stated for a condition, with the days on which it was past and the condition open: until it was put
 * right, or until another day was stated. When a condition comes back, a day that is past by then was for the
 * earlier repair and is not held against it.
 */
function overdueSpans(condition: ConditionHistory): OverdueSpan[] {
  const spans: OverdueSpan[] = []
  let stated: ConditionEvent | undefined
  for (const { opened, seenOpen, closed } of openSpells(condition)) {
    if (stated?.due !== undefined && stated.due < opened.day) stated = undefined
    const days: ConditionEvent[] = stated ? [stated] : []
    for (const event of seenOpen)
      if (event.due !== undefined && event.due !== days.at(-1)?.due) days.push(event)
    for (const [n, event] of days.entries()) {
      if (event.due === undefined) continue
      spans.push({
        due: event.due,
        at: { file: event.at.file, path: [...event.at.path, 'by'] },
        from: Math.max(event.due + 1, event.day, opened.day),
        until: (days[n + 1] ?? closed)?.day,
      })
    }
    stated = days.at(-1)
  }
  return spans
}
