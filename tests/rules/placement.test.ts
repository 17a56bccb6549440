import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { placementRules } from '../../src/rules/placement/index.js'
import type { Problem } from '../../src/types.js'
import { expectedProblems, foundProblems } from './marked-problems.js'

const ids = new Set(placementRules.map((rule) => rule.id))

/** What the rules of this family say, as `file:line rule`; other rules are judged by their own tests. */
function found(overlay: string, asOf = '2026-03-20'): string[] {
  return foundProblems(ledgerWith(overlay), asOf).filter((line) => ids.has(line.split(' ')[1] ?? ''))
}

function problems(overlay: string, rule: string, asOf = '2026-03-20'): readonly Problem[] {
  const source = memorySource(ledgerWith(overlay))
  const result = runCheck(source, { asOf: dayOf(asOf) ?? 0, asOfIsToday: true })
  return result.problems.filter((problem) => problem.rule === rule)
}

/** A set-up visit of 2026-03-10. */
const setUp = (devices: string) => `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
set:
${devices}`

const later = (day: string, body: string) => `
=== sites/oak/visits/${day}-okafor.yaml
purpose: follow-up
by: okafor
${body}`

const siteWith = (
  more: string,
  areas = '  kitchen: {kind: kitchen}\n  room-1: {kind: classroom, children: yes}',
) => `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas:
${areas}
${more}`

const mark = (rule: string) => `# expect: ${rule}`

describe('what was recorded when a device was last set or moved', () => {
  const unsecured = '  S1: {kind: snap-trap, area: kitchen, secured: no, marked: yes}'
  it.each<[string, string]>([
    [
      'a glue board and a multiple-catch trap are rodent devices too',
      setUp(`  G1: {kind: glue-board, area: kitchen, secured: no, marked: yes, above-food: no} ${mark('rodent-device-not-secured')}
  M1: {kind: multiple-catch-trap, area: kitchen, secured: yes, marked: no} ${mark('rodent-device-not-marked')}
`),
    ],
    [
      'a bait station counts when it is for a rodent, also by its kind, and not when it is for ants',
      setUp(`  B1: {kind: bait-station, area: kitchen, secured: no, marked: yes} ${mark('rodent-device-not-secured')}
  B2: {kind: bait-station, area: kitchen, for: [odorous-house-ant], secured: no, marked: no}
  B3: {kind: bait-station, area: kitchen, for: [odorous-house-ant, roof-rat], secured: no, marked: yes} ${mark('rodent-device-not-secured')}
`),
    ],
    [
      'a number printed on a trap does not undo that it is said not to be marked',
      setUp(
        `  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: no, marked-as: "#17"} ${mark('rodent-device-not-marked')}\n`,
      ),
    ],
    [
      'a locked room changes nothing',
      siteWith(
        '',
        '  boiler-room: {kind: utility, keys: ring 3, children: no}\n  kitchen: {kind: kitchen}\n  room-1: {kind: classroom}',
      ) +
        setUp(
          `  S1: {kind: snap-trap, area: boiler-room, secured: no, marked: yes} ${mark('rodent-device-not-secured')}\n`,
        ),
    ],
    [
      'a trap within reach matters only where children may be, and while they are there',
      siteWith(
        '',
        '  kitchen: {kind: kitchen, children: no}\n  room-1: {kind: classroom, children: yes}\n  hall: {kind: public}',
      ) +
        setUp(`  R1: {kind: sticky-trap, area: room-1, within-reach: yes} ${mark('trap-within-reach')}
  R2: {kind: sticky-trap, area: hall, within-reach: yes} ${mark('trap-within-reach')}
  R3: {kind: sticky-trap, area: kitchen, within-reach: yes}
  R4: {kind: sticky-trap, area: room-1, within-reach: yes, while-pupils-away: yes}
  R5: {kind: snap-trap, area: room-1, within-reach: yes, secured: yes, marked: yes} ${mark('trap-within-reach')}
  R6: {kind: pheromone-trap, area: room-1, within-reach: yes}
`),
    ],
    [
      'facts of a light trap on another kind of device say nothing of light traps',
      setUp(
        '  P1: {kind: pheromone-trap, area: kitchen, in-doorway: yes, visible-outdoors: yes, height: 9 ft}\n',
      ),
    ],
    [
      'a light trap exactly at eye level is not above it, in whatever unit',
      setUp(`  L1: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: no, height: 5 ft}
  L2: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: no, height: 1.524 m}
  L3: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: no, height: 152.5 cm} ${mark('light-trap-too-high')}
`),
    ],
    [
      'a light trap with a glue board may hang above food, one with a grid may not, nor a glue board',
      setUp(`  L1: {kind: light-trap, area: kitchen, in-doorway: no, visible-outdoors: no, above-food: yes}
  L2: {kind: light-trap, area: kitchen, electric-grid: yes, in-doorway: no, visible-outdoors: no, above-food: yes} ${mark('device-above-food')}
  G1: {kind: glue-board, area: kitchen, secured: yes, marked: yes, above-food: yes} ${mark('device-above-food')}
`),
    ],
    [
      'it ends when the device is taken up',
      setUp(`${unsecured}\n`) + later('2026-03-20', 'taken-up: {S1: room closed}\n'),
    ],
    [
      'it ends when the device is moved',
      setUp(`${unsecured}\n`) + later('2026-03-20', 'moved: {S1: {secured: yes, marked: yes}}\n'),
    ],
    [
      'a move can also make it worse, and is then the place to mend',
      setUp('  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}\n') +
        later(
          '2026-03-12',
          `moved:\n  S1: {secured: no, marked: yes} ${mark('rodent-device-not-secured')}\n`,
        ),
    ],
    [
      'a trap that is picked up does not stand',
      setUp(`${unsecured}\n`) + later('2026-03-20', 'picked-up: [S1]\n'),
    ],
    [
      'a trap put out again stands as it stood',
      setUp(`${unsecured} ${mark('rodent-device-not-secured')}\n`) +
        later('2026-03-18', 'picked-up: [S1]\n') +
        later('2026-03-19', 'put-out: [S1]\n'),
    ],
    ['a site that is closed asks nothing', siteWith('until: 2026-03-19\n') + setUp(`${unsecured}\n`)],
    [
      'the last day of a site still counts',
      siteWith('until: 2026-03-20\n') + setUp(`${unsecured} ${mark('rodent-device-not-secured')}\n`),
    ],
  ])('%s', (_, overlay) => {
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it('says from which day to which it was so', () => {
    const overlay =
      setUp(`${unsecured}\n`) + later('2026-03-17', 'moved: {S1: {secured: yes, marked: yes}}\n')
    const [problem, ...more] = problems(overlay, 'rodent-device-not-secured')
    expect(more).toEqual([])
    expect([problem?.from, problem?.until].map((day) => isoOf(day ?? 0))).toEqual([
      '2026-03-10',
      '2026-03-17',
    ])
  })

  it('what was set before the records begin is true from their first day', () => {
    const overlay = `
=== sites/oak/visits/2026-02-20-okafor.yaml
purpose: set-up
by: okafor
set:
${unsecured}
`
    expect(problems(overlay, 'rodent-device-not-secured').map(({ from }) => isoOf(from))).toEqual([
      '2026-03-01',
    ])
  })

  it('a fact made good on its own day was never a finding', () => {
    const overlay =
      setUp(`${unsecured}\n`) +
      `
=== sites/oak/visits/2026-03-10-okafor-2.yaml
purpose: follow-up
by: okafor
moved: {S1: {secured: yes, marked: yes}}
`
    expect(problems(overlay, 'rodent-device-not-secured')).toEqual([])
  })

  it('cites the Navy manual for glue boards above food, and no source for light traps', () => {
    const overlay = setUp(`  G1: {kind: glue-board, area: kitchen, secured: yes, marked: yes, above-food: yes}
  L1: {kind: light-trap, area: kitchen, electric-grid: yes, in-doorway: no, visible-outdoors: no, above-food: yes}
`)
    expect(problems(overlay, 'device-above-food').map(({ sources }) => sources[0]?.kind)).toEqual([
      'published',
      'practice',
    ])
  })
})

describe('placement-not-recorded', () => {
  const base = siteWith('').replace('areas:', 'areas: # expect: placement-not-recorded')
  it.each<[string, string]>([
    [
      'one note for a site, however many devices',
      base + setUp('  S1: {kind: snap-trap, area: kitchen}\n  S2: {kind: snap-trap, area: kitchen}\n'),
    ],
    [
      'nothing is asked of kinds that no fact is asked of',
      siteWith('') +
        setUp(
          '  P1: {kind: pheromone-trap, area: kitchen}\n  T1: {kind: tracking-patch, area: kitchen}\n  C1: {kind: sticky-card, area: room-1}\n',
        ),
    ],
    [
      'whether children can reach it is not asked where there are none',
      siteWith('', '  kitchen: {kind: kitchen, children: no}\n  room-1: {kind: classroom}') +
        setUp(
          '  K2: {kind: sticky-trap, area: kitchen}\n  K3: {kind: sticky-trap, area: room-1, while-pupils-away: yes}\n',
        ),
    ],
    [
      'a light trap is asked for both',
      base + setUp('  L1: {kind: light-trap, area: kitchen, in-doorway: no}\n'),
    ],
    [
      'a mark goes along, the fastening does not',
      base +
        setUp('  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}\n') +
        later('2026-03-12', 'moved: {S1: {marked: yes}}\n'),
    ],
    [
      'a mark goes along',
      siteWith('') +
        setUp('  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}\n') +
        later('2026-03-12', 'moved: {S1: {secured: yes}}\n'),
    ],
    [
      'what is taken up or picked up is not asked about',
      siteWith('') +
        setUp('  S1: {kind: snap-trap, area: kitchen}\n  S2: {kind: snap-trap, area: kitchen}\n') +
        later('2026-03-12', 'taken-up: {S1: caught nothing}\npicked-up: [S2]\n'),
    ],
    [
      'what is said to be wrong is recorded',
      siteWith('') +
        setUp('  G1: {kind: glue-board, area: kitchen, secured: yes, marked-as: "G1", above-food: no}\n'),
    ],
  ])('%s', (_, overlay) => {
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it('counts devices by fact', () => {
    const overlay = setUp(`  S1: {kind: snap-trap, area: kitchen}
  S2: {kind: snap-trap, area: kitchen, secured: yes}
  L1: {kind: light-trap, area: kitchen, visible-outdoors: no}
`)
    expect(problems(overlay, 'placement-not-recorded').map(({ args }) => args)).toEqual([
      // K1 of the base stands too, with all that is asked of it.
      { lacking: 3, standing: 4, facts: ['secured (1)', 'marked (2)', 'in-doorway (1)'] },
    ])
  })
})

describe('run-spacing', () => {
  const trap = (id: string, more = '') =>
    `  ${id}: {kind: snap-trap, area: kitchen, secured: yes, marked: yes${more}}\n`
  const ratTrap = (id: string) => trap(id, ', for: [norway-rat]')
  const run = (devices: readonly string[], more: string, active = 'active-control: [{from: 2026-03-10}]') =>
    siteWith(`diagram: {file: diagram.svg, unit: ft}
runs:
  wall:
    devices:
${devices.map((device) => `      - ${device}\n`).join('')}    ${more}
    ${active}
`)
  const marked = (id: string) => `${id} ${mark('run-spacing')}`

  it.each<[string, string]>([
    [
      '15 ft exactly is near enough for mice',
      run(['D1', 'D2'], 'spacing: [15 ft]') + setUp(trap('D1') + trap('D2')),
    ],
    ['a hair more is not', run(['D1', marked('D2')], 'spacing: [15.01 ft]') + setUp(trap('D1') + trap('D2'))],
    [
      'units are compared exactly: 4.572 m is 15 ft',
      run(['D1', 'D2'], 'spacing: [4.572 m]') + setUp(trap('D1') + trap('D2')),
    ],
    [
      'each pair is judged',
      run(['D1', 'D2', marked('D3')], 'spacing: [15 ft, 16 ft]') +
        setUp(trap('D1') + trap('D2') + trap('D3')),
    ],
    [
      'no active control at all: the run is only watched',
      run(['D1', 'D2'], 'spacing: [40 ft]', 'along: north wall') + setUp(trap('D1') + trap('D2')),
    ],
    [
      'active control that has ended',
      run(['D1', 'D2'], 'spacing: [40 ft]', 'active-control: [{from: 2026-03-10, until: 2026-03-19}]') +
        setUp(trap('D1') + trap('D2')),
    ],
    [
      'active control on its last day',
      run(
        ['D1', marked('D2')],
        'spacing: [40 ft]',
        'active-control: [{from: 2026-03-10, until: 2026-03-20}]',
      ) + setUp(trap('D1') + trap('D2')),
    ],
    [
      'active control that has not begun',
      run(['D1', 'D2'], 'spacing: [40 ft]', 'active-control: [{from: 2026-03-21}]') +
        setUp(trap('D1') + trap('D2')),
    ],
    [
      'what was taken up is skipped, and its two distances are added',
      run(['D1', 'D2', marked('D3')], 'spacing: [7.2 ft, 7.9 ft]') +
        setUp(trap('D1') + trap('D2') + trap('D3')) +
        later('2026-03-12', 'taken-up: {D2: broken}\n'),
    ],
    [
      'added distances are exact too: 7.2 ft and 7.8 ft',
      run(['D1', 'D2', 'D3'], 'spacing: [7.2 ft, 7.8 ft]') +
        setUp(trap('D1') + trap('D3')) +
        later('2026-03-12', 'set:\n  D2: {kind: tracking-patch, area: kitchen}\n'),
    ],
    [
      'what is picked up does not stand',
      run(['D1', 'D2', marked('D3')], 'spacing: [10 ft, 10 ft]') +
        setUp(trap('D1') + trap('D2') + trap('D3')) +
        later('2026-03-12', 'picked-up: [D2]\n'),
    ],
    [
      'a device that was never set is not standing',
      run(['D1', 'D2', 'D3'], 'spacing: [7 ft, 7 ft]') + setUp(trap('D1') + trap('D3')),
    ],
    [
      'positions serve where no distance is stated',
      run(['D1', marked('D2')], 'along: north wall') +
        setUp(trap('D1', ', at: [0, 0]') + trap('D2', ', at: [9, 12.1]')),
    ],
    [
      'a straight line of exactly 15 ft',
      run(['D1', 'D2'], 'along: north wall') +
        setUp(trap('D1', ', at: [0, 0]') + trap('D2', ', at: [9, 12]')),
    ],
    [
      'the distance along the wall wins over the straight line',
      run(['D1', 'D2'], 'spacing: [14 ft]') + setUp(trap('D1', ', at: [0, 0]') + trap('D2', ', at: [0, 90]')),
    ],
    [
      'one position is not enough',
      run(['D1', 'D2'], 'along: north wall') + setUp(trap('D1', ', at: [0, 0]') + trap('D2')),
    ],
    [
      'a move without a position leaves it unknown',
      run(['D1', 'D2'], 'along: north wall') +
        setUp(trap('D1', ', at: [0, 0]') + trap('D2', ', at: [0, 90]')) +
        later('2026-03-12', 'moved: {D2: {secured: yes, marked: yes}}\n'),
    ],
    [
      'a rat run is measured by rats',
      run(['D1', 'D2'], 'spacing: [20 ft]') + setUp(ratTrap('D1') + ratTrap('D2')),
    ],
    [
      'more than 20 ft for rats',
      run(['D1', marked('D2')], 'spacing: [20.5 ft]') + setUp(ratTrap('D1') + ratTrap('D2')),
    ],
    [
      'a trap for rats does not stand in for one for mice',
      run(['D1', 'D2', marked('D3')], 'spacing: [8 ft, 8 ft]') +
        setUp(trap('D1') + ratTrap('D2') + trap('D3')),
    ],
    [
      'a board for cockroaches is no device against rodents',
      run(['D1', 'D2'], 'spacing: [40 ft]') +
        setUp(
          '  D1: {kind: sticky-trap, area: kitchen, within-reach: no}\n  D2: {kind: sticky-trap, area: kitchen, within-reach: no}\n',
        ),
    ],
    [
      'a station for both is named once',
      run(['D1', marked('D2')], 'spacing: [25 ft]') +
        setUp(
          '  D1: {kind: bait-station, area: kitchen, secured: yes, marked: yes}\n  D2: {kind: bait-station, area: kitchen, secured: yes, marked: yes}\n',
        ),
    ],
  ])('%s', (_, overlay) => {
    expect(found(overlay)).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it.each([
    ['20.5 ft', 'note', '20 ft'],
    ['30 ft', 'note', '20 ft'],
    ['30.5 ft', 'warning', '30 ft'],
  ])('rats at %s: %s', (spacing, level, limit) => {
    const overlay = run(['D1', 'D2'], `spacing: [${spacing}]`) + setUp(ratTrap('D1') + ratTrap('D2'))
    expect(problems(overlay, 'run-spacing').map((problem) => [problem.level, problem.args.limit])).toEqual([
      [level, limit],
    ])
  })

  it('a station for mice and rats far apart is a warning for rats, said once', () => {
    const station = (id: string) =>
      `  ${id}: {kind: bait-station, area: kitchen, secured: yes, marked: yes}\n`
    const overlay = run(['D1', 'D2'], 'spacing: [31 ft]') + setUp(station('D1') + station('D2'))
    expect(problems(overlay, 'run-spacing').map(({ level, args }) => [level, args.against])).toEqual([
      ['warning', 'rats'],
    ])
  })

  it('a station for both within what rats ask is measured by mice', () => {
    const station = (id: string) =>
      `  ${id}: {kind: bait-station, area: kitchen, secured: yes, marked: yes}\n`
    const overlay = run(['D1', 'D2'], 'spacing: [25 ft]') + setUp(station('D1') + station('D2'))
    expect(problems(overlay, 'run-spacing').map(({ level, args }) => [level, args.against])).toEqual([
      ['note', 'mice'],
    ])
  })

  it('is a note while only practice asks, and a warning when the district adopts a distance of its own', () => {
    const own = `
=== rulebooks/own.yaml
title: Own rules
jurisdiction: Example District
read-on: 2026-03-01
covers: spacing
does-not-cover: [everything else]
parameters:
  run.mouse-spacing: [{from: 2026-03-01, value: 10 ft, source: board policy, kind: standard, confidence: read}]
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks:
  - {from: 2026-03-01, rulebook: practice}
  - {from: 2026-03-01, rulebook: own}
calendar: [{from: 2025-09-02, until: 2026-06-12}]
`
    const near = run(['D1', 'D2'], 'spacing: [12 ft]') + setUp(trap('D1') + trap('D2'))
    const far = run(['D1', 'D2'], 'spacing: [16 ft]') + setUp(trap('D1') + trap('D2'))
    expect(problems(near + own, 'run-spacing').map(({ level, args }) => [level, args.limit])).toEqual([
      ['warning', '10 ft'],
    ])
    expect(problems(far, 'run-spacing').map(({ level }) => level)).toEqual(['note'])
  })

  it('is true from the day the device between them was taken up', () => {
    const overlay =
      run(['D1', 'D2', 'D3'], 'spacing: [10 ft, 10 ft]') +
      setUp(trap('D1') + trap('D2') + trap('D3')) +
      later('2026-03-14', 'taken-up: {D2: broken}\n')
    expect(problems(overlay, 'run-spacing').map(({ from }) => isoOf(from))).toEqual(['2026-03-14'])
  })

  it('does not measure between floors, nor between areas whose floors are not known', () => {
    const traps =
      '  D1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes, at: [0, 0]}\n  D2: {kind: snap-trap, area: room-1, secured: yes, marked: yes, at: [0, 90]}\n'
    const floors = (kitchen: string, room: string) =>
      run(['D1', 'D2'], 'along: north wall')
        .replace('{kind: kitchen}', `{kind: kitchen${kitchen}}`)
        .replace('children: yes}', `children: yes${room}}`) + setUp(traps)
    expect(problems(floors(', floor: 1', ', floor: 2'), 'run-spacing')).toHaveLength(0)
    expect(problems(floors('', ''), 'run-spacing')).toHaveLength(0)
    expect(problems(floors(', floor: 1', ''), 'run-spacing')).toHaveLength(0)
    expect(problems(floors(', floor: 1', ', floor: 1'), 'run-spacing')).toHaveLength(1)
  })
})
