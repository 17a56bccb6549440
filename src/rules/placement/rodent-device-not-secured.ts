import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs } from './placements.js'
import { deviceArgs, findingAt, isRodentDevice, placementsOf } from './placements.js'

export const rodentDeviceNotSecured = siteRule<DeviceArgs>({
  id: 'rodent-device-not-secured',
  title: 'a rodent trap or station is not secured',
  level: 'warning',
  judgedOn: 'the day the device was last set or moved',
  why: 'A trap or station that can be carried off or tipped ends up in the hands of someone it was not meant for; a locked room is opened every day.',
  remedy:
    'Fasten it to the wall or floor, then state how it stands now, with all that was known before: `moved: {S1: {secured: yes, marked: yes}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  says: ({ device, kind, area }) => `${device} (${kind}, ${area}) is recorded as not secured.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      if (placement.facts.secured === 'no' && isRodentDevice(placement.device))
        yield findingAt(placement, 'secured', deviceArgs(placement))
    }
  },
  failing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: no, marked: yes} # expect: rodent-device-not-secured
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
`,
})
