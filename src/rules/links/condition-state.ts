import { ledgerFormat, siteRule } from '../rule.js'
import { statesIn } from './stated-states.js'

export const conditionState = siteRule<{ name: string; states: readonly string[] }>({
  id: 'condition-state',
  title: 'a condition does not say how it stands, or says two things at once',
  level: 'error',
  judgedOn: 'the day of the visit',
  why: 'Whether a condition is open or put right follows from this one word, and where to look for it from the area.',
  remedy:
    'Write exactly one of `new`, `still`, `fixed`, `closed`, `holds`; only what is found and fixed on one visit has `new` and `fixed`, and a new one has its area: `sink-drip: {new: drip under sink, area: kitchen}`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says({ name, states }) {
    if (states.length === 0)
      return `\`${name}\` does not say how it stands: new, still, fixed, closed or holds.`
    if (states.length === 1) return `\`${name}\` is new, and no area says where it is.`
    return `\`${name}\` is said to be ${states.join(' and ')} at once.`
  },
  *check(view) {
    for (const { file, day, data } of view.visits) {
      for (const [name, condition] of Object.entries(data.conditions ?? {})) {
        const said = statesIn(condition)
        const isOne = said.length === 1 || (said.length === 2 && said[0] === 'new' && said[1] === 'fixed')
        if (isOne && (said[0] !== 'new' || condition.area !== undefined)) continue
        yield {
          args: { name, states: isOne ? ['new'] : said },
          at: { file, path: ['conditions', name], onKey: true },
          from: day,
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10} # expect: condition-state
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
conditions:
  sink-drip: {new: drip, area: kitchen, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}
`,
})
