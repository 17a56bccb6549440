import { describe, expect, it } from 'vitest'
import {
  check,
  district,
  holds,
  kitchenOnly,
  monthly,
  problemsOf,
  read,
  routine,
  site,
  terms,
  visit,
} from './inspection-examples.js'

const complaint = (date: string, ...lines: string[]) =>
  `=== sites/oak/complaints/${date}-lind.yaml\n${['by: lind', 'from: staff', ...lines, 'says: something ran'].join('\n')}\n`
const answer = (date: string, complaintDate: string) =>
  visit(`${date}-okafor`, 'callback', `answers: {${complaintDate}-lind: nothing seen}`)

holds('complaint-not-answered', [
  ['fourteen days of common practice', complaint('2026-03-06'), '2026-03-20', ['2026-03-21..']],
  [
    'days of the contract',
    site(terms(`${monthly}, complaint-days: 2`)) +
      complaint('2026-03-10') +
      answer('2026-03-15', '2026-03-10'),
    '2026-03-20',
    ['2026-03-13..2026-03-15'],
  ],
  [
    'days of the district where the contract says none',
    district('', '2026-03-01', 'unanswered-complaint-days: 3') + complaint('2026-03-10'),
    '2026-03-20',
    ['2026-03-14..'],
  ],
  [
    'answered on the last day',
    complaint('2026-03-03') + answer('2026-03-17', '2026-03-03'),
    '2026-03-20',
    [],
  ],
  ['withdrawn', complaint('2026-03-03', 'withdrawn: it was a leaf'), '2026-03-20', []],
])

describe('complaint-not-answered', () => {
  it('is a note where only common practice asks', () => {
    const levels = (example: string) =>
      problemsOf('complaint-not-answered', example + complaint('2026-03-03'), '2026-03-20').map(
        ({ level }) => level,
      )
    expect(levels('')).toEqual(['note'])
    expect(levels(site(terms(`${monthly}, complaint-days: 2`)))).toEqual(['warning'])
    expect(levels(district('', '2026-03-01', 'unanswered-complaint-days: 3'))).toEqual(['warning'])
  })
})

const roach = (date: string, area = 'room-1') => complaint(date, `area: ${area}`, 'pest: german-cockroach')
const setR1 = (date: string, area = 'room-1') =>
  visit(`${date}-okafor`, 'follow-up', `set: {R1: {kind: sticky-trap, area: ${area}, within-reach: no}}`)
holds('repeat-complaint-no-device', [
  ['the second within 60 days', roach('2026-03-02') + roach('2026-05-01'), '2026-05-02', ['2026-05-01..']],
  ['the second after 61', roach('2026-03-02') + roach('2026-05-02'), '2026-05-03', []],
  [
    'two of one day are one event',
    roach('2026-03-02') + roach('2026-03-02').replace('-lind.yaml', '-lind-2.yaml'),
    '2026-03-20',
    [],
  ],
  [
    'until a device is set in the area; a third complaint says nothing new',
    roach('2026-03-02') + roach('2026-03-06') + roach('2026-03-09') + setR1('2026-03-11'),
    '2026-03-20',
    ['2026-03-06..2026-03-11'],
  ],
  [
    'a device set that very day',
    roach('2026-03-02') + roach('2026-03-06') + setR1('2026-03-06'),
    '2026-03-20',
    [],
  ],
  [
    'a device elsewhere does not help',
    roach('2026-03-02') + roach('2026-03-06') + setR1('2026-03-04', 'kitchen'),
    '2026-03-20',
    ['2026-03-06..'],
  ],
  [
    'but where one complaint names no area, any device of the site does',
    complaint('2026-03-02', 'pest: german-cockroach') + roach('2026-03-06'),
    '2026-03-20',
    [],
  ],
  ['different areas', roach('2026-03-02') + roach('2026-03-06', 'kitchen'), '2026-03-20', []],
  [
    'nothing traps bats',
    complaint('2026-03-02', 'pest: bat') + complaint('2026-03-06', 'pest: bat'),
    '2026-03-20',
    [],
  ],
])

const found = (id: string, ...facts: string[]) =>
  visit(id, 'follow-up', 'found:', '  small-flies:', ...facts.map((fact) => `    ${fact}`))
const flies = found('2026-03-06-okafor', 'pest: unidentified', 'area: room-1', 'evidence: live')
holds('sighting-unidentified', [
  ['thirty days are in time', flies, '2026-04-05', ['2026-04-06..']],
  [
    'tentative is not identified',
    found('2026-03-06-okafor', 'pest: phorid-fly', 'identified: tentative', 'area: room-1', 'evidence: live'),
    '2026-04-06',
    ['2026-04-06..'],
  ],
  [
    'likely is',
    found('2026-03-06-okafor', 'pest: phorid-fly', 'identified: likely', 'area: room-1', 'evidence: live'),
    '2026-04-06',
    [],
  ],
  [
    'a later sighting of the same short name identifies it',
    flies +
      found(
        '2026-04-05-okafor',
        'pest: phorid-fly',
        'area: room-1',
        'evidence: live',
        'resolves: small-flies',
      ),
    '2026-04-10',
    [],
  ],
  [
    'but not one that is tentative itself: both wait',
    flies +
      found(
        '2026-03-20-okafor',
        'pest: phorid-fly',
        'identified: tentative',
        'area: room-1',
        'evidence: live',
        'resolves: small-flies',
      ),
    '2026-04-10',
    ['2026-04-06..', '2026-04-20..'],
  ],
  [
    'the answer about a specimen, on its day',
    flies +
      `=== sites/oak/specimens/2026-03-06-okafor.yaml
by: okafor
sighting: 2026-03-06-okafor/small-flies
kept: vial 1
sent-to: county extension office
determined: {other: shore fly, by: county extension office, on: 2026-04-09, sure: sure}
`,
    '2026-04-10',
    ['2026-04-06..2026-04-09'],
  ],
])

const termites = found('2026-03-06-okafor', 'pest: termite', 'area: room-1', 'evidence: wings')
const action = (date: string, facts: string) =>
  visit(`${date}-okafor`, 'trap-check', 'inspected: [kitchen]', `actions: {step: {${facts}}}`)
holds('termite-sign-no-action', [
  ['seven days are in time', termites, '2026-03-13', ['2026-03-14..']],
  ['old damage', termites.replace('wings', 'damage\n    age: old'), '2026-03-20', []],
  [
    'referred on the seventh day',
    termites + action('2026-03-13', 'tactic: referral, pest: termite'),
    '2026-03-20',
    [],
  ],
  [
    'an action in another area that names no pest',
    termites + action('2026-03-13', 'tactic: referral, area: kitchen'),
    '2026-03-20',
    ['2026-03-14..'],
  ],
  [
    'a cleaning of the room is no answer',
    termites + action('2026-03-13', 'tactic: cleaning, area: room-1'),
    '2026-03-20',
    ['2026-03-14..'],
  ],
  [
    'looked at again, late',
    termites + visit('2026-03-18-okafor', 'callback', 'inspected: [room-1]'),
    '2026-03-20',
    ['2026-03-14..2026-03-18'],
  ],
  [
    'a second sign of the same area before the first was answered is the same trouble',
    termites + termites.replaceAll('2026-03-06', '2026-03-09').replace('follow-up', 'trap-check'),
    '2026-03-20',
    ['2026-03-14..'],
  ],
  [
    'identified as winged ants after all',
    termites +
      found(
        '2026-03-12-okafor',
        'pest: carpenter-ant',
        'area: kitchen',
        'evidence: wings',
        'resolves: small-flies',
      ),
    '2026-03-20',
    [],
  ],
  [
    'an active station',
    visit(
      '2026-03-06-okafor',
      'set-up',
      'set: {T1: {kind: termite-station, area: room-1, within-reach: no, secured: yes, marked: yes}}',
    ) + check('2026-03-10', 'readings: {T1: {active: yes}}'),
    '2026-03-20',
    ['2026-03-18..'],
  ],
])

const nest = (facts = 'nest-state: active', pest = 'paper-wasp') =>
  found('2026-03-10-okafor', `pest: ${pest}`, 'area: room-1', 'evidence: nest', facts)
holds('social-nest-no-action', [
  ['the day itself and the next are in time', nest(), '2026-03-11', ['2026-03-12..']],
  ['abandoned', nest('nest-state: abandoned'), '2026-03-20', []],
  ['not said to be abandoned', nest('stage: adults'), '2026-03-20', ['2026-03-12..']],
  ['mud daubers defend no nest', nest('nest-state: active', 'mud-dauber'), '2026-03-20', []],
  [
    'closed off the next day',
    nest() + action('2026-03-11', 'tactic: restriction, area: room-1'),
    '2026-03-20',
    [],
  ],
  [
    'on the visit itself an action need not repeat the area',
    `${nest()}actions: {called: {did: office told to keep children away}}\n`,
    '2026-03-20',
    [],
  ],
  [
    'a nest somewhere else was dealt with',
    nest() + action('2026-03-11', 'tactic: hand-removal, area: kitchen, pest: paper-wasp'),
    '2026-03-20',
    ['2026-03-12..'],
  ],
  [
    'found abandoned later',
    nest() +
      nest('nest-state: abandoned').replaceAll('2026-03-10', '2026-03-14').replace('follow-up', 'trap-check'),
    '2026-03-20',
    ['2026-03-12..2026-03-14'],
  ],
])

const byDay = found(
  '2026-03-06-okafor',
  'pest: german-cockroach',
  'area: room-1',
  'evidence: live',
  'by-day: yes',
)
holds('cockroach-by-day-no-follow-up', [
  ['seven days are in time', byDay, '2026-03-13', ['2026-03-14..']],
  ['any visit to the area', byDay + routine('2026-03-13'), '2026-03-20', []],
  [
    'a visit to another area',
    byDay + routine('2026-03-13', read, kitchenOnly),
    '2026-03-20',
    ['2026-03-14..'],
  ],
  ['dead', byDay.replace('live', 'dead'), '2026-03-20', []],
  [
    'American cockroaches come out by day without being many',
    byDay.replace('german', 'american'),
    '2026-03-20',
    [],
  ],
  [
    'an application there',
    `${byDay}=== sites/oak/applications/2026-03-12-okafor.yaml
by: okafor
status: planned
product: bait-a
pest: german-cockroach
areas: {room-1: {amount: 2 g}}
method: spot
`,
    '2026-03-20',
    [],
  ],
])
