import { dayOfUndated } from '../../ledger/undated.js'
import { knownTimeZones, timeZone } from '../../measure/zone.js'
import { nearest } from '../../records/nearest.js'
import type { Args } from '../../types.js'
import { districtRule, ledgerFormat } from '../rule.js'

export const unknownTimeZone = districtRule<Args>({
  id: 'unknown-time-zone',
  title: 'the time zone of the district is not known',
  level: 'error',
  judgedOn: 'whenever the ledger is read',
  why: 'Every time in the ledger is local time there; without the zone no two can be told apart when the clock changes.',
  remedy: 'Write the name the IANA time zone database has for it, such as `time-zone: America/Los_Angeles`.',
  source: ledgerFormat,
  actor: 'coordinator',
  gap: false,
  says: ({ zone, meant }) =>
    `There is no time zone \`${zone}\`${meant === undefined ? '.' : `; did you mean \`${meant}\`?`}`,
  *check(view) {
    const zone = view.district.data['time-zone']
    if (timeZone(zone)) return
    const meant = nearest(zone, knownTimeZones())
    yield {
      args: { zone, ...(meant === undefined ? {} : { meant }) },
      at: { file: view.district.file, path: ['time-zone'] },
      from: dayOfUndated(view),
    }
  },
  failing: `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angles # expect: unknown-time-zone
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`,
  passing: `
=== district.yaml
format: 1
name: Example District
time-zone: America/Denver
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: us-federal}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`,
})
