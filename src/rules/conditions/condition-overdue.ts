import { answeredFor } from '../../ledger/answered-for.js'
import type { ConditionEvent, ConditionHistory } from '../../ledger/condition-history.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day, Place } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import type { OpenSpell } from './open-spells.js'
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
  asks: ({ condition }) => `put right ${condition}`,
  says: ({ condition, owner, due }) =>
    `${condition} is open past ${due}, the day stated for it${owner === '' ? '' : ` (${owner})`}.`,
  *check(view) {
    for (const condition of view.conditions) {
      for (const { due, at, from, until } of overdueBySpell(condition).flatMap(({ stated }) => stated)) {
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

export interface OverdueSpan {
  readonly due: Day
  readonly at: Place
  readonly from: Day
  readonly until: Day | undefined
}

/** A spell with each day stated for it, in the order in which they were stated. */
export interface DatedSpell {
  readonly spell: OpenSpell
  readonly stated: readonly OverdueSpan[]
}

/**
 * Each day stated for a condition, with the days on which it was past and the condition open: until it was put
 * right, or until another day was stated; an end before its beginning is a day that was kept. When a condition comes
 * back, a day that is past by then was for the earlier repair and is not held against it.
 */
export function overdueBySpell(condition: ConditionHistory): DatedSpell[] {
  let stated: ConditionEvent | undefined
  return openSpells(condition).map((spell) => {
    const { opened, seenOpen, closed } = spell
    if (stated?.due !== undefined && stated.due < opened.day) stated = undefined
    const days: ConditionEvent[] = stated ? [stated] : []
    for (const event of seenOpen)
      if (event.due !== undefined && event.due !== days.at(-1)?.due) days.push(event)
    stated = days.at(-1)
    const spans = days.flatMap((event, n) =>
      event.due === undefined
        ? []
        : [
            {
              due: event.due,
              at: { file: event.at.file, path: [...event.at.path, 'by'] },
              from: Math.max(event.due + 1, event.day, opened.day),
              until: (days[n + 1] ?? closed)?.day,
            },
          ],
    )
    return { spell, stated: spans }
  })
}
