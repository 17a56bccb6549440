import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs } from './placements.js'
import { deviceArgs, findingAt, isRodentDevice, placementsOf } from './placements.js'

export const rodentDeviceNotMarked = siteRule<DeviceArgs>({
  id: 'rodent-device-not-marked',
  title: 'a rodent trap or station is not marked',
  level: 'warning',
  judgedOn: 'the day the device was last set or moved',
  why: 'Whoever finds a trap or station has to see what it is, and whom to call, without opening it.',
  remedy:
    'Mark it with what it is and whom to call, then state how it stands now, with all that was known before: `moved: {S1: {secured: yes, marked: yes}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ device, kind, area }) => `${device} (${kind}, ${area}) is recorded as not marked.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      if (placement.facts.marked === 'no' && isRodentDevice(placement.device))
        yield findingAt(placement, 'marked', deviceArgs(placement))
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: no} # expect: rodent-device-not-marked
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
`,
})
