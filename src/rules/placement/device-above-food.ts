import type { Citation } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs, Placement } from './placements.js'
import { deviceArgs, findingAt, placementsOf } from './placements.js'

const glueBoards: Citation = {
  kind: 'published',
  text: 'US Navy MO-310, as it speaks of glue boards: flush to the wall and not above food',
}

export const deviceAboveFood = siteRule<DeviceArgs>({
  id: 'device-above-food',
  title: 'a glue board or electric-grid light trap hangs above food',
  level: 'warning',
  judgedOn: 'the day the device was last set or moved',
  why: 'Parts of insects fly off an electric grid, and what a board holds can drop: neither may come near food.',
  remedy:
    'Move it away from where food is kept, prepared or served, and state where it stands now: `moved: {L1: {above-food: no, in-doorway: no, visible-outdoors: no}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ device, kind, area }) => `${device} (${kind}, ${area}) is recorded as above food.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      if (placement.facts['above-food'] !== 'yes' || !sheds(placement)) continue
      yield {
        ...findingAt(placement, 'above-food', deviceArgs(placement)),
        sources: [placement.device.kind === 'glue-board' ? glueBoards : commonPractice],
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1:
    kind: light-trap
    area: kitchen
    electric-grid: yes
    in-doorway: no
    visible-outdoors: no
    lamp: 2026-03-20
    above-food: yes # expect: device-above-food
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1:
    kind: light-trap
    area: kitchen
    electric-grid: yes
    in-doorway: no
    visible-outdoors: no
    lamp: 2026-03-20
    above-food: no
`,
})

/** A light trap with a glue board inside keeps its catch; one with a grid scatters it. */
function sheds({ device }: Placement): boolean {
  return (
    device.kind === 'glue-board' ||
    (device.kind === 'light-trap' && device.setFacts['electric-grid'] === 'yes')
  )
}
