import { isoOf } from '../../measure/calendar.js'
import { levelFrom } from '../adopted.js'
import { commonPractice, siteRule } from '../rule.js'
import { changesOfTerms, deviceName, waitsForRoutine } from './check-terms.js'
import { lapsesOf } from './device-lapses.js'
import { lateness, spell, withoutToldElsewhere } from './lapse.js'
import { noEntryByArea, noEntryParameter } from './no-entry.js'
import { passedBy } from './passed-by.js'
import { routineVisitGaps } from './routine-visit-gaps.js'
import { closedDaysParameter, trapOverClosures } from './traps-over-closures.js'

export const deviceOverdue = siteRule<{
  device: string
  kind: string
  area: string
  how: string
  since: string
  by: string
  interval: string
}>({
  id: 'device-overdue',
  title: 'a device was not read within its interval',
  level: 'warning',
  judgedOn: 'the day of its last reading, by the contract, plan or rulebook then in force',
  why: 'A trap that no one looks at holds an animal longer than it should, and a board that is full or dusty catches nothing.',
  remedy:
    'Read it and write a short visit: `purpose: trap-check` with `readings: {none: [K1]}`; if it is to stand no longer, pick it up or take it up.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [
    'check.sticky-trap',
    'check.glue-board',
    'check.snap-trap',
    'check.multiple-catch-trap',
    'visit.month-in-session',
    noEntryParameter,
    closedDaysParameter,
  ],
  says: ({ device, kind, area, how, since, by, interval }) =>
    `${device} (${kind}, ${area}) was ${how} on ${since}; no reading of it is recorded after that by ${by}, and its interval is \`${interval}\`.`,
  *check(view) {
    const changes = changesOfTerms(view)
    const noEntry = noEntryByArea(view)
    // A missed visit leaves every device unread and is told once; what is only to come is still told of each.
    const missedVisits = routineVisitGaps(view).filter(({ from }) => from <= view.asOf)
    for (const device of view.devices) {
      const overClosures = trapOverClosures(view, device)
      const passed = [...passedBy(view, device)].map(([visit, read]) => spell(visit.day, read))
      for (const { gap, terms, lastDay } of lapsesOf(view, device, changes)) {
        const told = [
          ...overClosures,
          ...passed,
          ...(noEntry.get(gap.area) ?? []),
          ...(waitsForRoutine(terms) ? missedVisits : []),
        ]
        const when = withoutToldElsewhere(lateness(view, lastDay + 1, gap.end), told, view.asOf)
        if (!when) continue
        const since = isoOf(gap.since)
        yield {
          args: {
            device: device.id,
            kind: deviceName(device),
            area: gap.area,
            how: gap.how,
            since,
            by: isoOf(lastDay),
            interval: terms.text,
          },
          at: { file: device.set.visit.file, path: device.set.path, onKey: true },
          identity: [since],
          level: levelFrom(terms.sources, 'warning'),
          sources: terms.sources,
          ...when,
        }
      }
    }
  },
  failing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: 2 weeks}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no} # expect: device-overdue
`,
  passing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: 2 weeks}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
=== sites/oak/visits/2026-03-16-lind.yaml
purpose: trap-check
by: lind
readings: {none: [K1]}
`,
})
