import { isoOf } from '../../measure/calendar.js'
import { levelFrom } from '../adopted.js'
import { commonPractice, siteRule } from '../rule.js'
import { deviceName } from './check-terms.js'
import { checksDue } from './checks-due.js'
import { noEntryParameter } from './no-entry.js'
import { closedDaysParameter } from './traps-over-closures.js'

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
  asks: ({ device, kind }) => `read ${device} (${kind})`,
  says: ({ device, kind, area, how, since, by, interval }) =>
    `${device} (${kind}, ${area}) was ${how} on ${since}; no reading of it is recorded after that by ${by}, and its interval is \`${interval}\`.`,
  *check(view) {
    for (const { device, gap, terms, lastDay, own } of checksDue(view)) {
      if (!own) continue
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
        ...own,
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
