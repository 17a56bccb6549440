import { commonPractice, siteRule } from '../rule.js'
import { routineVisitsWithout, toldTheSiteManager } from './visits-without.js'

export const siteManagerNotTold = siteRule<Record<string, never>>({
  id: 'site-manager-not-told',
  title: 'a routine visit does not say whom it met',
  level: 'warning',
  judgedOn: 'the day of the visit',
  why: 'What was found helps only when someone in the building knows of it and can act on it.',
  remedy:
    'Write whom you met: `site-manager: lind`, or `designee` for someone standing in, or `left word`; if nobody was told, tell the site manager now what was found.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: () => 'This routine visit does not say that the site manager, or someone standing in, was told.',
  *check(view) {
    for (const { visit, lacking } of routineVisitsWithout(view, toldTheSiteManager))
      yield { args: {}, at: { file: visit.file, path: ['purpose'] }, ...lacking }
  },
  failing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine # expect: site-manager-not-told
by: okafor
time: 06:10 to 06:50
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
  passing: `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: left word
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
})
