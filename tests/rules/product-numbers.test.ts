import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { ruleById } from '../../src/rules/all.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { baitA, useOn } from '../../src/rules/products/example-ledgers.js'
import type { Problem } from '../../src/types.js'
import { checkOf } from '../check/checking.js'

/** What a rule of this family finds standing in an overlay on the ledger of the examples. */
function found(rule: string, overlay: string, asOf?: string): readonly Problem[] {
  return checkOf(overlay, asOf).standing.filter((problem) => problem.rule === rule)
}

function says({ rule, args }: Problem): string {
  const definition = ruleById(rule)
  return definition ? definition.says(args) : ''
}

const placed = ({ at, from }: Problem) => `${at.file} ${at.path.join('.')} ${isoOf(from)}`

/** Bait put into a station on a visit. */
const station = (day: string) => `
=== sites/oak/visits/2026-03-${day}-okafor.yaml
purpose: set-up
by: okafor
set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}}
`

describe('registration-number-is-none', () => {
  it.each<[string, RegExp]>([
    ['99999-EGN', /file symbol.*not registered.*99999-230/],
    ['99999-EUP-1', /experimental use permit/],
    ['99999-OR-1', /establishment/],
    ['OR-240001', /special local need/],
    ['99999-1-AA', /California/],
    ['exempt-25b', /no form/],
  ])('tells what %s looks like', (number, sentence) => {
    const problems = found('registration-number-is-none', baitA({ registration: number }))
    expect(problems.map(placed)).toEqual(['products/bait-a/product.yaml registration 2026-03-01'])
    expect(problems.map(says).join()).toMatch(sentence)
  })

  it.each(['99999-1', '99999-1-99998', '0099999-00001'])('is silent at %s', (number) => {
    expect(found('registration-number-is-none', baitA({ registration: number }))).toEqual([])
  })

  it('takes a permit for what it is where the product is entered as experimental', () => {
    const experimental = baitA({ registration: '99999-EUP-1', 'registered-as': 'experimental' })
    expect(found('registration-number-is-none', experimental)).toEqual([])
    const symbol = baitA({ registration: '99999-EGN', 'registered-as': 'experimental' })
    expect(found('registration-number-is-none', symbol)).toHaveLength(1)
  })

  it('needs no use: the register alone is wrong, and at once', () => {
    const problems = found('registration-number-is-none', baitA({ registration: '99999-EGN' }), '2026-02-01')
    expect(problems.map(({ from }) => isoOf(from))).toEqual(['2026-02-01'])
  })
})

describe('pesticide-without-registration', () => {
  const rule = 'pesticide-without-registration'
  const none = { registration: null }

  it.each<[string, string, number]>([
    ['a pesticide', baitA(none) + useOn('12'), 1],
    ['an antimicrobial', baitA({ ...none, kind: 'antimicrobial' }) + useOn('12'), 1],
    ['put into a station', baitA(none) + station('12'), 1],
    ['not used', baitA(none), 0],
    ['with a number', baitA({}) + useOn('12'), 0],
    ['under a special local need', baitA({ ...none, 'special-local-need': 'OR-240001' }) + useOn('12'), 0],
    ['minimum risk', baitA({ ...none, kind: 'minimum-risk' }) + useOn('12'), 0],
    ['a living agent', baitA({ ...none, kind: 'living-agent' }) + useOn('12'), 0],
    ['a lure', baitA({ ...none, kind: 'lure' }) + useOn('12'), 0],
    ['another number is told by its own rule', baitA({ registration: '99999-EGN' }) + useOn('12'), 0],
  ])('%s', (_, overlay, count) => {
    expect(found(rule, overlay)).toHaveLength(count)
  })

  it('is said once for all uses of a site', () => {
    const problems = found(rule, baitA(none) + useOn('10') + useOn('12') + useOn('16'))
    expect(problems.map(placed)).toEqual(['sites/oak/applications/2026-03-10-okafor.yaml product 2026-03-10'])
    expect(problems.map(({ args }) => args.more)).toEqual([2])
    expect(problems.map(says).join()).toMatch(/and 2 later uses/)
  })

  it('asks nothing about a use before the records begin', () => {
    const early = useOn('12').replace('2026-03-12-okafor.yaml', '2026-02-12-okafor.yaml')
    expect(found(rule, baitA(none) + early)).toEqual([])
  })
})

describe('minimum-risk-with-registration', () => {
  const rule = 'minimum-risk-with-registration'
  it.each<[string, string, RegExp | null]>([
    ['minimum risk', baitA({ kind: 'minimum-risk' }), /152\.25\(f\)/],
    ['a device', baitA({ kind: 'device' }), /152\.500/],
    ['a pesticide', baitA({}), null],
    ['an antimicrobial', baitA({ kind: 'antimicrobial' }), null],
    ['minimum risk without a number', baitA({ kind: 'minimum-risk', registration: null }), null],
    // Its own rule says that this is an establishment number; one cause is told once.
    ['a device with an establishment number', baitA({ kind: 'device', registration: '99999-OR-1' }), null],
  ])('%s', (_, overlay, source) => {
    const sources = found(rule, overlay).map((problem) => problem.sources.map(({ text }) => text).join())
    if (source) expect(sources).toEqual([expect.stringMatching(source)])
    else expect(sources).toEqual([])
  })
})

/** A rulebook of OR that asks for registration there, from law or from the district itself. */
const inState = (kind = 'law', more = '') =>
  underOwnRulebook(`
registrations:
  in-state: [{from: 2020-01-01, in-state: yes, kind: ${kind}, confidence: read, source: "Invented Pest Act, section 2"${more}}]
`)

describe('not-registered-in-state', () => {
  const rule = 'not-registered-in-state'
  const states = (text: string | null) => baitA({ states: text })

  it.each<[string, string, (readonly [string, string, number])[]]>([
    ['in force on its last day', states('{OR: [{from: 2026-01-01, until: 2026-03-12}]}') + useOn('12'), []],
    [
      'ended the day before',
      states('{OR: [{from: 2026-01-01, until: 2026-03-11}]}') + useOn('12'),
      [['2026-03-12', '', 0]],
    ],
    ['in force from the day', states('{OR: [{from: 2026-03-12}]}') + useOn('12'), []],
    [
      'from the day after',
      states('{OR: [{from: 2026-03-13}]}') + useOn('10') + useOn('12') + useOn('13'),
      [['2026-03-10', '2026-03-13', 1]],
    ],
    [
      'two gaps are two findings',
      states('{OR: [{from: 2026-03-12, until: 2026-03-13}]}') + useOn('10') + useOn('13') + useOn('16'),
      [
        ['2026-03-10', '2026-03-12', 0],
        ['2026-03-16', '', 0],
      ],
    ],
    ['in another state only', states('{WA: [{from: 2025-01-01}]}') + useOn('12'), [['2026-03-12', '', 0]]],
    ['no state recorded', states(null) + useOn('12'), [['2026-03-12', '', 0]]],
    ['not used', states(null), []],
    ['no pesticide', baitA({ states: null, kind: 'lure', registration: null }) + useOn('12'), []],
    [
      'under a special local need, whose own rule judges the state',
      baitA({ states: null, 'special-local-need': 'OR-240001' }) + useOn('12'),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    const problems = checkOf(inState() + overlay).problems.filter((problem) => problem.rule === rule)
    expect(
      problems.map(({ from, until, args }) => [
        isoOf(from),
        until === undefined ? '' : isoOf(until),
        args.more,
      ]),
    ).toEqual(expected)
  })

  it('is silent where no rulebook asks', () => {
    expect(found(rule, states(null) + useOn('12'))).toEqual([])
  })

  it('says whether nothing is recorded, or nothing in force', () => {
    const sentence = (text: string | null) => found(rule, inState() + states(text) + useOn('12')).map(says)
    expect(sentence(null).join()).toMatch(/does not show in which states/)
    expect(sentence('{WA: [{from: 2025-01-01}]}').join()).toMatch(/no registration of .* in OR in force/)
  })

  it.each([
    ['law', 'error'],
    ['standard', 'warning'],
    ['practice', 'note'],
  ])('asked by %s it is an %s', (kind, level) => {
    const problems = found(rule, inState(kind) + states(null) + useOn('12'))
    expect(problems.map((problem) => problem.level)).toEqual([level])
  })

  it('asks by the version of the day', () => {
    const since = inState('law', ', until: 2026-03-11')
    expect(found(rule, since + states(null) + useOn('11'))).toHaveLength(1)
    expect(found(rule, since + states(null) + useOn('12'))).toHaveLength(0)
  })

  it('names two rulebooks that ask for the same state in one finding', () => {
    const both = inState().replace(
      'registrations:\n',
      `registrations:
  too: [{from: 2020-01-01, in-state: yes, kind: standard, confidence: read, source: board policy}]
`,
    )
    const problems = found(rule, both + states(null) + useOn('12'))
    expect(problems.map(({ level, sources }) => [level, sources.map(({ text }) => text).sort()])).toEqual([
      ['error', ['Invented Pest Act, section 2', 'board policy']],
    ])
  })
})

describe('special-local-need-elsewhere', () => {
  const rule = 'special-local-need-elsewhere'
  it.each<[string, string, number]>([
    ['OR-240001', useOn('12'), 0],
    ['OR240001', useOn('12'), 0],
    ['WA-240001', useOn('12'), 1],
    ['WA240001', useOn('12') + useOn('13'), 1],
    ['WA-240001', '', 0],
  ])('%s', (number, uses, count) => {
    expect(found(rule, baitA({ 'special-local-need': number }) + uses)).toHaveLength(count)
  })

  it('says that nothing is shown where the district does not name its state', () => {
    const overlay = inState().replace('state: OR\naddress', 'address')
    const problems = found(rule, overlay + baitA({ 'special-local-need': 'WA-240001' }) + useOn('12'))
    expect(problems.map(({ level }) => level)).toEqual(['warning'])
    expect(problems.map(says).join()).toMatch(/does not show/)
  })
})

/** A rulebook that rules out what was cancelled, and one method. */
const prohibitions = (method: string) =>
  underOwnRulebook(`
uses:
  ended: [{from: 2020-01-01, any: [{cancelled: yes}], kind: law, confidence: read, source: "Invented Pest Act, section 1"}]
  method: [{from: 2020-01-01, any: [{method: [${method}]}], kind: law, confidence: read, source: "Invented Pest Act, section 1"}]
prohibitions:
  ended: [{from: 2020-01-01, what: use of a cancelled product, holds-for: [ended], kind: law, confidence: read, source: "Invented Pest Act, section 5"}]
  method: [{from: 2020-01-01, what: use as ${method}, holds-for: [method], kind: law, confidence: read, source: "Invented Pest Act, section 6"}]
`)

describe('product-cancelled', () => {
  const rule = 'product-cancelled'
  it.each<[string, string, string, number]>([
    ['the day before', '{on: 2026-03-13}', useOn('12'), 0],
    ['the day itself', '{on: 2026-03-12}', useOn('12'), 1],
    ['the last day for using it up', '{on: 2025-11-03, use-until: 2026-03-12}', useOn('12'), 0],
    ['the day after that', '{on: 2025-11-03, use-until: 2026-03-11}', useOn('12'), 1],
    ['said once', '{on: 2025-11-03}', useOn('12') + useOn('13') + useOn('16'), 1],
    ['not used', '{on: 2025-11-03}', '', 0],
  ])('%s', (_, cancelled, uses, count) => {
    expect(found(rule, baitA({ cancelled }) + uses)).toHaveLength(count)
  })

  it('also cites a rulebook that rules it out, which does not tell the same cause again', () => {
    const overlay = prohibitions('broadcast') + baitA({ cancelled: '{on: 2025-11-03}' }) + useOn('12')
    expect(found(rule, overlay).map(({ sources }) => sources.map(({ text }) => text))).toEqual([
      [expect.stringContaining('136d'), 'Invented Pest Act, section 5'],
    ])
    expect(found('use-prohibited', overlay)).toEqual([])
  })

  it('leaves another prohibition standing beside it', () => {
    const overlay = prohibitions('crack-and-crevice') + baitA({ cancelled: '{on: 2025-11-03}' }) + useOn('12')
    expect(found(rule, overlay)).toHaveLength(1)
    expect(found('use-prohibited', overlay).map(({ args }) => args.what)).toEqual([
      'use as crack-and-crevice',
    ])
  })
})

describe('use-prohibited', () => {
  const rule = 'use-prohibited'
  it('says each prohibition once for a product, with how many uses follow', () => {
    const problems = found(rule, prohibitions('crack-and-crevice') + useOn('10') + useOn('12'))
    expect(problems.map(placed)).toEqual(['sites/oak/applications/2026-03-10-okafor.yaml product 2026-03-10'])
    expect(problems.map(({ args }) => args.more)).toEqual([1])
  })

  it('holds for bait in a device too', () => {
    expect(found(rule, prohibitions('in-a-station') + station('12'))).toHaveLength(1)
  })

  it('is silent for other uses, other kinds of products, and before it is in force', () => {
    expect(found(rule, prohibitions('spot') + useOn('12'))).toEqual([])
    const lure = baitA({ kind: 'lure', registration: null })
    expect(found(rule, prohibitions('crack-and-crevice') + lure + useOn('12'))).toEqual([])
    const later = prohibitions('crack-and-crevice').replaceAll('2020-01-01', '2026-03-13')
    expect(found(rule, later + useOn('12'))).toEqual([])
    expect(found(rule, later + useOn('13'))).toHaveLength(1)
  })

  it.each([
    ['standard', 'warning'],
    ['practice', 'note'],
  ])('what %s rules out is a %s', (kind, level) => {
    const overlay = prohibitions('crack-and-crevice').replaceAll('kind: law', `kind: ${kind}`) + useOn('12')
    expect(found(rule, overlay).map((problem) => problem.level)).toEqual([level])
  })
})
