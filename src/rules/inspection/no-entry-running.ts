import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { lapse } from './lapse.js'
import { noEntryByArea, noEntryParameter } from './no-entry.js'

export const noEntryRunning = siteRule<{ area: string; since: string; why: string }>({
  id: 'no-entry-running',
  title: 'an area could not be entered on several routine visits running',
  level: 'warning',
  judgedOn: 'the day of the visit',
  why: 'A room that is never open to the technician is a room no one inspects, and pests need no key.',
  remedy:
    'Agree with the site manager on a key or an hour, note it under `keys` or `let-in-by` of the area in site.yaml, and inspect the area on a visit of its own: `inspected: [boiler-room]`.',
  source: commonPractice,
  actor: 'site manager',
  gap: true,
  parameters: [noEntryParameter],
  says: ({ area, since, why }) =>
    `\`${area}\` could not be entered on this routine visit (${why}), nor on ${since}; no inspection is recorded between.`,
  *check(view) {
    for (const [area, runs] of noEntryByArea(view)) {
      const gone = view.areas.get(area)?.until
      for (const run of runs) {
        const when = lapse(view, run.from, run.until, gone === undefined ? undefined : gone + 1)
        if (!when) continue
        yield {
          args: { area, since: isoOf(run.first), why: run.why },
          at: { file: run.visit.file, path: ['no-entry', area], onKey: true },
          ...when,
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen]
no-entry: {room-1: no key}
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen]
no-entry: {room-1: lock changed} # expect: no-entry-running
readings: {none: [K1]}
`,
  passing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen]
no-entry: {room-1: no key}
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
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
