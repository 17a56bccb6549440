import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { areaLapses, inspectParameter } from './area-lapses.js'
import { noEntryParameter } from './no-entry.js'

export const areaNeverInspected = siteRule<{ area: string; since: string; by: string }>({
  id: 'area-never-inspected',
  title: 'an area is in no list of inspected areas',
  level: 'warning',
  judgedOn: 'the day by which it should have been inspected once',
  why: 'An area that no visit names is either forgotten or never written down; the records show nothing of it.',
  remedy:
    'Inspect it on the next visit and name it under `inspected`, or give the reason under `no-entry`; if it is no longer part of the site, write `until` at the area in site.yaml.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [inspectParameter, noEntryParameter],
  asks: ({ area }) => `inspect ${area} for the first time`,
  says: ({ area, since, by }) =>
    `\`${area}\` is part of the site since ${since}; by ${by} no visit names it as inspected.`,
  *check(view) {
    for (const { area, inspected, lastDay, sources, ...when } of areaLapses(view)) {
      if (inspected !== undefined) continue
      yield {
        args: { area: area.id, since: isoOf(area.from), by: isoOf(lastDay) },
        at: { file: view.site.file, path: ['areas', area.id], onKey: true },
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
  area.inspect: [{from: 2026-03-01, value: 16 days, kind: standard, confidence: read, source: "invented rule of an invented district"}]
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  attic: {kind: storage} # expect: area-never-inspected
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
  area.inspect: [{from: 2026-03-01, value: 16 days, kind: standard, confidence: read, source: "invented rule of an invented district"}]
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  attic: {kind: storage}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1, attic]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
})
