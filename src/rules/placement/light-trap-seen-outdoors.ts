import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs } from './placements.js'
import { deviceArgs, findingAt, placementsOf } from './placements.js'

export const lightTrapSeenOutdoors = siteRule<DeviceArgs>({
  id: 'light-trap-seen-outdoors',
  title: 'a light trap can be seen from outdoors',
  level: 'warning',
  judgedOn: 'the day the device was last set or moved',
  why: 'A light that shines outdoors calls in insects that would have flown past, and its catch no longer tells what lives inside.',
  remedy:
    'Turn or hang it so that its light cannot be seen through a door or window, and state where it hangs now: `moved: {L1: {in-doorway: no, visible-outdoors: no}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ device, area }) => `Light trap ${device} (${area}) is recorded as visible from outdoors.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      if (placement.device.kind === 'light-trap' && placement.facts['visible-outdoors'] === 'yes')
        yield findingAt(placement, 'visible-outdoors', deviceArgs(placement))
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: yes, lamp: 2026-03-20} # expect: light-trap-seen-outdoors
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: no, lamp: 2026-03-20}
`,
})
