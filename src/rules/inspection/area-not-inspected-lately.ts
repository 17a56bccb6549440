import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { areaLapses, inspectParameter } from './area-lapses.js'
import { noEntryParameter } from './no-entry.js'

export const areaNotInspectedLately = siteRule<{ area: string; last: string; by: string }>({
  id: 'area-not-inspected-lately',
  title: 'an area was not inspected for a long time',
  level: 'note',
  judgedOn: 'the day of its last inspection',
  why: 'Most areas stay quiet, which is why they are left out, and why trouble in them is found late.',
  remedy: 'Inspect it on the next visit and name it under `inspected`, or give the reason under `no-entry`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [inspectParameter, noEntryParameter],
  asks: ({ area }) => `inspect ${area}`,
  says: ({ area, last, by }) =>
    `\`${area}\` is recorded as inspected on ${last} and not again by ${by}; days of closures are not counted.`,
  *check(view) {
    for (const { area, inspected, lastDay, sources, ...when } of areaLapses(view)) {
      if (inspected === undefined) continue
      const last = isoOf(inspected)
      yield {
        args: { area: area.id, last, by: isoOf(lastDay) },
        at: { file: view.site.file, path: ['areas', area.id], onKey: true },
        identity: [last],
        sources,
        ...when,
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
  - {from: 2026-03-01, rulebook: example-district}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
=== rulebooks/example-district.yaml
title: Rules of the example district
jurisdiction: Example District
read-on: 2026-03-01
covers: how often areas are inspected
does-not-cover: [everything else]
parameters:
  area.inspect: [{from: 2026-03-01, value: 2 weeks, kind: standard, confidence: read, source: "invented rule of an invented district"}]
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes} # expect: area-not-inspected-lately
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen]
readings: {none: [K1]}
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
  - {from: 2026-03-01, rulebook: example-district}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
=== rulebooks/example-district.yaml
title: Rules of the example district
jurisdiction: Example District
read-on: 2026-03-01
covers: how often areas are inspected
does-not-cover: [everything else]
parameters:
  area.inspect: [{from: 2026-03-01, value: 2 weeks, kind: standard, confidence: read, source: "invented rule of an invented district"}]
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
readings: {none: [K1]}
`,
})
