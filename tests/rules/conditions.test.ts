import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { conditionsRules } from '../../src/rules/conditions/index.js'
import type { Problem } from '../../src/types.js'
import { expectedProblems, foundProblems } from './marked-problems.js'

const ids = new Set(conditionsRules.map((rule) => rule.id))

/** What the rules of this family say, as `file:line rule`; other rules are judged by their own tests. */
function found(overlay: string, asOf: string): string[] {
  return foundProblems(ledgerWith(overlay), asOf).filter((line) => ids.has(line.split(' ')[1] ?? ''))
}

function problems(overlay: string, rule: string, asOf = '2026-03-20'): readonly Problem[] {
  const source = memorySource(ledgerWith(overlay))
  const result = runCheck(source, { asOf: dayOf(asOf) ?? 0, asOfIsToday: true })
  return result.problems.filter((problem) => problem.rule === rule)
}

/** When a rule's problems are true: `from` and `until`. */
function spans(overlay: string, rule: string, asOf?: string): (readonly [string, string])[] {
  return problems(overlay, rule, asOf).map(
    ({ from, until }) => [isoOf(from), until === undefined ? '' : isoOf(until)] as const,
  )
}

const visit = (day: string, body: string, more = '') => `
=== sites/oak/visits/${day}-okafor${more}.yaml
by: okafor
${body.includes('purpose:') ? '' : 'purpose: follow-up\n'}${body}
`

const drip = (day: string, facts: string) => visit(day, `conditions:\n  sink-drip: {${facts}}`)
const opened = (day: string, more = ', owner: maintenance') =>
  drip(day, `new: drip under the prep sink, area: kitchen, gives: water${more}`)

const repair = (day: string) => `
=== sites/oak/repairs/${day}-lind.yaml
by: lind
mends: [sink-drip]
done: new washer
`

const routine = (day: string, inspected = '[kitchen, room-1]', more = '') =>
  visit(
    day,
    `purpose: routine\ntime: 06:10 to 06:50\nsite-manager: lind\ncomplaint-log: read\ninspected: ${inspected}\nreadings: {none: [K1]}\n${more}`,
  )

const closedSite = (until: string) => `
=== sites/oak/site.yaml
name: Oak School
until: ${until}
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`

describe('condition-without-owner', () => {
  const rule = 'condition-without-owner'
  it.each<[string, string, [string, string][]]>([
    ['open and nobody is to mend it', opened('2026-03-10', ''), [['2026-03-10', '']]],
    [
      'named when it was seen again',
      opened('2026-03-10', '') + drip('2026-03-12', 'still: dripping, owner: kitchen'),
      [['2026-03-10', '2026-03-12']],
    ],
    [
      'named on the same day',
      opened('2026-03-10', '') +
        visit('2026-03-10', 'conditions: {sink-drip: {still: dripping, owner: kitchen}}', '-2'),
      [],
    ],
    [
      'mended without an owner',
      opened('2026-03-10', '') + repair('2026-03-13'),
      [['2026-03-10', '2026-03-13']],
    ],
    [
      'closed by a later visit',
      opened('2026-03-10', '') + drip('2026-03-14', 'closed: washer seen'),
      [['2026-03-10', '2026-03-14']],
    ],
    [
      'fixed on the spot was never open',
      drip('2026-03-10', 'new: drip, area: kitchen, fixed: tightened the nut'),
      [],
    ],
    [
      'an owner stays when it comes back',
      opened('2026-03-10') + repair('2026-03-11') + drip('2026-03-13', 'still: dripping'),
      [],
    ],
    [
      'back, and still nobody is to mend it',
      opened('2026-03-10', '') + repair('2026-03-11') + drip('2026-03-13', 'still: dripping'),
      [
        ['2026-03-10', '2026-03-11'],
        ['2026-03-13', ''],
      ],
    ],
    [
      'open when the site was closed',
      closedSite('2026-03-15') + opened('2026-03-10', ''),
      [['2026-03-10', '2026-03-16']],
    ],
    ['open before the records begin', opened('2026-02-10', ''), [['2026-03-01', '']]],
  ])('%s', (_, overlay, expected) => {
    expect(spans(overlay, rule)).toEqual(expected)
  })

  it('points at the entry that opened it again', () => {
    const overlay =
      opened('2026-03-10', '') +
      repair('2026-03-11') +
      visit('2026-03-13', 'conditions:\n  sink-drip:\n    still: dripping # expect: condition-without-owner')
    expect(found(overlay, '2026-03-20')).toEqual(expectedProblems(ledgerWith(overlay)))
  })

  it('tells two conditions of one visit apart', () => {
    const overlay = visit(
      '2026-03-10',
      'conditions:\n  drip: {new: drip, area: kitchen}\n  gap: {new: gap, area: kitchen}',
    )
    expect(problems(overlay, rule).map(({ identity }) => identity)).toEqual([
      ['2026-03-10-okafor/drip'],
      ['2026-03-10-okafor/gap'],
    ])
  })
})

describe('condition-overdue', () => {
  const rule = 'condition-overdue'
  const due = (day: string) => `, owner: maintenance, by: ${day}`
  it.each<[string, string, [string, string][]]>([
    ['from the day after its day', opened('2026-03-10', due('2026-03-15')), [['2026-03-16', '']]],
    ['also when that day is to come', opened('2026-03-10', due('2026-04-15')), [['2026-04-16', '']]],
    ['mended on its day', opened('2026-03-10', due('2026-03-15')) + repair('2026-03-15'), []],
    ['mended the day after', opened('2026-03-10', due('2026-03-15')) + repair('2026-03-16'), []],
    [
      'mended two days after',
      opened('2026-03-10', due('2026-03-15')) + repair('2026-03-17'),
      [['2026-03-16', '2026-03-17']],
    ],
    [
      'a new day stated in time',
      opened('2026-03-10', due('2026-03-15')) + drip('2026-03-14', 'still: dripping, by: 2026-03-25'),
      [['2026-03-26', '']],
    ],
    [
      'a new day stated too late',
      opened('2026-03-10', due('2026-03-15')) + drip('2026-03-18', 'still: dripping, by: 2026-03-25'),
      [
        ['2026-03-16', '2026-03-18'],
        ['2026-03-26', ''],
      ],
    ],
    [
      'the same day stated again',
      opened('2026-03-10', due('2026-03-15')) + drip('2026-03-18', 'still: dripping, by: 2026-03-15'),
      [['2026-03-16', '']],
    ],
    [
      'a day that was past when it was written',
      opened('2026-03-10', due('2026-03-05')),
      [['2026-03-10', '']],
    ],
    ['no day, nothing overdue', opened('2026-03-10'), []],
    [
      'back after its day: that day was for the first repair',
      opened('2026-03-02', due('2026-03-08')) + repair('2026-03-07') + drip('2026-03-12', 'still: dripping'),
      [],
    ],
    [
      'back before its day: the day holds',
      opened('2026-03-02', due('2026-03-15')) + repair('2026-03-07') + drip('2026-03-12', 'still: dripping'),
      [['2026-03-16', '']],
    ],
    [
      'back with a day of its own',
      opened('2026-03-02', due('2026-03-08')) +
        repair('2026-03-07') +
        drip('2026-03-12', 'still: dripping, by: 2026-03-18'),
      [['2026-03-19', '']],
    ],
    [
      'nothing comes due once the site is closed',
      closedSite('2026-03-18') + opened('2026-03-10', due('2026-03-18')),
      [],
    ],
    [
      'but on its last day',
      closedSite('2026-03-18') + opened('2026-03-10', due('2026-03-17')),
      [['2026-03-18', '2026-03-19']],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(spans(overlay, rule)).toEqual(expected)
  })

  it.each([
    ['contractor', 'technician'],
    ['kitchen', 'site manager'],
    ['custodial', 'site manager'],
    ['teacher', 'site manager'],
    ['office', 'site manager'],
    ['maintenance', 'maintenance'],
    ['grounds', 'maintenance'],
    ['district', 'maintenance'],
  ])('what %s owns is put to the %s', (owner, actor) => {
    const overlay = opened('2026-03-10', `, owner: ${owner}, by: 2026-03-15`)
    expect(problems(overlay, rule).map((problem) => problem.actor)).toEqual([actor])
  })

  it('points at the day it is judged by', () => {
    const overlay =
      opened('2026-03-10', due('2026-03-15')) +
      visit(
        '2026-03-16',
        'conditions:\n  sink-drip:\n    still: dripping\n    by: 2026-03-18 # expect: condition-overdue',
      )
    expect(found(overlay, '2026-03-20')).toEqual(expectedProblems(ledgerWith(overlay)))
  })
})

describe('condition-not-rechecked', () => {
  const rule = 'condition-not-rechecked'
  const holds = 'conditions: {sink-drip: {holds: dry}}'
  const mended = opened('2026-03-06') + repair('2026-03-10')
  it.each<[string, string, [string, string][]]>([
    ['no routine visit since', mended, []],
    ['a routine visit that says nothing of it', mended + routine('2026-03-12'), [['2026-03-12', '']]],
    [
      'only the first such visit counts',
      mended + routine('2026-03-12') + routine('2026-03-18'),
      [['2026-03-12', '']],
    ],
    ['that visit says it holds', mended + routine('2026-03-12', '[kitchen]', holds), []],
    [
      'that visit says it is still there',
      mended + routine('2026-03-12', '[kitchen]', 'conditions: {sink-drip: {still: dripping}}'),
      [],
    ],
    [
      'that visit calls it closed',
      mended + routine('2026-03-12', '[kitchen]', 'conditions: {sink-drip: {closed: dry}}'),
      [],
    ],
    [
      'another visit had looked before',
      mended + drip('2026-03-11', 'holds: dry') + routine('2026-03-12'),
      [],
    ],
    [
      'another visit looked on the same day',
      mended + routine('2026-03-12') + visit('2026-03-12', holds, '-2'),
      [],
    ],
    [
      'looked at on the visit after',
      mended + routine('2026-03-12') + drip('2026-03-17', 'holds: dry'),
      [['2026-03-12', '2026-03-17']],
    ],
    ['a routine visit to other areas', mended + routine('2026-03-12', '[room-1]'), []],
    ['a routine visit on the day of the repair', mended + routine('2026-03-10'), []],
    ['a visit that is not routine', mended + visit('2026-03-12', 'inspected: [kitchen]'), []],
    [
      'closed by a visit without a repair',
      opened('2026-03-06') + drip('2026-03-10', 'closed: washer seen') + routine('2026-03-12'),
      [['2026-03-12', '']],
    ],
    [
      'fixed on the spot by a routine visit',
      routine('2026-03-09', '[kitchen]', 'conditions: {sink-drip: {new: drip, area: kitchen, fixed: nut}}') +
        routine('2026-03-12'),
      [['2026-03-12', '']],
    ],
    [
      'mended once more before anyone came',
      mended + repair('2026-03-13') + routine('2026-03-17', '[kitchen]', holds),
      [],
    ],
    [
      'mended once more, after a visit that said nothing',
      mended + routine('2026-03-12') + repair('2026-03-13') + routine('2026-03-17', '[kitchen]', holds),
      [['2026-03-12', '2026-03-13']],
    ],
    [
      'closed after a repair was the second look',
      mended + drip('2026-03-11', 'closed: dry') + routine('2026-03-12') + routine('2026-03-18'),
      [],
    ],
    ['still open', opened('2026-03-06') + routine('2026-03-12'), []],
    [
      'the visit came after the site was closed',
      closedSite('2026-03-11') + mended + routine('2026-03-12'),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(spans(overlay, rule)).toEqual(expected)
  })
})

describe('condition-reopened', () => {
  const rule = 'condition-reopened'
  const first = opened('2026-03-02') + repair('2026-03-03') + drip('2026-03-04', 'still: dripping')
  const second = `${first}${repair('2026-03-06')}${drip('2026-03-09', 'still: dripping')}`
  it.each<[string, string, [string, string][]]>([
    ['back once', first, []],
    ['back twice', second, [['2026-03-09', '']]],
    [
      'seen again while open is not back',
      opened('2026-03-02') + drip('2026-03-04', 'still: dripping') + drip('2026-03-09', 'still: dripping'),
      [],
    ],
    ['mended again but not looked at', second + repair('2026-03-11'), [['2026-03-09', '']]],
    [
      'mended again, and it holds',
      `${second}${repair('2026-03-11')}${drip('2026-03-13', 'holds: dry')}`,
      [['2026-03-09', '2026-03-13']],
    ],
    [
      'back a third time',
      `${second}${repair('2026-03-11')}${drip('2026-03-13', 'still: dripping')}`,
      [
        ['2026-03-09', '2026-03-13'],
        ['2026-03-13', ''],
      ],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(spans(overlay, rule)).toEqual(expected)
  })
})

describe('plant-returned-wet', () => {
  const rule = 'plant-returned-wet'
  const plant = (facts: string) => `plants:\n  fern-1: {area: room-1, ${facts}}`
  const sprayed = visit('2026-03-10', plant('removed: gnats, sprayed: contractor yard'))
  const at = (time: string, facts: string) => `time: ${time}\n${plant(facts)}`
  it.each<[string, string, [string, string][]]>([
    [
      'returned without ever being seen dry',
      sprayed + visit('2026-03-11', plant('returned: sill')),
      [['2026-03-11', '']],
    ],
    [
      'dry and returned on one visit',
      sprayed + visit('2026-03-11', plant('dry: okafor, returned: sill')),
      [],
    ],
    [
      'dry, and returned on a later visit',
      sprayed + visit('2026-03-11', plant('dry: okafor')) + visit('2026-03-13', plant('returned: sill')),
      [],
    ],
    [
      'seen dry only after it was returned',
      sprayed + visit('2026-03-11', plant('returned: sill')) + visit('2026-03-13', plant('dry: okafor')),
      [['2026-03-11', '2026-03-13']],
    ],
    [
      'taken out again',
      sprayed +
        visit('2026-03-11', plant('returned: sill')) +
        visit('2026-03-13', plant('removed: still wet')),
      [['2026-03-11', '2026-03-13']],
    ],
    [
      'sprayed and returned on one visit',
      visit('2026-03-10', plant('sprayed: yard, returned: sill')),
      [['2026-03-10', '']],
    ],
    [
      'removed but not sprayed',
      visit('2026-03-10', plant('removed: gnats')) + visit('2026-03-11', plant('returned: sill')),
      [],
    ],
    ['sprayed and not yet returned', sprayed, []],
    [
      'another plant was seen dry',
      sprayed + visit('2026-03-11', 'plants:\n  fern-2: {dry: okafor}\n  fern-1: {returned: sill}'),
      [['2026-03-11', '']],
    ],
    [
      'sprayed a second time',
      sprayed +
        visit('2026-03-11', plant('dry: okafor, returned: sill')) +
        visit('2026-03-12', plant('removed: gnats again, sprayed: yard')) +
        visit('2026-03-13', plant('returned: sill')),
      [['2026-03-13', '']],
    ],
    [
      'dry earlier on the same day, by the clock',
      sprayed +
        visit('2026-03-11', at('06:00 to 06:30', 'dry: okafor')) +
        visit('2026-03-11', at('08:00 to 08:30', 'returned: sill'), '-2'),
      [],
    ],
    [
      'dry later on the same day, by the clock',
      sprayed +
        visit('2026-03-11', at('08:00 to 08:30', 'dry: okafor')) +
        visit('2026-03-11', at('06:00 to 06:30', 'returned: sill'), '-2'),
      [['2026-03-11', '2026-03-12']],
    ],
    [
      'two visits of a day, no one knows which came first',
      sprayed +
        visit('2026-03-11', plant('returned: sill')) +
        visit('2026-03-11', plant('dry: okafor'), '-2'),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(spans(overlay, rule)).toEqual(expected)
  })
})
