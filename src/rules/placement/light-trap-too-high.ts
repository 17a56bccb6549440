import { compareQuantities, parseQuantity } from '../../measure/quantities.js'
import { commonPractice, siteRule } from '../rule.js'
import type { DeviceArgs } from './placements.js'
import { deviceArgs, findingAt, placementsOf } from './placements.js'

export const lightTrapTooHigh = siteRule<DeviceArgs & { readonly height: string; readonly limit: string }>({
  id: 'light-trap-too-high',
  title: 'a light trap hangs above eye level',
  level: 'note',
  judgedOn: 'the day the device was last set or moved',
  why: 'Most flies that come to a light fly low; a trap above eye level catches fewer of them.',
  remedy:
    'Hang it lower and state how it hangs now: `moved: {L1: {height: 4 ft, in-doorway: no, visible-outdoors: no}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  parameters: ['placement.eye-level'],
  says: ({ device, area, height, limit }) =>
    `Light trap ${device} (${area}) hangs at ${height}; eye level is ${limit}.`,
  *check(view) {
    for (const placement of placementsOf(view)) {
      const height = placement.facts.height
      if (placement.device.kind !== 'light-trap' || height === undefined) continue
      const limit = view.district.parameters('placement.eye-level', placement.from)
      const hangs = parseQuantity(height)
      const eyes = limit && parseQuantity(String(limit.value))
      if (!limit || !hangs || !eyes || compareQuantities(hangs, eyes) !== 1) continue
      yield {
        ...findingAt(placement, 'height', { ...deviceArgs(placement), height, limit: String(limit.value) }),
        sources: limit.sources,
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
    in-doorway: no
    visible-outdoors: no
    lamp: 2026-03-20
    height: 61 in # expect: light-trap-too-high
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  L1:
    kind: light-trap
    area: kitchen
    in-doorway: no
    visible-outdoors: no
    lamp: 2026-03-20
    height: 60 in
`,
})
