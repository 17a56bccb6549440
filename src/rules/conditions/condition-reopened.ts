import { answeredFor } from '../../ledger/answered-for.js'
import { amountOf } from '../../ledger/parameters.js'
import { commonPractice, siteRule } from '../rule.js'
import { openSpells } from './open-spells.js'

export const conditionReopened = siteRule<{ readonly condition: string; readonly times: number }>({
  id: 'condition-reopened',
  title: 'a condition came back again and again',
  level: 'note',
  judgedOn: 'the day it was found back',
  why: 'A fault that comes back after every repair has a cause that no repair has reached.',
  remedy:
    'Look for another cause before it is mended the same way again, and say what was found: `sink-drip: {still: dripping, joint cracked above the washer, owner: maintenance}`.',
  source: commonPractice,
  actor: 'maintenance',
  gap: false,
  parameters: ['condition.reopened'],
  says: ({ condition, times }) => `${condition} has come back ${howOften(times)} after it was put right.`,
  *check(view) {
    for (const condition of view.conditions) {
      const spells = openSpells(condition)
      for (const [times, { opened, afterwards }] of spells.entries()) {
        const limit = view.district.parameters('condition.reopened', opened.day)
        if (times === 0 || !limit || times < amountOf(limit.value)) continue
        const heldOn = afterwards.find((event) => event.kind === 'holds' || event.kind === 'closed')?.day
        const span = answeredFor(view, {
          from: opened.day,
          until: heldOn ?? spells[times + 1]?.opened.day,
        })
        if (!span) continue
        yield {
          args: { condition: condition.name, times },
          at: { file: opened.at.file, path: [...opened.at.path, opened.kind] },
          ...span,
          sources: limit.sources,
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
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
=== sites/oak/repairs/2026-03-11-lind.yaml
by: lind
mends: [sink-drip]
done: new washer
=== sites/oak/visits/2026-03-13-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {still: dripping again}
=== sites/oak/repairs/2026-03-16-lind.yaml
by: lind
mends: [sink-drip]
done: new washer
=== sites/oak/visits/2026-03-18-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {still: dripping again} # expect: condition-reopened
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
=== sites/oak/repairs/2026-03-11-lind.yaml
by: lind
mends: [sink-drip]
done: new washer
=== sites/oak/visits/2026-03-13-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {still: dripping again}
=== sites/oak/repairs/2026-03-16-lind.yaml
by: lind
mends: [sink-drip]
done: new drain pipe
=== sites/oak/visits/2026-03-18-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {holds: dry}
`,
})

function howOften(times: number): string {
  return times === 1 ? 'once' : times === 2 ? 'twice' : `${times} times`
}
