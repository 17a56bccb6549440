import { describe, expect, it } from 'vitest'
import { locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf } from '../../src/measure/calendar.js'
import { ruleById } from '../../src/rules/all.js'
import { baseAsOf, ledgerWith } from '../../src/rules/base-ledger.js'
import { expectedProblems } from './marked-problems.js'

/** What one rule finds, located. A record that could not be used would make every silence worthless. */
function problemsOf(rule: string, example: string, asOfText = baseAsOf) {
  const asOf = dayOf(asOfText) ?? 0
  const source = memorySource(ledgerWith(example))
  const result = runCheck(source, { asOf, asOfIsToday: true })
  expect(result.notChecked).toEqual([])
  const ofRule = result.problems.filter((problem) => problem.rule === rule && standsOn(problem, asOf))
  return locateProblems(ofRule, source)
}

/** Marks and findings of one rule; every other rule may have something to say of these unfinished ledgers. */
function spoken(rule: string, example: string, asOf = baseAsOf) {
  const found = problemsOf(rule, example, asOf)
  return {
    found: found.map(({ problem, location }) => `${problem.at.file}:${location?.line} ${rule}`).sort(),
    expected: expectedProblems(ledgerWith(example)).filter((mark) => mark.endsWith(` ${rule}`)),
  }
}

/** What a rule says, at which level, and the lines of the related places. */
function said(rule: string, example: string) {
  return problemsOf(rule, example).map(({ problem, related }) => ({
    says: ruleById(rule)?.says(problem.args),
    level: problem.level,
    from: problem.from,
    until: problem.until,
    related: related.map(({ related: { place }, location }) => `${place.file}:${location?.line}`),
  }))
}

const visit = (name: string, lines: string, purpose = 'follow-up') => `
=== sites/oak/visits/${name}.yaml
purpose: ${purpose}
by: okafor
${lines}
`

describe('device-read-outside-its-life', () => {
  const rule = 'device-read-outside-its-life'

  it.each([
    [
      'read on the day before it is set, and on that day',
      `${visit('2026-03-04-okafor', 'readings: {K1: {renewed: yes}} # expect: device-read-outside-its-life')}
${visit('2026-03-06-okafor', 'readings: {none: [K1]}')}`,
    ],
    [
      'read on the visit that takes it up: what stands is read first',
      visit('2026-03-10-okafor', 'readings: {none: [K1]}\ntaken-up: {K1: room closed}'),
    ],
    [
      'read on the visit after it was taken up',
      `${visit('2026-03-10-okafor', 'taken-up: {K1: room closed}')}
${visit('2026-03-11-okafor', 'readings:\n  none: [K1] # expect: device-read-outside-its-life')}`,
    ],
    [
      'taken up and set again, then read',
      `${visit('2026-03-10-okafor', 'taken-up: {K1: worn out}\nset: {K1: {kind: sticky-trap, area: room-1, within-reach: no}}')}
${visit('2026-03-11-okafor', 'readings: {none: [K1]}')}`,
    ],
    [
      'read and set on one visit',
      visit(
        '2026-03-10-okafor',
        `readings:
  none: [K2] # expect: device-read-outside-its-life
set: {K2: {kind: sticky-trap, area: room-1, within-reach: no}}`,
      ),
    ],
    [
      'two visits of one day, in order by their times whatever their names',
      `${visit('2026-03-10-okafor-b', 'time: 06:00 to 06:30\nset: {K2: {kind: sticky-trap, area: room-1, within-reach: no}}')}
${visit('2026-03-10-okafor-a', 'time: 15:00 to 15:30\nreadings: {none: [K2]}')}`,
    ],
    [
      'a device that was never set is left to dangling-reference',
      visit('2026-03-10-okafor', 'readings: {none: [K9]}'),
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('names the day and points to where it was set or taken up', () => {
    expect(said(rule, visit('2026-03-04-okafor', 'readings: {none: [K1]}'))).toEqual([
      {
        says: 'K1 is read here but was set only on 2026-03-05.',
        level: 'error',
        from: dayOf('2026-03-04'),
        until: undefined,
        related: ['sites/oak/visits/2026-03-05-okafor.yaml:8'],
      },
    ])
    const after = `${visit('2026-03-10-okafor', 'taken-up: {K1: room closed}')}
${visit('2026-03-12-okafor', 'readings: {none: [K1]}')}`
    expect(said(rule, after)).toMatchObject([
      {
        says: 'K1 is read here but was taken up on 2026-03-10.',
        related: ['sites/oak/visits/2026-03-10-okafor.yaml:3'],
      },
    ])
  })

  it('is a warning where two visits of one day do not both say when they were made', () => {
    const example = `${visit('2026-03-10-okafor-a', 'taken-up: {K1: room closed}')}
${visit('2026-03-10-okafor-b', 'readings: {none: [K1]}')}`
    expect(said(rule, example)).toMatchObject([{ level: 'warning' }])
    const timed = `${visit('2026-03-10-okafor-a', 'time: 06:00 to 06:30\ntaken-up: {K1: room closed}')}
${visit('2026-03-10-okafor-b', 'time: 07:00 to 07:30\nreadings: {none: [K1]}')}`
    expect(said(rule, timed)).toMatchObject([
      { level: 'error', says: 'K1 is read here but was taken up earlier that day.' },
    ])
  })
})

describe('device-not-standing', () => {
  const rule = 'device-not-standing'

  it.each([
    [
      'moved, picked up, put out and taken up before it is set',
      visit(
        '2026-03-04-okafor',
        `moved:
  K1: {area: room-1, within-reach: no} # expect: device-not-standing
picked-up: [K1] # expect: device-not-standing
put-out: [K1] # expect: device-not-standing
taken-up: {K1: room closed} # expect: device-not-standing`,
      ),
    ],
    [
      'moved, picked up and put out on the day after it is set',
      visit(
        '2026-03-06-okafor',
        'moved: {K1: {area: room-1, within-reach: no}}\npicked-up: [K1]\nput-out: [K1]',
      ),
    ],
    [
      'taken up twice',
      `${visit('2026-03-10-okafor', 'taken-up: {K1: room closed}')}
${visit('2026-03-11-okafor', 'taken-up: {K1: room closed} # expect: device-not-standing')}`,
    ],
    ['never set: left to dangling-reference', visit('2026-03-10-okafor', 'taken-up: {K9: room closed}')],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('tells the end of its last life rather than a later setting', () => {
    const example = `${visit('2026-03-10-okafor', 'taken-up: {K1: room closed}')}
${visit('2026-03-11-okafor', 'picked-up: [K1]')}
${visit('2026-03-12-okafor', 'set: {K1: {kind: sticky-trap, area: room-1, within-reach: no}}')}`
    expect(said(rule, example)).toMatchObject([
      {
        says: 'K1 is picked up here but was taken up on 2026-03-10.',
        related: ['sites/oak/visits/2026-03-10-okafor.yaml:3'],
      },
    ])
  })

  it('does not take a life that begins and ends later that day for an earlier one', () => {
    const example = `${visit('2026-03-10-okafor-a', 'time: 06:00 to 06:10\nmoved: {S1: {area: kitchen}}')}
${visit('2026-03-10-okafor-b', 'time: 07:00 to 07:10\nset: {S1: {kind: snap-trap, area: kitchen}}')}
${visit('2026-03-10-okafor-c', 'time: 17:00 to 17:10\nreadings: {none: [S1]}\ntaken-up: {S1: done}')}`
    expect(said(rule, example)).toMatchObject([{ says: 'S1 is moved here but was set only later that day.' }])
  })

  it('says it plainly where one visit does both', () => {
    const example = visit(
      '2026-03-10-okafor',
      'moved: {K2: {area: kitchen}}\nset: {K2: {kind: sticky-trap, area: room-1, within-reach: no}}',
    )
    expect(said(rule, example)).toMatchObject([
      {
        level: 'error',
        says: 'K2 is moved and set in this one visit; new devices are set last, after everything else was done.',
      },
    ])
  })
})

describe('count-fell', () => {
  const rule = 'count-fell'
  const ants = (day: string, reading: string) => visit(`${day}-okafor`, `readings:\n  ${reading}`)

  it.each([
    ['the same count again', `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-12', 'K1: {ant: 5}')}`],
    [
      'one fewer',
      `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-12', 'K1: {ant: 4} # expect: count-fell')}`,
    ],
    [
      'renewed at the reading before',
      `${ants('2026-03-10', 'K1: {ant: 5, renewed: yes}')}${ants('2026-03-12', 'K1: {ant: 1}')}`,
    ],
    [
      'renewed only now: what was on it until now still fell',
      `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-12', 'K1: {ant: 1, renewed: yes} # expect: count-fell')}`,
    ],
    [
      'listed under none: zero of what it is for',
      `${ants('2026-03-10', 'K1: {german-cockroach: 2}')}${ants('2026-03-12', 'none: [K1] # expect: count-fell')}`,
    ],
    [
      'a pest it is not for and that is not named again tells nothing',
      `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-12', 'none: [K1]')}`,
    ],
    [
      'found wet: the count is not held against it',
      `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-12', 'K1: {ant: 1, unusable: wet, renewed: yes}')}`,
    ],
    [
      'egg cases are no animals on it',
      `${ants('2026-03-10', 'K1: {german-cockroach: {adults: 1, egg-cases: 3}}')}${ants('2026-03-12', 'K1: {german-cockroach: {adults: 1}}')}`,
    ],
    [
      'no access between',
      `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-11', 'K1: {no-access: cabinet in front}')}${ants('2026-03-12', 'K1: {ant: 6}')}`,
    ],
    [
      'read twice in one visit is duplicate-id alone',
      `${ants('2026-03-10', 'K1: {german-cockroach: 2}')}${ants('2026-03-12', 'none: [K1]\n  K1: {german-cockroach: 2}')}`,
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('says how many, when, and points to the reading that counted them', () => {
    const example = `${ants('2026-03-10', 'K1: {ant: 5}')}${ants('2026-03-12', 'none: [K1]')}${ants('2026-03-16', 'K1: {ant: 2}')}`
    expect(said(rule, example)).toEqual([
      {
        says: 'K1 held 5 (ant) on 2026-03-10 and 2 now, and no renewal is recorded between.',
        level: 'warning',
        from: dayOf('2026-03-16'),
        until: undefined,
        related: ['sites/oak/visits/2026-03-10-okafor.yaml:4'],
      },
    ])
  })
})

describe('reading-does-not-fit', () => {
  const rule = 'reading-does-not-fit'
  const kinds = `
  S1: {kind: snap-trap, area: kitchen}
  G1: {kind: glue-board, area: kitchen}
  B1: {kind: bait-station, area: kitchen}
  L1: {kind: light-trap, area: kitchen}
  P1: {kind: tracking-patch, area: kitchen}
  E1: {kind: blocked-entrance, area: kitchen}
  T1: {kind: termite-station, area: kitchen}
  M1: {kind: multiple-catch-trap, area: kitchen}
  R1: {kind: pheromone-trap, area: kitchen}`
  const readings = (lines: string) =>
    visit('2026-03-10-okafor', `set:${kinds}`) + visit('2026-03-11-okafor', `readings:\n  ${lines}`)

  it.each([
    'K1: {bait-taken: some} # expect: reading-does-not-fit',
    'K1: {bait-added: 1 g} # expect: reading-does-not-fit',
    'B1: {bait-taken: none, bait-added: 1 block}',
    'T1: {active: no, bait-taken: none}',
    'B1: {active: no} # expect: reading-does-not-fit',
    'T1: {tracks: none} # expect: reading-does-not-fit',
    'P1: {tracks: none}',
    'E1: {block: in-place}',
    'P1: {block: moved} # expect: reading-does-not-fit',
    'L1: {lamp: 2026-03-11}',
    'G1: {lamp: 2026-03-11} # expect: reading-does-not-fit',
    'S1: {sprung: empty, reset: yes}',
    'G1: {sprung: empty} # expect: reading-does-not-fit',
    'M1: {reset: yes} # expect: reading-does-not-fit',
    'M1: {renewed: yes}',
    'R1: {renewed: yes, product: bait-a}',
    'P1: {house-mouse: 0} # expect: reading-does-not-fit',
    'E1: {norway-rat: 1} # expect: reading-does-not-fit',
    'B1: {other: slug, note: in the lid}',
    'none: [P1, E1, B1, T1]',
    'S1: {house-mouse: 1, reset: yes}',
    'L1: {yellowjacket: 1}',
    'L1: {house-mouse: 1} # expect: reading-does-not-fit',
    'L1: {house-mouse: 0}',
    'L1: {unidentified: 3}',
    'K1: {house-fly: 2}',
    'P1: {no-access: locked}',
    'K1: {unusable: missing}',
  ])('%s', (line) => {
    const { found, expected } = spoken(rule, readings(line))
    expect(found).toEqual(expected)
  })

  it('is a note for a pest the kind is not made to show, unless it was set for it', () => {
    expect(said(rule, readings('L1: {house-mouse: 1}'))).toMatchObject([
      {
        level: 'note',
        says: 'L1 is a light trap, which is not made to show what it counts here: house-mouse.',
        related: ['sites/oak/visits/2026-03-10-okafor.yaml:7'],
      },
    ])
    const setForIt =
      visit('2026-03-10-okafor', 'set: {L1: {kind: light-trap, area: kitchen, for: [house-mouse]}}') +
      visit('2026-03-11-okafor', 'readings: {L1: {house-mouse: 1}}')
    expect(said(rule, setForIt)).toEqual([])
  })

  it('is an error for what cannot be', () => {
    expect(said(rule, readings('P1: {house-mouse: 2}'))).toMatchObject([
      {
        level: 'error',
        says: 'P1 is a tracking patch of flour or talc, on which nothing is counted, yet it counts house-mouse.',
      },
    ])
    expect(said(rule, readings('K1: {bait-taken: all}'))).toMatchObject([
      { level: 'error', says: 'K1 is a sticky trap, of which `bait-taken` cannot be read.' },
    ])
  })
})

describe('sprung-more-than-traps', () => {
  const rule = 'sprung-more-than-traps'
  const trap = (facts: string, reading: string) =>
    visit('2026-03-10-okafor', `set: {S1: {kind: snap-trap, area: kitchen${facts}}}`) +
    visit('2026-03-11-okafor', `readings:\n  S1: ${reading}`)

  it.each([
    ['one trap, sprung empty', trap('', '{sprung: empty, reset: yes}')],
    ['one trap with a catch', trap('', '{house-mouse: 1, reset: yes}')],
    ['one trap, empty and with a catch', trap('', `{sprung: empty, house-mouse: 1} # expect: ${rule}`)],
    ['a pair, one empty and one with a catch', trap(', traps: 2', '{sprung: empty, house-mouse: 1}')],
    [
      'a pair, one empty, one with another animal and one with a catch',
      trap(', traps: 2', `{sprung: {empty: 1, other-animal: 1}, house-mouse: 1} # expect: ${rule}`),
    ],
    ['a pair, both empty', trap(', traps: 2', '{sprung: {empty: 2}}')],
    ['two mice in one trap is odd, but not about sprung', trap('', '{house-mouse: 2}')],
    ['ants at the bait occupy no trap', trap('', '{sprung: empty, ant: 12}')],
    ['none sprung of one', trap('', '{sprung: {empty: 0}, house-mouse: 1}')],
    [
      'a rat in a trap set for mice occupies one',
      trap('', `{sprung: empty, norway-rat: 1} # expect: ${rule}`),
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('says how many there are and how many were told', () => {
    expect(said(rule, trap(', traps: 2', '{sprung: {empty: 2}, house-mouse: 1}'))).toMatchObject([
      {
        says: 'S1 is 2 traps, but this reading has 2 sprung without a catch and 1 with one.',
        related: ['sites/oak/visits/2026-03-10-okafor.yaml:3'],
      },
    ])
  })
})

describe('device-area-not-there', () => {
  const rule = 'device-area-not-there'
  const site = (room2: string) => `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: []
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom}
  room-2: {kind: classroom${room2}}
`
  const set = 'set:\n  R1: {kind: sticky-trap, area: room-2, within-reach: no}'

  it.each([
    ['set on the first day of the area', site(', from: 2026-03-10') + visit('2026-03-10-okafor', set)],
    [
      'set the day before it',
      site(', from: 2026-03-11') + visit('2026-03-10-okafor', `${set} # expect: ${rule}`),
    ],
    ['set on the last day of the area', site(', until: 2026-03-10') + visit('2026-03-10-okafor', set)],
    [
      'set the day after it',
      site(', until: 2026-03-09') + visit('2026-03-10-okafor', `${set} # expect: ${rule}`),
    ],
    ['an area without days, before the records begin', site('') + visit('2026-02-20-okafor', set)],
    [
      'moved there, inspected and not entered',
      site(', from: 2026-03-11') +
        visit(
          '2026-03-10-okafor',
          `moved:
  K1: {area: room-2, within-reach: no} # expect: ${rule}
inspected: [kitchen, room-2] # expect: ${rule}
no-entry:
  room-2: no key # expect: ${rule}`,
        ),
    ],
    [
      'moved within its area',
      site(', from: 2026-03-11') + visit('2026-03-10-okafor', 'moved: {K1: {within-reach: no}}'),
    ],
    [
      'an area that is not there at all is left to dangling-reference',
      visit('2026-03-10-okafor', 'inspected: [room-9]'),
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('points to the day in site.yaml', () => {
    expect(said(rule, site(', until: 2026-03-09') + visit('2026-03-10-okafor', set))).toMatchObject([
      {
        says: 'room-2, where this visit puts R1, was part of the site only until 2026-03-09.',
        level: 'warning',
        related: ['sites/oak/site.yaml:8'],
      },
    ])
  })
})
