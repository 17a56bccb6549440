import { answeredFor } from '../../ledger/answered-for.js'
import { commonPractice, siteRule } from '../rule.js'
import { openSpells } from './open-spells.js'

export const conditionWithoutOwner = siteRule<{ readonly condition: string }>({
  id: 'condition-without-owner',
  title: 'an open condition has no owner',
  level: 'warning',
  judgedOn: 'each day the condition is open',
  why: 'A fault that nobody is asked to mend stays, and goes on feeding what the traps catch.',
  remedy: 'Name who is to mend it when it is next seen: `sink-drip: {still: dripping, owner: maintenance}`.',
  source: commonPractice,
  actor: 'coordinator',
  gap: true,
  says: ({ condition }) => `Nothing says who is to mend ${condition}.`,
  *check(view) {
    for (const condition of view.conditions) {
      let owned = false
      for (const { opened, seenOpen, closed, afterwards } of openSpells(condition)) {
        const named = seenOpen.find((event) => event.owner !== undefined)
        const span = answeredFor(view, { from: opened.day, until: (named ?? closed)?.day })
        if (!owned && span && named !== opened)
          yield {
            args: { condition: condition.name },
            at: { file: opened.at.file, path: [...opened.at.path, opened.kind] },
            ...span,
            identity: [condition.id],
          }
        owned ||= [...seenOpen, closed, ...afterwards].some((event) => event?.owner !== undefined)
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, by: 2026-04-10} # expect: condition-without-owner
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: callback
by: okafor
conditions:
  sink-drip: {new: drip under the prep sink, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
`,
})
