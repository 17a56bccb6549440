import { describe, expect, it } from 'vitest'
import { onTheField } from '../../src/rules/application-records/example-ledgers.js'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { checkOf } from '../check/checking.js'
import {
  asking,
  bait,
  law,
  problemsOf,
  product,
  sentences,
  siteWith,
  told,
  underRulebooks,
  visit,
} from './application-checks.js'

const spray = sprayApplication

describe('application-record-incomplete', () => {
  const rule = 'application-record-incomplete'
  const incomplete = (ledger: string) =>
    sentences(rule, ledger).map((said) => /does not show (.+)\.$/.exec(said)?.[1])

  it.each<[string, string, string]>([
    ['amount', 'amount:\nareas: {kitchen: {where: range}}', 'the amount in all'],
    ['start-and-end', 'time:', 'when it began and ended'],
    ['spot-description', 'areas: {kitchen: {amount: 0.04 fl oz}}', 'a description of the place in each area'],
    ['lot', 'lot:', 'the lot number'],
    ['equipment', 'equipment:', 'the equipment'],
    ['pupils', 'pupils:', 'where pupils were'],
    ['reason', 'reason:', 'why it was needed'],
    ['dilution', 'formulation: emulsifiable-concentrate', 'how the concentrate was diluted'],
    [
      'size-of-area',
      'treated-extent:\nareas: {kitchen: {amount: 0.04 fl oz, where: range}}',
      'the size of what was treated',
    ],
  ])('%s', (element, lines, words) => {
    const own = asking(`elements: [${element}]`)
    expect(told(rule, own + spray('2026-03-12'))).toEqual([])
    expect(told(rule, own + spray('2026-03-12', ...lines.split('\n')))).toEqual(['status error 2026-03-12'])
    expect(incomplete(own + spray('2026-03-12', ...lines.split('\n')))).toEqual([words])
  })

  it.each<[string, string, boolean]>([
    ['amount', 'areas: {kitchen: {amount: 2 g}}', false],
    ['amount', 'areas: {kitchen: {amount: 2 g}, room-1: {where: sink}}', true],
    ['amount-in-each-area', 'amount: 2 g\nareas: {kitchen: {where: range}}', false],
    ['amount-in-each-area', 'amount: 2 g\nareas: {kitchen: {where: range}, room-1: {where: sink}}', true],
    ['amount-in-each-area', 'areas: {kitchen: {amount: 1 g}, room-1: {amount: 1 g}}', false],
    ['size-of-area', 'areas: {kitchen: {extent: 3 ft2}, room-1: {extent: 2 ft2}}', false],
    ['size-of-area', 'areas: {kitchen: {extent: 3 ft2}, room-1: {where: sink}}', true],
    ['size-of-area', 'treated-length: 12 ft', false],
    ['size-of-area', 'treated-space: 400 ft3', false],
    ['spot-description', 'areas: {kitchen: {where: spot}}', true],
    ['spot-description', 'areas: {kitchen: {where: Spot application.}}', true],
    ['spot-description', 'areas: {kitchen: {where: spot below the range}}', false],
    ['dilution', 'formulation: emulsifiable-concentrate\ndilution: {water: 1 gal}', false],
    ['dilution', 'formulation: wettable-powder', true],
    ['dilution', 'formulation: ready-to-use-liquid', false],
    ['reason', 'reason:\nemergency: {problem: nest, why: a pupil was stung, decided-by: marsh}', false],
    ['weather', 'method: spot', false],
  ])('%s by `%s` is missing: %s', (element, lines, expected) => {
    const facts = ['amount:', 'treated-extent:', ...lines.split('\n')]
    const ledger = asking(`elements: [${element}]`) + bait('2026-03-12', ...facts)
    expect(told(rule, ledger).length > 0).toBe(expected)
  })

  it('the weather is asked for outdoors, be it one of several areas', () => {
    const own = asking('elements: [weather]')
    expect(told(rule, own + onTheField())).toEqual([])
    expect(told(rule, own + onTheField('weather: {sky: dry}'))).toEqual([])
    expect(told(rule, own + onTheField('weather:'))).toEqual(['status error 2026-03-12'])
    const both = 'areas: {field: {where: by the goal}, kitchen: {where: sill}}'
    expect(told(rule, own + onTheField('weather:', both))).toHaveLength(1)
  })

  it('several duties make one finding, as strict as the strictest, which cites those that are broken', () => {
    const own = underRulebooks(
      ['practice', 'own'],
      `
records:
  act: [{from: 2024-08-01, elements: [start-and-end, equipment], ${law(5)}}]
  met: [{from: 2024-08-01, elements: [pupils], ${law(6)}}]
  board: [{from: 2024-08-01, elements: [lot, equipment], kind: standard, confidence: read, source: Invented policy}]
`,
    )
    const ledger = own + bait('2026-03-12', 'time:', 'equipment:', 'lot:')
    expect(incomplete(ledger)).toEqual(['when it began and ended; the equipment; the lot number'])
    const [found] = problemsOf(rule, ledger)
    expect(found?.level).toBe('error')
    expect(found?.sources.map(({ text }) => text)).toEqual([
      'Invented Pest Act, section 5',
      'Invented policy',
    ])
    expect(told(rule, own + bait('2026-03-12', 'lot:'))).toEqual(['status warning 2026-03-12'])
  })

  it('is judged by the version of the day, and by the classes a duty holds for', () => {
    const own = underRulebooks(
      ['practice', 'own'],
      `
uses:
  gels: [{from: 2024-08-01, any: [{formulation: [gel]}], ${law(1)}}]
records:
  application:
    - {from: 2024-08-01, until: 2026-03-11, elements: [lot], ${law(5)}}
    - {from: 2026-03-12, elements: [lot, equipment], not-for: [gels], ${law(5)}}
`,
    )
    const short = ['lot:', 'equipment:']
    expect(incomplete(own + bait('2026-03-11', ...short))).toEqual(['the lot number'])
    expect(incomplete(own + bait('2026-03-12', ...short))).toEqual([])
    expect(incomplete(own + spray('2026-03-12', ...short))).toEqual(['the lot number; the equipment'])
  })

  it('is asked of pesticides that are in the register, applied since the records begin', () => {
    const own = asking('elements: [lot]')
    expect(told(rule, own + product('bait-a', 'kind: living-agent') + bait('2026-03-12', 'lot:'))).toEqual([])
    expect(told(rule, own + bait('2026-03-12', 'lot:', 'product: bait-b'))).toEqual([])
    expect(told(rule, own + bait('2024-07-31', 'lot:'))).toEqual([])
    expect(told(rule, own + bait('2026-03-12', 'lot:', 'status: planned'))).toEqual([])
  })

  it('a registration number that is not in the register is told once, by its own rule', () => {
    const ledger =
      asking('elements: [registration]') + product('bait-a', 'kind: pesticide') + bait('2026-03-12')
    expect(told(rule, ledger)).toEqual([])
    expect(told('pesticide-without-registration', ledger)).toHaveLength(1)
  })

  describe('certified-applicator', () => {
    const own = asking('elements: [certified-applicator]')
    const vale = (licence: string) =>
      `\n=== people/vale.yaml\nname: Petra Vale\nroles: [applicator]\n${licence === '' ? '' : `licences: {or-2: {number: XX-2, state: OR, kind: applicator, categories: [structural], ${licence}}}\n`}`
    const byVale = (...lines: string[]) =>
      bait('2026-03-12', 'by: vale', ...lines).replace('2026-03-12-okafor', '2026-03-12-vale')

    it.each<[string, string, string[], boolean]>([
      ['no licence', '', [], true],
      ['in force', 'spans: [{from: 2026-03-12, until: 2026-03-12}]', [], false],
      ['ended the day before', 'spans: [{from: 2026-01-01, until: 2026-03-11}]', [], true],
      ['not certified', 'certified: no, spans: [{from: 2026-01-01}]', [], true],
      ['under someone certified', '', ['supervised-by: okafor'], false],
      ['under someone who is not', '', ['supervised-by: lind'], true],
      ['under someone who is not in the ledger, told as that', '', ['supervised-by: reyes'], false],
    ])('%s', (_, licence, lines, expected) => {
      expect(told(rule, own + vale(licence) + byVale(...lines)).length > 0).toBe(expected)
    })

    it('where a licence is asked for as well, the rules about licences tell it, once', () => {
      const both = underRulebooks(
        ['practice', 'own'],
        `
records:
  application: [{from: 2024-08-01, elements: [certified-applicator], ${law(5)}}]
licences:
  applicator: [{from: 2024-08-01, of: applicator, ${law(3)}}]
`,
      )
      const ledger = both + vale('') + byVale()
      expect(told(rule, ledger)).toEqual([])
      expect(told('applicator-without-licence', ledger)).toHaveLength(1)
    })
  })

  it('an address that is nowhere is told with the first application only', () => {
    const own = asking('elements: [customer-address, lot]').replace('address: 1 Example Square\n', '')
    const two = bait('2026-03-10') + bait('2026-03-12') + bait('2026-03-14', 'lot:')
    const nowhere = own + siteWith([]).replace('address: 2 Example Lane\n', '') + two
    expect(
      problemsOf(rule, nowhere).map(({ at, args }) => [
        at.file.split('/').at(-1)?.slice(0, 10),
        args.missing,
      ]),
    ).toEqual([
      ['2026-03-10', ['the address of whom it was applied for']],
      ['2026-03-14', ['the lot number']],
    ])
    expect(told(rule, asking('elements: [customer-address]') + siteWith([]) + two)).toEqual([])
    expect(told(rule, own.replace(', lot', '') + two)).toEqual([])
  })

  // 7 CFR 110.3(b): a total of less than 1/10 acre on one day. 1/10 acre = 43,560 / 10 = 4,356 ft2.
  describe('the short form', () => {
    const own = asking(
      'elements: [amount, size-of-area, equipment], short-form-under: 4356 ft2, short-form: [amount, spot-description]',
    )
    const acre = (extent: string, ...lines: string[]) =>
      bait('2026-03-12', `treated-extent: ${extent}`, 'equipment:', ...lines)

    it.each<[string, string[]]>([
      ['4355.9 ft2', []],
      ['4356 ft2', ['the equipment']],
      ['0.1 acre', ['the equipment']],
      ['0.099999 acre', []],
      // 404.68564224 m2 are 1/10 acre: 4046.8564224 / 10.
      ['404.6856 m2', []],
      ['404.6857 m2', ['the equipment']],
    ])('%s', (extent, expected) => {
      expect(incomplete(own + acre(extent))).toEqual(expected)
    })

    it('asks where the spot was, or else the full form', () => {
      const where = 'areas: {kitchen: {amount: 2 g}}'
      expect(incomplete(own + acre('3 ft2', where))).toEqual(['a description of the place in each area'])
      expect(incomplete(own + acre('3 ft2', where, 'equipment: bait gun'))).toEqual([])
    })

    it('without an extent the full form is asked', () => {
      expect(incomplete(own + bait('2026-03-12', 'equipment:'))).toEqual([
        'the size of what was treated; the equipment',
      ])
    })

    it('counts everything one applicator treated on that day', () => {
      const other = (by: string, day: string, extent: string) =>
        bait(day, `by: ${by}`, 'product: spray-a', `treated-extent: ${extent}`).replace(
          `${day}-okafor`,
          `${day}-${by}-2`,
        )
      const all = (by: string, day: string, extent: string) =>
        incomplete(own + acre('4000 ft2') + other(by, day, extent))
      expect(all('okafor', '2026-03-12', '355.9 ft2')).toEqual([])
      expect(all('okafor', '2026-03-12', '356 ft2')).toEqual(['the equipment'])
      expect(all('okafor', '2026-03-13', '356 ft2')).toEqual([])
      expect(all('lind', '2026-03-12', '356 ft2')).toEqual([])
    })

    it('is that of federal law for restricted-use products, while it was in force', () => {
      const restricted = product('bait-a', 'kind: pesticide', 'registration: 99999-1', 'restricted-use: yes')
      const facts = ['time:', 'areas: {kitchen: {where: voids of the dish machine}}']
      const of = (day: string, extent: string) =>
        incomplete(
          underRulebooks(['us-federal']) + restricted + bait(day, `treated-extent: ${extent}`, ...facts),
        )
      expect(of('2024-11-04', '3 ft2')).toEqual([])
      // 40 CFR 171.303(b)(7)(vi) has no short form: time of day, in force here from 2024-11-05.
      expect(of('2024-11-05', '3 ft2')).toEqual(['when it began and ended'])
      const general = product('bait-a', 'kind: pesticide', 'registration: 99999-1', 'restricted-use: no')
      expect(told(rule, underRulebooks(['us-federal']) + general + bait('2026-03-12', 'time:'))).toEqual([])
    })
  })

  describe('bait in devices', () => {
    const station = 'kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a'
    const set = visit(
      '2026-03-06',
      `set: {B1: {${station}, bait-added: 1 g}, B2: {${station}, bait-added: 1 g}}`,
    )
    const refilled = (b1: string, b2: string) =>
      visit('2026-03-12', 'time: 06:10 to 06:30', `readings: {B1: {${b1}}, B2: {${b2}}}`)

    it('is asked for what a reading can hold, once for a visit and product', () => {
      const own = asking('elements: [amount, lot, equipment, pupils, reason, size-of-area]')
      const full = 'product: bait-a, bait-added: 1 g, lot: L-1'
      expect(told(rule, own + set + refilled(full, full))).toEqual([])
      const ledger = own + set + refilled('product: bait-a, lot: L-1', 'product: bait-a, bait-added: 1 g')
      expect(told(rule, ledger)).toEqual(['readings.B1.product error 2026-03-12'])
      expect(sentences(rule, ledger)).toEqual([
        'The record of this bait (B1, B2) does not show the amount in all; the lot number.',
      ])
    })

    it('has the hours of its visit', () => {
      const own = asking('elements: [start-and-end]')
      expect(told(rule, own + set)).toEqual(['set.B1.product error 2026-03-06'])
    })
  })
})

describe('an application across midnight', () => {
  // The clock of America/Los_Angeles is set back on 2026-11-01 at 02:00; 23:30 to 01:30 is two days, not one.
  const hours = ['time: 23:30 to 01:30', 'follow-up: {by: 2026-11-20, look: K1}']

  it.each<[string, string]>([
    ['gel', bait('2026-10-31', ...hours)],
    [
      'spray',
      spray(
        '2026-10-31',
        ...hours,
        'dry: {at: 01:40, by: okafor}',
        'reopened: {on: 2026-11-01, at: 06:30, by: lind}',
      ),
    ],
  ])('before the clock is set back is one problem, at its hours: %s', (_, ledger) => {
    const standing = checkOf(ledger, '2026-11-04').standing.filter(({ at }) =>
      at.file.includes('/applications/'),
    )
    expect(standing.map(({ rule, at }) => [rule, ...at.path])).toEqual([['ends-before-it-starts', 'time']])
  })
})
