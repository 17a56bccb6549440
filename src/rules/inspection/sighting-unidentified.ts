import { daysOf } from '../../ledger/parameters.js'
import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { identifications, isUnidentified } from './identified-sightings.js'
import { lateness } from './lapse.js'

const parameter = 'sighting.identify'

export const sightingUnidentified = siteRule<{ sighting: string; by: string; tentative: boolean }>({
  id: 'sighting-unidentified',
  title: 'a sighting was not identified',
  level: 'warning',
  judgedOn: 'the day of the sighting',
  why: 'What to do depends on which animal it is; without a name there is no threshold and no plan.',
  remedy:
    'Take or send a specimen and write the answer under `determined`, or add a sighting that identifies it: `resolves: 2026-03-12-okafor/small-flies`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [parameter],
  asks: ({ sighting }) => `identify ${sighting}`,
  says: ({ sighting, by, tentative }) =>
    tentative
      ? `${sighting} was identified tentatively; no surer identification is recorded by ${by}.`
      : `${sighting} was not identified; no identification is recorded by ${by}.`,
  *check(view) {
    const found = identifications(view)
    for (const sighting of view.sightings) {
      if (sighting.day < view.begins || !isUnidentified(sighting)) continue
      const advice = view.district.parameters(parameter, sighting.day)
      const days = advice && daysOf(advice.value)
      if (!advice || typeof days !== 'number') continue
      const last = sighting.day + days
      const when = lateness(view, last + 1, found.get(sighting.id)?.day)
      if (!when) continue
      const { pest, identified } = sighting.facts
      const tentative = identified === 'tentative' && pest !== 'unidentified'
      const key = tentative ? 'identified' : pest === undefined ? 'looks' : 'pest'
      yield {
        args: { sighting: sighting.name, by: isoOf(last), tentative },
        at: { file: sighting.at.file, path: [...sighting.at.path, key] },
        sources: advice.sources,
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
covers: how soon a sighting is identified
does-not-cover: [everything else]
parameters:
  sighting.identify: [{from: 2026-03-01, value: 1 week, kind: standard, confidence: read, source: "invented rule of an invented district"}]
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
found:
  small-flies:
    pest: unidentified # expect: sighting-unidentified
    area: room-1
    evidence: live
    looks: 3 mm, brown, humped back
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
covers: how soon a sighting is identified
does-not-cover: [everything else]
parameters:
  sighting.identify: [{from: 2026-03-01, value: 1 week, kind: standard, confidence: read, source: "invented rule of an invented district"}]
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
found:
  small-flies:
    pest: unidentified
    area: room-1
    evidence: live
    looks: 3 mm, brown, humped back
=== sites/oak/specimens/2026-03-06-okafor.yaml
by: okafor
sighting: 2026-03-06-okafor/small-flies
kept: alcohol vial 1, coordinator office
sent-to: county extension office
sent-on: 2026-03-06
determined: {as: phorid-fly, by: county extension office, on: 2026-03-13, sure: sure}
`,
})
