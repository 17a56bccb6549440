import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs } from './placements.js'
import { couldHurtChildren, deviceArgs, findingAt, placementsOf } from './placements.js'

export const trapWithinReach = siteRule<DeviceArgs>({
  id: 'trap-within-reach',
  title: 'a trap is within reach of children',
  level: 'warning',
  judgedOn: 'the day the device was last set or moved',
  why: 'A trap that children can reach is played with: it snaps on fingers or sticks to hands and hair, and its catch is lost to the count.',
  remedy:
    'Put it behind or under something fixed and state where it stands now: `moved: {K1: {within-reach: no}}`; or set it only after pupils leave and write `while-pupils-away: yes`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ device, area }) => `${device} (${area}) is recorded as within reach of children.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      if (placement.facts['within-reach'] === 'yes' && couldHurtChildren(placement))
        yield findingAt(placement, 'within-reach', deviceArgs(placement))
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
set:
  R1: {kind: sticky-trap, area: room-1, within-reach: yes} # expect: trap-within-reach
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
set:
  R1: {kind: sticky-trap, area: room-1, within-reach: no}
`,
})
