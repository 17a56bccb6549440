import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { deviceName } from './check-terms.js'
import { closedDaysParameter, trapOverClosures } from './traps-over-closures.js'

export const trapLeftOverClosure = siteRule<{
  device: string
  kind: string
  area: string
  closure: string
  first: string
  last: string
  days: number
}>({
  id: 'trap-left-over-closure',
  title: 'a trap stood set over a closure with no one looking',
  level: 'warning',
  judgedOn: 'the days of the closure',
  why: 'An animal in a trap that no one visits starves, or dies and draws flies and beetles into the room.',
  remedy:
    'Look at it now, with gloves, and write the check; before a closure read it and write `picked-up: [S1]`, and `put-out: [S1]` when school is back, or agree on who checks it meanwhile.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [closedDaysParameter],
  asks: ({ device, closure }) => `look at ${device} or pick it up for ${closure}`,
  says: ({ device, kind, area, closure, first, last, days }) =>
    `${device} (${kind}, ${area}) stood out in ${closure} (${first} to ${last}) for more than ${days} closed days running; it is not recorded as picked up or looked at.`,
  *check(view) {
    for (const device of view.devices) {
      for (const { gap, closure, days, sources, ...when } of trapOverClosures(view, device)) {
        const first = isoOf(closure.first)
        yield {
          args: {
            device: device.id,
            kind: deviceName(device),
            area: gap.area,
            closure: closure.name,
            first,
            last: isoOf(closure.last),
            days,
          },
          at: { file: device.set.visit.file, path: device.set.path, onKey: true },
          identity: [first],
          sources,
          ...when,
        }
      }
    }
  },
  failing: `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12, closed: {spring-break: 2026-03-09 to 2026-03-13}}]
=== sites/oak/visits/2026-03-06-lind.yaml
purpose: set-up
by: lind
set:
  S1: {kind: snap-trap, area: kitchen, within-reach: no, secured: yes, marked: yes} # expect: trap-left-over-closure
`,
  passing: `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12, closed: {spring-break: 2026-03-09 to 2026-03-13}}]
=== sites/oak/visits/2026-03-06-lind.yaml
purpose: set-up
by: lind
set:
  S1: {kind: snap-trap, area: kitchen, within-reach: no, secured: yes, marked: yes}
=== sites/oak/visits/2026-03-07-lind.yaml
purpose: trap-check
by: lind
readings: {none: [S1]}
picked-up: [S1]
`,
})
