import { describe, expect, it } from 'vitest'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { checkOf } from '../check/checking.js'
import {
  bait,
  found,
  isAskedOf,
  isTold,
  product,
  siteWith,
  told,
  underRulebooks,
  visit,
} from './application-checks.js'

describe('nothing-tried-first', () => {
  const rule = 'nothing-tried-first'
  const without = 'tried-first:'
  const did = (facts: string, day = '2026-03-10') => visit(day, `actions: {did-it: {${facts}}}`)

  isAskedOf(rule, without)

  it.each<[string, string, boolean]>([
    ['nothing', '', true],
    ['vacuuming in the treated area', did('did: vacuumed, tactic: vacuuming, area: kitchen'), false],
    ['the same on the day', did('did: vacuumed, tactic: vacuuming, area: kitchen', '2026-03-12'), false],
    ['the day after', did('did: vacuumed, tactic: vacuuming, area: kitchen', '2026-03-13'), true],
    ['in another area', did('did: vacuumed, tactic: vacuuming, area: room-1'), true],
    [
      'in another area, against the pest',
      did('did: vacuumed, tactic: vacuuming, area: room-1, pest: german-cockroach'),
      false,
    ],
    ['bait', did('did: gel, tactic: bait, area: kitchen, pest: german-cockroach'), true],
    ['a pesticide', did('did: dust, tactic: pesticide, area: kitchen'), true],
    ['flushing', did('did: flushed, tactic: flushing, area: kitchen'), true],
    ['a new condition', visit('2026-03-10', 'conditions: {drip: {new: drip, area: kitchen}}'), false],
    ['a condition elsewhere', visit('2026-03-10', 'conditions: {drip: {new: drip, area: room-1}}'), true],
    [
      'an action for a condition there',
      visit('2026-03-01', 'conditions: {drip: {new: drip, area: kitchen}}') +
        did('did: dried, tactic: drying, condition: drip'),
      false,
    ],
    [
      'a repair there',
      '\n=== sites/oak/repairs/2026-03-10-lind.yaml\nby: lind\ndone: new trap\narea: kitchen\n',
      false,
    ],
    [
      'an opening closed there',
      '\n=== sites/oak/repairs/2026-03-10-lind.yaml\nby: lind\ndone: gaps\nopenings: {kitchen: door sweep}\n',
      false,
    ],
    [
      'a repair elsewhere',
      '\n=== sites/oak/repairs/2026-03-10-lind.yaml\nby: lind\ndone: new trap\narea: room-1\n',
      true,
    ],
    ['a plant taken away', visit('2026-03-10', 'plants: {fern: {area: kitchen, removed: gnats}}'), false],
    ['a monitor read', visit('2026-03-10', 'readings: {none: [K1]}'), true],
    [
      'a complaint',
      '\n=== sites/oak/complaints/2026-03-10-lind.yaml\nby: lind\nfrom: staff\nsays: roaches\n',
      true,
    ],
  ])('shown: %s', (_, records, expected) => {
    expect(isTold(rule, records + bait('2026-03-12', without))).toBe(expected)
  })

  // 92 days before 2026-06-12 are 2026-03-12, as above.
  it.each<[string, boolean]>([
    ['2026-03-12', false],
    ['2026-03-11', true],
  ])('cleaning on %s, for an application of 2026-06-12', (day, expected) => {
    const ledger = did('did: cleaned, tactic: cleaning, area: kitchen', day) + bait('2026-06-12', without)
    expect(isTold(rule, ledger, '2026-06-12')).toBe(expected)
  })

  it('traps set for the pest in the treated area are told where they are set, and count', () => {
    const set = (kind: string, area: string) =>
      visit('2026-03-06', `set: {S1: {kind: ${kind}, area: ${area}}}`) +
      bait('2026-03-12', without, 'pest: house-mouse')
    expect(isTold(rule, set('snap-trap', 'kitchen'))).toBe(false)
    expect(isTold(rule, set('snap-trap', 'room-1'))).toBe(true)
    expect(isTold(rule, set('blocked-entrance', 'kitchen'))).toBe(true)
    expect(
      isTold(
        rule,
        visit('2026-03-06', 'set: {S1: {kind: snap-trap, area: kitchen}}') + bait('2026-03-12', without),
      ),
    ).toBe(true)
  })

  it('a living agent let loose there before counts', () => {
    const agents = product('wasps', 'kind: living-agent')
    const released = bait('2026-03-10', 'product: wasps', without)
    expect(told(rule, agents + released + bait('2026-03-12', without))).toEqual([])
  })

  it('looking and finding nothing to correct is enough', () => {
    expect(told(rule, bait('2026-03-12', without, 'nothing-to-correct: yes'))).toEqual([])
  })

  it.each<[string, string[], boolean]>([
    ['stinging insects', ['pest: yellowjacket'], false],
    ['stinging insects and others', ['pest: yellowjacket', 'also-against: [pavement-ant]'], true],
    ['cockroaches', ['pest: german-cockroach'], true],
  ])('in an emergency with %s', (_, lines, expected) => {
    const emergency = 'emergency: {problem: nest beside the ramp, why: a pupil was stung, decided-by: marsh}'
    expect(isTold(rule, sprayApplication('2026-03-12', without, emergency, ...lines))).toBe(expected)
    expect(isTold(rule, sprayApplication('2026-03-12', without, ...lines))).toBe(true)
  })
})

describe('effect-not-looked-at', () => {
  const rule = 'effect-not-looked-at'
  const planned = 'follow-up: {by: 2026-03-18, look: K1}'
  const inspected = (day: string, area = 'kitchen') => visit(day, `inspected: [${area}]`)

  it.each<[string, string, string[]]>([
    ['nobody came', '', ['follow-up warning 2026-03-19']],
    ['on the last day', inspected('2026-03-18'), []],
    ['a day late', inspected('2026-03-19'), ['follow-up warning 2026-03-19 2026-03-19']],
    ['two days late', inspected('2026-03-20'), ['follow-up warning 2026-03-19 2026-03-20']],
    ['on the day of the application only', inspected('2026-03-12'), ['follow-up warning 2026-03-19']],
    ['the day after it', inspected('2026-03-13'), []],
    ['another area', inspected('2026-03-15', 'room-1'), ['follow-up warning 2026-03-19']],
    ['a device there was read', visit('2026-03-15', 'readings: {none: [K1]}'), []],
    [
      'a device there could not be reached',
      visit('2026-03-15', 'readings: {K1: {no-access: cart in front}}'),
      ['follow-up warning 2026-03-19'],
    ],
    [
      'something was done there',
      visit('2026-03-15', 'actions: {vacuumed: {did: vacuumed, tactic: vacuuming, area: kitchen}}'),
      [],
    ],
    ['a sighting there', found('2026-03-15', 'pest: german-cockroach, area: kitchen, evidence: live'), []],
  ])('%s', (_, records, expected) => {
    expect(told(rule, records + bait('2026-03-12', planned))).toEqual(expected)
  })

  it('is foretold, and does not stand on the last day', () => {
    const standing = (asOf: string) =>
      checkOf(bait('2026-03-12', planned), asOf).standing.filter((problem) => problem.rule === rule)
    expect(standing('2026-03-18')).toEqual([])
    expect(standing('2026-03-19')).toHaveLength(1)
  })

  // 2026-03-12 and 30 days are 2026-04-11.
  it('without a day in the record, custom asks for a look within 30 days, as a note', () => {
    const ledger = bait('2026-03-12', 'follow-up:')
    expect(told(rule, ledger)).toEqual(['areas note 2026-04-12'])
    expect(told(rule, ledger + inspected('2026-04-11'), '2026-04-20')).toEqual([])
    expect(told(rule, ledger + inspected('2026-04-12'), '2026-04-20')).toEqual([
      'areas note 2026-04-12 2026-04-12',
    ])
  })

  it('what the district set itself is a warning, and the shorter time wins', () => {
    const own = `
parameters:
  follow-up.days: [{from: 2024-08-01, value: 7 days, kind: standard, confidence: read, source: Invented policy}]
`
    const ledger = underRulebooks(['practice', 'own'], own)
    expect(told(rule, ledger + bait('2026-03-12', 'follow-up:'))).toEqual(['areas warning 2026-03-20'])
    expect(told(rule, ledger + bait('2026-03-12', planned))).toEqual(['follow-up warning 2026-03-19'])
    expect(told(rule, underRulebooks([]) + bait('2026-03-12', 'follow-up:'))).toEqual([])
  })

  it('a day that does not lie ahead is no plan', () => {
    expect(told(rule, bait('2026-03-12', 'follow-up: {by: 2026-03-12, look: K1}'))).toEqual([
      'areas note 2026-04-12',
    ])
  })

  it('a site that is closed, and an area that is gone by the last day, have nothing left to look at', () => {
    const closed = (until: string) => siteWith([], `until: ${until}`) + bait('2026-03-12', planned)
    expect(told(rule, closed('2026-03-18'))).toEqual([])
    expect(told(rule, closed('2026-03-19'))).toEqual(['follow-up warning 2026-03-19 2026-03-20'])
    const gone = (until: string) =>
      siteWith([`shed: {kind: storage, until: ${until}}`]) +
      bait('2026-03-12', planned, 'areas: {shed: {amount: 2 g, placements: 8, where: shelf voids}}')
    expect(told(rule, gone('2026-03-18'))).toEqual([])
    expect(told(rule, gone('2026-03-19'))).toEqual(['follow-up warning 2026-03-19 2026-03-20'])
  })

  it('one of several treated areas is enough', () => {
    const two =
      'areas: {kitchen: {amount: 1 g, placements: 4, where: range}, room-1: {amount: 1 g, placements: 4, where: sink}}'
    expect(told(rule, inspected('2026-03-15', 'room-1') + bait('2026-03-12', planned, two))).toEqual([])
  })

  it('bait in a device and disinfectants are not asked', () => {
    const set = 'set: {B1: {kind: bait-station, area: kitchen, product: bait-a, bait-added: 1 g}}'
    expect(told(rule, visit('2026-03-12', set))).toEqual([])
    const cleaner = product('bait-a', 'kind: antimicrobial', 'registration: 99999-1')
    expect(told(rule, cleaner + bait('2026-03-12', planned))).toEqual([])
  })
})
