import { answeredFor } from '../../ledger/answered-for.js'
import type { ConditionHistory } from '../../ledger/condition-history.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import { inspectionsByArea } from '../../ledger/inspections.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import { openSpells } from './open-spells.js'

export const conditionNotRechecked = siteRule<{
  readonly condition: string
  readonly area: string
  readonly closed: string
}>({
  id: 'condition-not-rechecked',
  title: 'a condition that was put right was not looked at again',
  level: 'note',
  judgedOn: 'the first routine visit to its area after it was put right',
  why: 'Only a second look shows whether a repair holds, and so whether it did anything about the pest.',
  remedy:
    'Look at it on the next visit and write how it is: `sink-drip: {holds: dry}`, or `sink-drip: {still: dripping again}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ condition, area, closed }) =>
    `${condition} was put right on ${closed}; this routine visit inspected ${area} and does not say whether it holds.`,
  *check(view) {
    const inspections = inspectionsByArea(view)
    const routine = new Map<string, readonly LoadedEvent<'visit'>[]>()
    for (const condition of view.conditions) {
      const area = condition.area ?? ''
      const visits = getOrMake(routine, area, () =>
        (inspections.get(area) ?? []).filter((visit) => visit.data.purpose === 'routine'),
      )
      for (const { closed, again } of closings(condition)) {
        const first = visits[firstAfter(visits, closed.day)]
        if (!first || (again !== undefined && again <= first.day)) continue
        const span = answeredFor(view, { from: first.day, until: again })
        if (!span) continue
        yield {
          args: { condition: condition.name, area, closed: isoOf(closed.day) },
          at: { file: first.file, path: ['inspected', first.data.inspected?.indexOf(area) ?? 0] },
          related: [{ place: closed.at, says: `${condition.name} was put right here` }],
          ...span,
          identity: [condition.id],
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-19}
=== sites/oak/repairs/2026-03-10-lind.yaml
by: lind
mends: [sink-drip]
done: new washer
area: kitchen
owner: maintenance
=== sites/oak/visits/2026-03-18-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [room-1, kitchen] # expect: condition-not-rechecked
readings:
  none: [K1]
`,
  passing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-03-19}
=== sites/oak/repairs/2026-03-10-lind.yaml
by: lind
mends: [sink-drip]
done: new washer
area: kitchen
owner: maintenance
=== sites/oak/visits/2026-03-18-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [room-1, kitchen]
readings:
  none: [K1]
conditions:
  sink-drip: {holds: dry}
`,
})

/** Place of the first visit after a day, by halving; the list is in order of days. */
function firstAfter(visits: readonly LoadedEvent<'visit'>[], day: Day): number {
  let low = 0
  let high = visits.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((visits[middle]?.day ?? 0) > day) high = middle
    else low = middle + 1
  }
  return low
}

type Closing = {
  readonly closed: ConditionHistory['events'][number]
  /** Day it was next spoken of: holding, found closed, back again, or mended once more. */
  readonly again: Day | undefined
}

function closings(condition: ConditionHistory): Closing[] {
  const found: Closing[] = []
  const spells = openSpells(condition)
  for (const [n, { closed, afterwards }] of spells.entries()) {
    if (!closed) continue
    const reopened = spells[n + 1]?.opened
    const said = [closed, ...afterwards]
    for (const [at, event] of said.entries()) {
      // A later repair starts the question anew; a later look answers it.
      if (at > 0 && event.kind !== 'repaired' && event.kind !== 'fixed') continue
      found.push({ closed: event, again: (said[at + 1] ?? reopened)?.day })
    }
  }
  return found
}
