import { describe, expect, it } from 'vitest'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { sprayLabel } from '../../src/rules/label-use/example-ledgers.js'
import { areas, baitLabel, inShort, problemsOf, sentence, visit } from './label-examples.js'

const station = (area: string, ...facts: string[]) =>
  `set: {B1: {kind: bait-station, area: ${area}, product: bait-a, bait-added: 1 g${facts.map((fact) => `, ${fact}`).join('')}}}`

describe('place-not-on-label', () => {
  const rule = 'place-not-on-label'
  const yard = areas('yard: {kind: playground}', 'dock: {kind: loading-dock}', 'attic: {kind: void}')
  const inArea = (area: string) =>
    baitApplication('2026-03-12', `areas: {${area}: {amount: 2 g, placements: 8}}`)

  it.each<[string, string, string[]]>([
    ['indoors, in a room', inArea('kitchen'), []],
    ['indoors, in a void', inArea('attic'), []],
    ['a dock may lie indoors', inArea('dock'), []],
    ['outdoors', inArea('yard'), ['2026-03-12-okafor areas.yard error']],
    ['an area the site does not have is told by another rule', inArea('cellar'), []],
    [
      'of two areas, the one',
      baitApplication('2026-03-12', 'areas: {kitchen: {amount: 1 g}, yard: {amount: 1 g}}'),
      ['2026-03-12-okafor areas.yard error'],
    ],
    ['a planned application is no use', inArea('yard').replace('status: done', 'status: planned'), []],
    [
      'bait in a device',
      visit('2026-03-12', station('yard', 'for: [pavement-ant]')),
      ['2026-03-12-okafor set.B1.product error'],
    ],
    [
      'bait in a device, told once however often it is filled',
      visit('2026-03-12', station('yard', 'for: [pavement-ant]')) +
        visit('2026-03-16', 'readings: {B1: {bait-taken: all, bait-added: 1 g, product: bait-a}}'),
      ['2026-03-12-okafor set.B1.product error'],
    ],
    [
      'moved to such a place, told where it is filled there',
      visit('2026-03-12', station('kitchen', 'for: [pavement-ant]')) +
        visit('2026-03-14', 'moved: {B1: {area: yard}}') +
        visit('2026-03-16', 'readings: {B1: {bait-taken: all, bait-added: 1 g, product: bait-a}}'),
      ['2026-03-16-okafor readings.B1.product error'],
    ],
    ['before the records begin', baitApplication('2026-02-27', 'areas: {yard: {amount: 2 g}}'), []],
    ['a product that is not registered', inArea('yard').replace('bait-a', 'bait-b'), []],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, yard + overlay)).toEqual(expected)
  })

  it('is judged by the label of the day', () => {
    const label = (first: string, second: string) =>
      baitLabel(
        'kind: pesticide',
        `{places: [${first}]}\n  - {from: 2026-03-12, file: label.txt, says: {places: [${second}]}}`,
      )
    expect(inShort(rule, label('indoors', 'outdoors') + baitApplication('2026-03-11'))).toEqual([])
    expect(inShort(rule, label('indoors', 'outdoors') + baitApplication('2026-03-12'))).toHaveLength(1)
    expect(inShort(rule, label('outdoors', 'indoors') + baitApplication('2026-03-11'))).toHaveLength(1)
  })

  it('a place that the label excludes is so although indoors is named', () => {
    const label = baitLabel('kind: pesticide', '{places: [indoors], not-in: [kitchen]}')
    expect(inShort(rule, label + baitApplication('2026-03-12'))).toEqual([
      '2026-03-12-okafor areas.kitchen error',
    ])
    expect(sentence(rule, label + baitApplication('2026-03-12'))).toBe(
      'The label of Invented Bait A excludes places of kind kitchen, indoors; the record shows it used in `kitchen`.',
    )
  })

  it('tells nothing where the register does not tell the places', () => {
    expect(
      inShort(rule, yard + baitLabel('kind: pesticide', '{interval: 14 days}') + inArea('yard')),
    ).toEqual([])
  })

  it('rests on federal law for a registered product, and on custom for an exempt one', () => {
    const of = (kind: string) =>
      problemsOf(
        rule,
        yard +
          baitLabel(`kind: ${kind}`, '{places: [indoors]}').replace(/registration.*\n/, '') +
          inArea('yard'),
      ).map(({ level, sources }) => [level, sources.map((source) => source.kind)])
    expect(of('pesticide')).toEqual([['error', ['law']]])
    expect(of('antimicrobial')).toEqual([['error', ['law']]])
    expect(of('minimum-risk')).toEqual([['warning', ['practice']]])
    expect(of('lure')).toEqual([])
  })
})

describe('pest-not-on-label', () => {
  const rule = 'pest-not-on-label'
  it.each<[string, string, string[]]>([
    ['named with its group', baitApplication('2026-03-12'), []],
    ['not named', baitApplication('2026-03-12', 'pest: silverfish'), ['2026-03-12-okafor pest warning']],
    [
      'another target beside one that is named',
      baitApplication('2026-03-12', 'also-against: [pavement-ant, silverfish]'),
      ['2026-03-12-okafor also-against.1 warning'],
    ],
    ['a kind not told, of a group that is named', baitApplication('2026-03-12', 'pest: ant'), []],
    ['not identified', baitApplication('2026-03-12', 'pest: unidentified'), []],
    ['a device for one', visit('2026-03-12', station('kitchen', 'for: [german-cockroach]')), []],
    [
      'a device for one that is not named',
      visit('2026-03-12', station('kitchen', 'for: [german-cockroach, silverfish]')),
      ['2026-03-12-okafor set.B1.product warning'],
    ],
    [
      'a device of which only its kind tells what it is for, and none of that is named',
      visit('2026-03-12', station('kitchen')),
      ['2026-03-12-okafor set.B1.product warning'],
    ],
    [
      'one of them is named: the station may be for that one',
      baitLabel('kind: pesticide', '{pests: [house-mouse]}') + visit('2026-03-12', station('kitchen')),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('is no broken law by itself, so that an exception can cover what a state allows', () => {
    const overlay = baitApplication('2026-03-12', 'pest: silverfish')
    expect(problemsOf(rule, overlay).map(({ sources }) => sources.map(({ kind }) => kind))).toEqual([
      ['practice'],
    ])
    const exception = `
=== exceptions/silverfish.yaml
rule: pest-not-on-label
by: marsh
why: the label does not confine it, and the state allows it
from: 2026-03-01
until: 2026-06-30
`
    expect(problemsOf(rule, overlay + exception)).toEqual([])
  })
})

describe('method-not-on-label', () => {
  const rule = 'method-not-on-label'
  it.each<[string, string, string[]]>([
    ['named', baitApplication('2026-03-12', 'method: void'), []],
    ['not named', baitApplication('2026-03-12', 'method: wipe'), ['2026-03-12-okafor method warning']],
    ['no word for it', baitApplication('2026-03-12', 'method: other'), []],
    [
      'a label that has bait placed has it placed in a station',
      baitLabel('kind: pesticide', '{methods: [bait-placement]}') + visit('2026-03-12', station('kitchen')),
      [],
    ],
    [
      'a spray in a station',
      visit('2026-03-12', station('kitchen').replace('bait-a', 'spray-a').replace('1 g', '1 fl oz')),
      ['2026-03-12-okafor set.B1.product warning'],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })
})

describe('bait-within-reach', () => {
  const rule = 'bait-within-reach'
  const label = baitLabel('kind: pesticide', '{out-of-reach: yes}')
  const reach = (facts: string, ...lines: string[]) =>
    baitApplication('2026-03-12', `areas: {kitchen: {amount: 2 g${facts}}}`, ...lines)

  it.each<[string, string, string[]]>([
    [
      'recorded as within reach',
      label + reach(', within-reach: yes'),
      ['2026-03-12-okafor areas.kitchen.within-reach error'],
    ],
    ['out of reach', label + reach(', within-reach: no'), []],
    ['not recorded', label + reach(''), []],
    ['the label does not ask it', reach(', within-reach: yes'), []],
    [
      'in a station of which the record does not tell more',
      label + reach(', within-reach: yes', 'method: in-a-station'),
      ['2026-03-12-okafor areas.kitchen.within-reach warning'],
    ],
    [
      'in a tamper-resistant station',
      label + reach(', within-reach: yes, tamper-resistant: yes', 'method: in-a-station'),
      [],
    ],
    [
      'in a station that is not',
      label + reach(', within-reach: yes, tamper-resistant: no', 'method: in-a-station'),
      ['2026-03-12-okafor areas.kitchen.within-reach error'],
    ],
    [
      'tamper-resistant, but no station',
      label + reach(', within-reach: yes, tamper-resistant: yes'),
      ['2026-03-12-okafor areas.kitchen.within-reach error'],
    ],
    [
      'a device',
      label + visit('2026-03-12', station('kitchen', 'within-reach: yes, tamper-resistant: no')),
      ['2026-03-12-okafor set.B1.within-reach error'],
    ],
    [
      'a device, told once however often it is filled',
      label +
        visit('2026-03-12', station('kitchen', 'within-reach: yes')) +
        visit('2026-03-16', 'readings: {B1: {bait-taken: all, bait-added: 1 g, product: bait-a}}'),
      ['2026-03-12-okafor set.B1.within-reach warning'],
    ],
    [
      'a device that was moved within reach with its bait',
      label +
        visit('2026-03-12', station('kitchen', 'within-reach: no, tamper-resistant: no')) +
        visit('2026-03-16', 'moved: {B1: {area: room-1, within-reach: yes}}'),
      ['2026-03-16-okafor moved.B1.within-reach error'],
    ],
    [
      'a device without bait',
      label + visit('2026-03-12', 'set: {B1: {kind: bait-station, area: kitchen, within-reach: yes}}'),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('ends on the day the device is put out of reach', () => {
    const overlay =
      label +
      visit('2026-03-12', station('kitchen', 'within-reach: yes, tamper-resistant: no')) +
      visit('2026-03-16', 'moved: {B1: {within-reach: no}}')
    expect(inShort(rule, overlay, '2026-03-15')).toHaveLength(1)
    expect(inShort(rule, overlay, '2026-03-16')).toHaveLength(0)
  })

  it('begins on the day bait is put in', () => {
    const overlay =
      label +
      visit('2026-03-12', 'set: {B1: {kind: bait-station, area: kitchen, within-reach: yes}}') +
      visit('2026-03-16', 'readings: {B1: {bait-added: 1 g, product: bait-a}}')
    expect(inShort(rule, overlay, '2026-03-15')).toHaveLength(0)
    expect(inShort(rule, overlay, '2026-03-16')).toEqual(['2026-03-12-okafor set.B1.within-reach warning'])
  })
})

describe('weight-rate-of-a-liquid', () => {
  const rule = 'weight-rate-of-a-liquid'
  const heavy = (overlay: string) => overlay.replace('signal-word', 'density: 8.6 lb/gal\nsignal-word')
  const used = (amount: string) =>
    sprayApplication('2026-03-12', `areas: {kitchen: {extent: 3 ft2}}`, `amount: ${amount}`)

  it.each<[string, string, string[]]>([
    [
      'a rate of the label in ounces',
      sprayLabel('').replace('16 fl oz', '16 oz'),
      ['product labels.0.says.rates.area.at-most warning'],
    ],
    [
      'a yearly amount in ounces',
      sprayLabel('amount-a-year: 64 oz'),
      ['product labels.0.says.amount-a-year warning'],
    ],
    ['in pounds, which no one takes for a volume', sprayLabel('amount-a-year: 4 lb'), []],
    ['with the density', heavy(sprayLabel('amount-a-year: 64 oz')), []],
    ['of a gel', baitLabel('kind: pesticide\nformulation: gel', '{amount-a-year: 64 oz}'), []],
    [
      'of an aerosol, which is sold by weight',
      sprayLabel('amount-a-year: 64 oz').replace('ready-to-use-liquid', 'aerosol'),
      [],
    ],
    ['an amount in ounces', used('0.04 oz'), ['2026-03-12-okafor amount warning']],
    ['an amount in fluid ounces', used('0.04 fl oz'), []],
    ['an amount in grams against a rate by volume', used('1 g'), ['2026-03-12-okafor amount warning']],
    ['an amount in grams of a known density', heavy(sprayLabel('')) + used('1 g'), []],
    [
      'an amount in grams against a rate by weight',
      sprayLabel('').replace('16 fl oz', '400 g') + used('1 g'),
      [],
    ],
    [
      'an amount by volume against a rate in ounces is told at the label',
      sprayLabel('').replace('16 fl oz', '16 oz') + used('0.04 fl oz'),
      ['product labels.0.says.rates.area.at-most warning'],
    ],
    [
      'in one area only',
      sprayApplication('2026-03-12', 'areas: {kitchen: {amount: 0.04 oz, extent: 3 ft2}}', 'amount:'),
      ['2026-03-12-okafor areas.kitchen.amount warning'],
    ],
    [
      'of a product whose label is not told',
      sprayLabel('').replace(/says:[\s\S]*?sds/, 'revision: a\nsds') + used('0.04 oz'),
      ['2026-03-12-okafor amount warning'],
    ],
    [
      'a label that ended before the records begin',
      sprayLabel('amount-a-year: 64 oz').replace(
        '- from: 2026-01-05',
        '- from: 2026-01-05\n    until: 2026-02-28',
      ),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('a station filled in ounces again and again is told once', () => {
    const liquid = baitLabel('kind: pesticide\nformulation: liquid-bait', '{places: [indoors]}')
    const overlay =
      liquid +
      visit('2026-03-12', station('kitchen').replace('1 g', '1 oz')) +
      visit('2026-03-16', 'readings: {B1: {bait-taken: all, bait-added: 1 oz, product: bait-a}}')
    expect(inShort(rule, overlay)).toEqual(['2026-03-12-okafor set.B1.product warning'])
  })
})
