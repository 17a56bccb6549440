import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs } from './placements.js'
import { deviceArgs, findingAt, placementsOf } from './placements.js'

export const lightTrapInDoorway = siteRule<DeviceArgs>({
  id: 'light-trap-in-doorway',
  title: 'a light trap hangs in a doorway',
  level: 'warning',
  judgedOn: 'the day the device was last set or moved',
  why: 'A light in a doorway draws flies in through it, and its catch no longer tells what lives inside.',
  remedy:
    'Hang it beyond the doorway, where its light does not fall out of it, and state where it hangs now: `moved: {L1: {in-doorway: no, visible-outdoors: no}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ device, area }) => `Light trap ${device} (${area}) is recorded as hanging in a doorway.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      if (placement.device.kind === 'light-trap' && placement.facts['in-doorway'] === 'yes')
        yield findingAt(placement, 'in-doorway', deviceArgs(placement))
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1: {kind: light-trap, area: kitchen, in-doorway: yes, visible-outdoors: no, lamp: 2026-03-20} # expect: light-trap-in-doorway
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: no, lamp: 2026-03-20}
`,
})
