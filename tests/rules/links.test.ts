import { describe, expect, it } from 'vitest'
import { locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf } from '../../src/measure/calendar.js'
import { allRules, ruleById } from '../../src/rules/all.js'
import { baseAsOf, ledgerWith } from '../../src/rules/base-ledger.js'
import { expectedProblems, foundProblems } from './marked-problems.js'

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
  return problemsOf(rule, example).map(({ problem, location, related }) => ({
    at: `${problem.at.file}:${location?.line}`,
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

/** A file of the base with some text of it replaced. */
function changed(file: string, from: string, to: string): string {
  const text = ledgerWith('').get(file) ?? ''
  expect(text).toContain(from)
  return `\n=== ${file}\n${text.replace(from, to)}`
}

describe('duplicate-id', () => {
  const rule = 'duplicate-id'
  const k2 = '{kind: sticky-trap, area: room-1, within-reach: no}'

  it.each([
    ['set again while it stands', visit('2026-03-10-okafor', `set:\n  K1: ${k2} # expect: ${rule}`)],
    [
      'taken up and set again on one visit',
      visit('2026-03-10-okafor', `taken-up: {K1: worn}\nset: {K1: ${k2}}`),
    ],
    [
      'set again after it was taken up',
      visit('2026-03-10-okafor', 'taken-up: {K1: worn}') + visit('2026-03-11-okafor', `set: {K1: ${k2}}`),
    ],
    [
      'picked up is not taken up',
      visit('2026-03-10-okafor', `picked-up: [K1]\nset:\n  K1: ${k2} # expect: ${rule}`),
    ],
    [
      'read on two visits of one day',
      visit('2026-03-10-okafor-a', 'readings: {none: [K1]}') +
        visit('2026-03-10-okafor-b', 'readings: {none: [K1]}'),
    ],
    [
      'twice under none',
      visit('2026-03-10-okafor', `readings:\n  none:\n    - K1\n    - K1 # expect: ${rule}`),
    ],
    [
      'under none and by itself',
      visit('2026-03-10-okafor', `readings:\n  none: [K1]\n  K1: {ant: 1} # expect: ${rule}`),
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('points to where the standing one was set, and to the first reading', () => {
    expect(said(rule, visit('2026-03-10-okafor', `set: {K1: ${k2}}`))).toMatchObject([
      {
        says: 'K1 is set here while it still stands, set on 2026-03-05.',
        related: ['sites/oak/visits/2026-03-05-okafor.yaml:8'],
      },
    ])
    expect(
      said(rule, visit('2026-03-10-okafor', 'readings:\n  none:\n    - K1\n  K1: {ant: 1}')),
    ).toMatchObject([
      { says: 'K1 is read twice in this visit.', related: ['sites/oak/visits/2026-03-10-okafor.yaml:5'] },
    ])
  })

  const rulebook = (name: string) => `
=== rulebooks/${name}.yaml
title: Rules of the district # expect: ${rule}
jurisdiction: Example District
read-on: 2026-03-01
covers: nothing yet
does-not-cover: [anything else]
parameters: {}
`

  it('speaks of an own rulebook named like one of the program', () => {
    for (const name of ['practice', 'us-federal']) {
      const { found, expected } = spoken(rule, rulebook(name))
      expect(found).toEqual(expected)
    }
    expect(spoken(rule, rulebook('district')).found).toEqual([])
  })
})

describe('ambiguous-condition', () => {
  const rule = 'ambiguous-condition'
  const drip = (area: string) =>
    `drip: {new: drip, area: ${area}, kind: moisture, gives: water, owner: maintenance, by: 2026-04-10}`
  const two =
    visit('2026-03-10-okafor', `conditions: {${drip('kitchen')}}`) +
    visit('2026-03-11-okafor', `conditions: {${drip('room-1')}}`)

  it.each([
    [
      'the first is closed',
      two +
        visit('2026-03-12-okafor', 'conditions: {2026-03-10-okafor/drip: {closed: dry}}') +
        visit('2026-03-13-okafor', 'conditions: {drip: {still: wet}}'),
    ],
    [
      'both are open and a third is new',
      two + visit('2026-03-12-okafor', `conditions: {${drip('kitchen')}}`),
    ],
    [
      'a repair names neither',
      `${two}
=== sites/oak/repairs/2026-03-12-lind.yaml
by: lind
done: new washer
mends: [drip] # expect: ${rule}
`,
    ],
    [
      'one only',
      visit('2026-03-10-okafor', `conditions: {${drip('kitchen')}}`) +
        visit('2026-03-13-okafor', 'conditions: {drip: {still: wet}}'),
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('shows the full names, from the day of the record', () => {
    expect(said(rule, two + visit('2026-03-13-okafor', 'conditions: {drip: {closed: dry}}'))).toMatchObject([
      {
        says: '`drip` may mean any of 2 open conditions: `2026-03-10-okafor/drip`, `2026-03-11-okafor/drip`.',
        from: dayOf('2026-03-13'),
      },
    ])
  })
})

describe('name-and-content-disagree', () => {
  const rule = 'name-and-content-disagree'
  const event = (path: string, lines: string) => `\n=== ${path}.yaml\n${lines}\n`
  const review = (year: string, held: string) =>
    event(
      `reviews/${year}`,
      `held: ${held}\nby: marsh\npresent: [maintenance head]\ndecisions: {sweeps: {what: door sweeps on all dock doors}}`,
    )

  it.each([
    ['a word after the person', visit('2026-03-10-okafor-evening', '')],
    [
      'a longer name that only begins alike',
      visit('2026-03-10-okafors', '').replace('by: okafor', `by: okafor # expect: ${rule}`),
    ],
    [
      'a complaint entered by another',
      event('sites/oak/complaints/2026-03-10-lind', `by: marsh # expect: ${rule}\nfrom: staff\nsays: ants`),
    ],
    ['a repair', event('sites/oak/repairs/2026-03-10-lind', 'by: lind\ndone: sweep')],
    [
      'a lesson',
      event(
        'education/2026-03-10-okafor',
        `by: marsh # expect: ${rule}\nkind: talk\ntopic: food\naudience: teachers`,
      ),
    ],
    ['a review held in its year', review('2025', '2025-06-10')],
    ['a review held in another year', review('2025', `2026-01-10 # expect: ${rule}`)],
    ['paper filled in on the day', visit('2026-03-10-okafor', 'on-paper: 2026-03-10')],
    ['paper filled in days later', visit('2026-03-10-okafor', 'on-paper: 2026-03-14')],
    ['paper filled in the day before', visit('2026-03-10-okafor', `on-paper: 2026-03-09 # expect: ${rule}`)],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it.each([
    ['planned', 0],
    ['cancelled', 0],
    ['done', 1],
  ])('an application that is %s, on paper the day before', (status, count) => {
    const lines = `by: okafor
status: ${status}
on-paper: 2026-03-09
product: bait-a
pest: german-cockroach
areas: {kitchen: {}}
method: bait-placement`
    expect(spoken(rule, event('sites/oak/applications/2026-03-10-okafor', lines)).found).toHaveLength(count)
  })

  it('says what stands where', () => {
    const says = said(
      rule,
      event(
        'sites/oak/complaints/2026-03-10-lind',
        'by: marsh\non-paper: 2026-03-08\nfrom: staff\nsays: ants',
      ) + review('2025', '2026-01-10'),
    ).map((finding) => finding.says)
    expect(says).toEqual([
      'The name of this file says 2025, but the review was held on 2026-01-10.',
      'The name of this file says lind, the record says by marsh.',
      'The paper page was filled in on 2026-03-08, before the day in the name of this file, 2026-03-10.',
    ])
  })
})

describe('ends-before-it-starts', () => {
  const rule = 'ends-before-it-starts'
  const timed = (time: string, day = '2026-03-10') => visit(`${day}-okafor`, `time: ${time}`)
  const mark = ` # expect: ${rule}`

  it.each([
    ['a minute', timed('06:10 to 06:11')],
    ['no minute', timed(`06:10 to 06:10${mark}`)],
    ['backward', timed(`06:10 to 06:09${mark}`)],
    [
      'by its offsets: the clock shows less, an hour later',
      timed('01:50-07:00 to 01:10-08:00', '2025-11-02'),
    ],
    ['by its offsets: backward', timed(`01:50-08:00 to 01:55-07:00${mark}`, '2025-11-02')],
    ['where the clock shows both twice, it may be right', timed('01:50 to 01:10', '2025-11-02')],
    ['where only the end can be the later one', timed('01:50-07:00 to 01:10', '2025-11-02')],
    ['where even the later one is too early', timed(`01:50-08:00 to 01:10${mark}`, '2025-11-02')],
    ['over the hour that is skipped', timed('01:50 to 03:10', '2026-03-08')],
    ['one offset on an ordinary day', timed(`06:50-07:00 to 06:10${mark}`)],
    [
      'an application',
      `\n=== sites/oak/applications/2026-03-10-okafor.yaml
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {}}
method: bait-placement
time: 07:10 to 07:00${mark}
`,
    ],
    [
      'to be mended on the day it was found, and before it',
      visit(
        '2026-03-10-okafor',
        `conditions:
  drip: {new: drip, area: kitchen, owner: maintenance, by: 2026-03-10}
  gap: {new: gap, area: kitchen, owner: maintenance, by: 2026-03-09}${mark}
`,
      ),
    ],
    [
      'seen again after the day by which it was to be mended',
      visit(
        '2026-03-10-okafor',
        'conditions: {drip: {new: drip, area: kitchen, owner: maintenance, by: 2026-03-11}}',
      ) + visit('2026-03-12-okafor', 'conditions: {drip: {still: wet, by: 2026-03-11}}'),
    ],
    [
      'a follow-up on the day of the visit, and before it',
      visit(
        '2026-03-10-okafor',
        `actions:
  a: {did: vacuumed, follow-up: 2026-03-10}
  b: {did: vacuumed, follow-up: 2026-03-09}${mark}
`,
      ),
    ],
    [
      'a specimen answered before it was taken',
      `\n=== sites/oak/specimens/2026-03-10-okafor.yaml
by: okafor
kept: vial 1
sent-on: 2026-03-09${mark}
determined: {as: ant, by: county office, sure: sure, on: 2026-03-10}
`,
    ],
    [
      'the follow-up of an application before it',
      `\n=== sites/oak/applications/2026-03-12-okafor.yaml
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g, placements: 4, where: hinge, within-reach: no}}
method: crack-and-crevice
amount: 2 g
identified: {by: okafor, how: nymphs}
reason: catch went on
tried-first: cleaned
follow-up: {by: 2026-03-11, look: K1}${mark}
`,
    ],
    [
      'the reopening of a room before the application',
      `\n=== sites/oak/applications/2026-03-12-okafor.yaml
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g, placements: 4, where: hinge, within-reach: no}}
method: crack-and-crevice
amount: 2 g
identified: {by: okafor, how: nymphs}
reason: catch went on
tried-first: cleaned
follow-up: {by: 2026-03-26, look: K1}
reopened: {on: 2026-03-11, at: 06:30, by: lind}${mark}
`,
    ],
    [
      'a rain date before the planned day',
      `\n=== sites/oak/applications/2026-03-20-okafor.yaml
by: okafor
status: planned
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g, placements: 4, where: hinge, within-reach: no}}
method: crack-and-crevice
amount: 2 g
identified: {by: okafor, how: nymphs}
reason: catch went on
tried-first: cleaned
rain-dates: [2026-03-19]${mark}
`,
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it.each([
    [
      'district.yaml',
      'coordinator: [{from: 2026-03-01, who: marsh}]',
      'coordinator: [{from: 2026-03-01, until: 2026-02-28, who: marsh}]',
    ],
    [
      'district.yaml',
      '{from: 2026-03-01, rulebook: practice}',
      '{from: 2026-03-01, until: 2026-02-28, rulebook: practice}',
    ],
    ['district.yaml', '{from: 2025-09-02, until: 2026-06-12}', '{from: 2026-06-12, until: 2025-09-02}'],
    ['district.yaml', 'until: 2026-06-12}', 'until: 2026-06-12, closed: {winter: 2026-01-02 to 2025-12-22}}'],
    [
      'district.yaml',
      'records-begin: 2026-03-01',
      'records-begin: 2026-03-01\noccupied: [{from: 2026-03-01, days: [mon], hours: 17:00 to 07:00}]',
    ],
    [
      'district.yaml',
      'records-begin: 2026-03-01',
      'records-begin: 2026-03-01\npolicies: {ipm: {title: Policy, adopted: 2026-03-02, review-by: 2026-03-01}}',
    ],
    [
      'people/okafor.yaml',
      'spans: [{from: 2025-01-01, until: 2026-12-31}]',
      'spans: [{from: 2025-01-01, until: 2024-12-31}]',
    ],
    [
      'people/okafor.yaml',
      'roles: [technician, applicator]',
      'roles: [technician, applicator]\ntraining: {ipm: {on: 2026-03-02, topic: kitchens, until: 2026-03-01}}',
    ],
    ['plans/house-mouse.yaml', '- from: 2026-03-01', '- from: 2026-03-01\n    until: 2026-02-28'],
    ['products/bait-a/product.yaml', '  - from: 2026-01-05', '  - from: 2026-01-05\n    until: 2026-01-04'],
    [
      'products/bait-a/product.yaml',
      'sds: [{from: 2026-01-05,',
      'sds: [{from: 2026-01-05, until: 2026-01-04,',
    ],
    ['sites/oak/site.yaml', 'name: Oak School', 'name: Oak School\nfrom: 2026-03-01\nuntil: 2026-02-28'],
    ['sites/oak/site.yaml', 'name: Oak School', 'name: Oak School\nhours: 17:00 to 07:00'],
    [
      'sites/oak/site.yaml',
      'site-manager: [{from: 2026-03-01,',
      'site-manager: [{from: 2026-03-01, until: 2026-02-28,',
    ],
    [
      'sites/oak/site.yaml',
      'contract: [{from: 2026-03-01,',
      'contract: [{from: 2026-03-01, until: 2026-02-28,',
    ],
    [
      'sites/oak/site.yaml',
      'room-1: {kind: classroom,',
      'room-1: {kind: classroom, from: 2026-03-01, until: 2026-02-28,',
    ],
    [
      'sites/oak/site.yaml',
      'areas:',
      'runs: {wall: {devices: [K1, K2], active-control: [{from: 2026-03-10, until: 2026-03-09}]}}\nareas:',
    ],
  ])('%s: %s', (file, from, to) => {
    expect(said(rule, changed(file, from, to)).map(({ at }) => at.split(':')[0])).toEqual([file])
  })

  it('accepts spans of one day, and reads rulebooks and exceptions too', () => {
    const span = (until: string) => `
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: the log is being bound anew
from: 2026-03-10
until: ${until}
=== rulebooks/district.yaml
title: Rules of the district
jurisdiction: Example District
read-on: 2026-03-01
covers: intervals
does-not-cover: [anything else]
parameters:
  check.sticky-trap: [{from: 2026-03-10, until: ${until}, value: 14 days, source: board, kind: standard, confidence: read}]
`
    expect(said(rule, span('2026-03-10'))).toEqual([])
    expect(said(rule, span('2026-03-09')).map(({ at, says }) => [at, says])).toEqual([
      ['exceptions/log-away.yaml:5', '`until` 2026-03-09 is before `from` 2026-03-10.'],
      ['rulebooks/district.yaml:7', '`until` 2026-03-09 is before `from` 2026-03-10.'],
    ])
  })

  it('says which end is before which start', () => {
    expect(said(rule, timed('06:50 to 06:10'))).toMatchObject([
      { says: 'The end 06:10 is not after the start 06:50.', from: dayOf('2026-03-10') },
    ])
    const drip = 'conditions: {drip: {new: drip, area: kitchen, owner: maintenance, by: 2026-03-09}}'
    expect(said(rule, visit('2026-03-10-okafor', drip))).toMatchObject([
      { says: '`by` 2026-03-09 is before the day it was found, 2026-03-10.' },
    ])
  })
})

describe('in-two-places', () => {
  const rule = 'in-two-places'
  const elm = `
=== sites/elm/site.yaml
name: Elm School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: []
areas: {kitchen: {kind: kitchen}}
`
  /** The base has okafor in oak on 2026-03-05 from 06:10 to 06:50. */
  const there = (lines: string, name = '2026-03-05-okafor') =>
    `${elm}\n=== sites/elm/visits/${name}.yaml\npurpose: follow-up\n${lines}\n`

  it.each([
    ['touching', there('by: okafor\ntime: 06:50 to 07:20')],
    ['touching, the other way', there('by: okafor\ntime: 05:50 to 06:10')],
    ['one minute over', there(`by: okafor\ntime: 06:49 to 07:20 # expect: ${rule}`)],
    ['within', there(`by: okafor\ntime: 06:20 to 06:30 # expect: ${rule}`)],
    ['no time', there('by: okafor')],
    ['another person', there('by: marsh\ntime: 06:20 to 06:30', '2026-03-05-marsh')],
    [
      'as one who took part',
      there(`by: marsh\nwith: [okafor]\ntime: 06:20 to 06:30 # expect: ${rule}`, '2026-03-05-marsh'),
    ],
    ['another day', there('by: okafor\ntime: 06:20 to 06:30', '2026-03-06-okafor')],
    ['the same site', visit('2026-03-05-okafor-b', 'time: 06:20 to 06:30')],
    [
      'an application that was carried out, and one that was only planned',
      there('by: okafor\ntime: 05:00 to 05:10').concat(
        ...['done', 'planned'].map(
          (status, n) => `
=== sites/elm/applications/2026-03-05-okafor-${n}.yaml
by: okafor
status: ${status}
product: bait-a
pest: german-cockroach
areas: {kitchen: {}}
method: bait-placement
time: 06:20 to 06:30${status === 'done' ? ` # expect: ${rule}` : ''}
`,
        ),
      ),
    ],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('speaks once, at the later record, and points to the other', () => {
    expect(said(rule, there('by: okafor\ntime: 06:00 to 07:20'))).toEqual([
      {
        at: 'sites/oak/visits/2026-03-05-okafor.yaml:3',
        says: 'On 2026-03-05 okafor is in oak from 06:10 to 06:50 and in elm from 06:00 to 07:20 at once.',
        level: 'error',
        from: dayOf('2026-03-05'),
        until: undefined,
        related: ['sites/elm/visits/2026-03-05-okafor.yaml:3'],
      },
    ])
  })

  it('speaks once for each pair of three', () => {
    const ash = elm.replace('/elm/', '/ash/').replace('Elm', 'Ash')
    const third = `${ash}\n=== sites/ash/visits/2026-03-05-okafor.yaml\npurpose: follow-up\nby: okafor\ntime: 06:20 to 06:40\n`
    expect(said(rule, there('by: okafor\ntime: 06:15 to 07:00') + third)).toHaveLength(3)
  })

  it('accuses no one over an hour the clock shows twice', () => {
    const twice =
      there('by: okafor\ntime: 01:10-08:00 to 01:40-08:00', '2025-11-02-okafor') +
      visit('2025-11-02-okafor', 'time: 01:10-07:00 to 01:40-07:00')
    expect(said(rule, twice)).toEqual([])
    const plain =
      there('by: okafor\ntime: 06:10 to 06:40', '2025-11-02-okafor') +
      visit('2025-11-02-okafor', 'time: 06:10 to 06:40')
    expect(said(rule, plain)).toHaveLength(1)
  })
})

describe('condition-state', () => {
  const rule = 'condition-state'
  const open = visit(
    '2026-03-10-okafor',
    'conditions: {drip: {new: drip, area: kitchen, owner: maintenance}}',
  )
  const later = (entry: string) => `${open}${visit('2026-03-12-okafor', `conditions:\n  drip: ${entry}`)}`
  const mark = ` # expect: ${rule}`

  it.each([
    ['still', later('{still: wet}')],
    ['closed', later('{closed: dry}')],
    ['fixed', later('{fixed: tightened}')],
    ['holds', later('{holds: dry}')],
    ['nothing', later(`{owner: custodial}${mark}`)],
    ['still and closed', later(`{still: wet, closed: dry}${mark}`)],
    ['fixed and holds', later(`{fixed: tightened, holds: dry}${mark}`)],
    ['new and fixed', later('{new: drip, fixed: tightened, area: kitchen}')],
    ['new and closed', later(`{new: drip, closed: dry, area: kitchen}${mark}`)],
    ['new, fixed and holds', later(`{new: drip, fixed: tightened, holds: dry, area: kitchen}${mark}`)],
    ['new without an area', later(`{new: drip}${mark}`)],
    ['new and fixed without an area', later(`{new: drip, fixed: tightened}${mark}`)],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })

  it('says what is wrong', () => {
    const says = (entry: string) => said(rule, later(entry)).map((finding) => finding.says)
    expect(says('{owner: custodial}')).toEqual([
      '`drip` does not say how it stands: new, still, fixed, closed or holds.',
    ])
    expect(says('{still: wet, closed: dry}')).toEqual(['`drip` is said to be still and closed at once.'])
    expect(says('{new: drip, fixed: tightened}')).toEqual(['`drip` is new, and no area says where it is.'])
  })

  it('alone speaks of a condition without a state that no visit began', () => {
    const lost = visit('2026-03-12-okafor', 'conditions: {leak: {area: kitchen}}')
    expect(spoken(rule, lost).found).toHaveLength(1)
    expect(spoken('dangling-reference', lost).found).toEqual([])
    const unknown = visit('2026-03-12-okafor', 'conditions: {leak: {still: wet}}')
    expect(spoken('dangling-reference', unknown).found).toHaveLength(1)
  })
})

describe('sighting-names-no-pest', () => {
  const rule = 'sighting-names-no-pest'
  const found = (facts: string) =>
    visit('2026-03-10-okafor', `found:\n  sill: {area: room-1, evidence: dead${facts}}`)
  const complaint = (lines: string) =>
    `\n=== sites/oak/complaints/2026-03-10-lind.yaml\nby: lind\nfrom: staff\nsays: something small\n${lines}\n`

  it.each([
    ['a pest', found(', pest: ant')],
    ['unidentified', found(', pest: unidentified, looks: small')],
    ['another animal', found(', other: earwig')],
    [
      'neither',
      visit('2026-03-10-okafor', `found:\n  sill: {area: room-1, evidence: dead} # expect: ${rule}`),
    ],
    [
      'both',
      visit(
        '2026-03-10-okafor',
        `found:\n  sill: {area: room-1, evidence: dead, pest: ant, other: earwig} # expect: ${rule}`,
      ),
    ],
    ['a complaint with neither', complaint('')],
    ['a complaint with one', complaint('pest: ant')],
    ['a complaint with both', complaint(`pest: ant\nother: earwig # expect: ${rule}`)],
  ])('%s', (_, example) => {
    const { found, expected } = spoken(rule, example)
    expect(found).toEqual(expected)
  })
})

describe('clock-time-not-there and clock-time-ambiguous', () => {
  const notThere = 'clock-time-not-there'
  const ambiguous = 'clock-time-ambiguous'
  const timed = (day: string, time: string) => visit(`${day}-okafor`, `time: ${time}`)
  const counts = (example: string) => [
    spoken(notThere, example).found.length,
    spoken(ambiguous, example).found.length,
  ]

  // Days and hours of the changes: 15 U.S.C. 260a(a).
  it.each([
    ['2026-03-08', '01:59 to 03:00', 0, 0],
    ['2026-03-08', '02:00 to 03:00', 1, 0],
    ['2026-03-08', '01:00 to 02:59', 1, 0],
    ['2026-03-08', '02:00 to 02:59', 2, 0],
    ['2026-03-07', '02:00 to 02:59', 0, 0],
    ['2026-03-09', '02:00 to 02:59', 0, 0],
    ['2026-03-08', '03:10-07:00 to 03:20-07:00', 0, 0],
    ['2026-03-08', '01:10-07:00 to 03:20', 1, 0],
    ['2025-11-02', '00:59 to 02:00', 0, 0],
    ['2025-11-02', '01:00 to 02:00', 0, 1],
    ['2025-11-02', '00:30 to 01:59', 0, 1],
    ['2025-11-02', '01:10 to 01:20', 0, 2],
    ['2025-11-02', '01:10-07:00 to 01:20-08:00', 0, 0],
    ['2025-11-02', '01:10-06:00 to 02:20', 1, 0],
    ['2025-11-01', '01:10 to 01:20', 0, 0],
    ['2026-03-10', '06:10-07:00 to 06:20-07:00', 0, 0],
    ['2026-03-10', '06:10-08:00 to 06:20-07:00', 1, 0],
  ])('%s %s', (day, time, missing, twice) => {
    expect(counts(timed(day, time))).toEqual([missing, twice])
  })

  it('knows no change where there is none', () => {
    const phoenix = changed('district.yaml', 'America/Los_Angeles', 'America/Phoenix')
    expect(counts(phoenix + timed('2026-03-08', '02:10 to 02:20'))).toEqual([0, 0])
    expect(counts(phoenix + timed('2025-11-02', '01:10 to 01:20'))).toEqual([0, 0])
  })

  it('is silent where the zone is not known', () => {
    const unknown = changed('district.yaml', 'America/Los_Angeles', 'America/Los_Angles')
    expect(counts(unknown + timed('2026-03-08', '02:10 to 02:20'))).toEqual([0, 0])
    expect(said('unknown-time-zone', unknown)).toMatchObject([
      { says: 'There is no time zone `America/Los_Angles`; did you mean `America/Los_Angeles`?' },
    ])
  })

  it('looks at every time of an event', () => {
    const example = `
=== sites/oak/complaints/2026-03-08-lind.yaml
by: lind
from: staff
says: ants
at: 02:10
=== sites/oak/incidents/2026-03-08-lind.yaml
by: lind
kind: sting
at: 02:20
what: stung at the door
did: nurse told
=== sites/oak/applications/2026-03-08-okafor.yaml
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {}}
method: bait-placement
time: 01:30 to 02:10
dry: {at: 02:30, by: okafor}
reopened: {at: 02:45, by: okafor}
=== sites/oak/notices/2026-03-08-lind.yaml
by: lind
application: 2026-03-08-okafor
sent: {to: everyone, how: email, at: 02:15}
posted: {places: [door], at: 02:16}
`
    expect(said(notThere, example)).toHaveLength(7)
  })

  it('says why, and what to write instead', () => {
    expect(said(notThere, timed('2026-03-08', '02:10 to 03:20'))).toMatchObject([
      {
        says: 'There was no 02:10 on 2026-03-08 in America/Los_Angeles: the clock was set forward past it.',
        level: 'error',
      },
    ])
    expect(said(notThere, timed('2026-03-10', '06:10-08:00 to 06:50'))).toMatchObject([
      { says: 'There was no 06:10-08:00 on 2026-03-10 in America/Los_Angeles: the clock was at -07:00.' },
    ])
    expect(said(ambiguous, timed('2025-11-02', '01:30 to 02:20'))).toMatchObject([
      {
        says: 'In America/Los_Angeles it was 01:30 twice on 2025-11-02: first 01:30-07:00, later 01:30-08:00.',
        level: 'warning',
      },
    ])
  })
})

describe('exceptions', () => {
  const exception = (rule: string, from: string, until: string) => `
=== exceptions/e.yaml
rule: ${rule}
by: marsh
why: an invented reason
from: ${from}
until: ${until}
`

  it('may name every rule there is, and only those', () => {
    for (const { id } of allRules)
      expect(spoken('exception-names-no-rule', exception(id, '2026-03-10', '2026-04-10')).found, id).toEqual(
        [],
      )
    expect(
      said('exception-names-no-rule', exception('dangling-referense', '2026-03-10', '2026-04-10')),
    ).toMatchObject([
      { says: 'There is no rule `dangling-referense`; did you mean `dangling-reference`?', level: 'error' },
    ])
    expect(
      said('exception-names-no-rule', exception('zzzzzzzzzz', '2026-03-10', '2026-04-10')),
    ).toMatchObject([{ says: 'There is no rule `zzzzzzzzzz`.' }])
  })

  it('cannot be made to any rule that rests on law, while they hold', () => {
    for (const { id, source } of allRules) {
      const findings = said('exception-cannot-excuse-law', exception(id, '2026-03-10', '2026-03-20'))
      expect(
        findings.map(({ from, until }) => [from, until]),
        id,
      ).toEqual(source.kind === 'law' ? [[dayOf('2026-03-10'), dayOf('2026-03-21')]] : [])
    }
    expect(allRules.some(({ source }) => source.kind === 'law')).toBe(true)
  })

  it.each([
    ['2026-03-10', '2027-03-10', 0],
    ['2026-03-10', '2027-03-11', 1],
    ['2025-03-21', '2026-03-21', 0],
    ['2025-03-20', '2026-03-21', 1],
  ])('from %s until %s is too long: %d', (from, until, count) => {
    expect(said('exception-too-long', exception('complaint-log-not-read', from, until))).toHaveLength(count)
  })

  it('are of no more interest once they have ended', () => {
    const long = exception('complaint-log-not-read', '2024-01-01', '2026-03-20')
    expect(spoken('exception-too-long', long, '2026-03-20').found).toHaveLength(1)
    expect(spoken('exception-too-long', long, '2026-03-21').found).toEqual([])
    expect(said('exception-too-long', long)).toMatchObject([
      { says: 'This exception holds for 810 days, more than a year.', level: 'note' },
    ])
  })
})

describe('a ledger that begins tomorrow', () => {
  it('is told at once what its records get wrong, though nothing is due yet', () => {
    const files = ledgerWith(`
=== district.yaml
format: 1
name: FILL IN
time-zone: America/Los_Angeles
records-begin: 2026-03-21
coordinator: [{from: 2026-03-21, who: nobody}]
rulebooks: [{from: 2026-03-21, rulebook: practice}]
calendar: []
=== sites/oak/visits/2026-03-05-okafor.yaml (delete)
`)
    expect(foundProblems(files)).toEqual([
      'district.yaml:2 left-to-fill-in',
      'district.yaml:5 dangling-reference',
    ])
  })
})
