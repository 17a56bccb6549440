import { describe, expect, it } from 'vitest'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { sprayLabel } from '../../src/rules/label-use/example-ledgers.js'
import { baitLabel, inShort, problemsOf, sentence, visit } from './label-examples.js'

describe('label-rate-exceeded', () => {
  const rule = 'label-rate-exceeded'
  const used = (...lines: string[]) => sprayApplication('2026-03-12', ...lines)
  /** Under a label of 16 fl oz per 1000 ft2. */
  const spray = (...lines: string[]) => sprayLabel('') + used(...lines)
  const inKitchen = (facts: string) => `areas: {kitchen: {${facts}}}`

  describe('16 fl oz per 1000 ft2: on 3 ft2 that is 0.048 fl oz', () => {
    it.each<[string, string, string[]]>([
      ['exactly the rate', spray(inKitchen('amount: 0.048 fl oz, extent: 3 ft2'), 'amount: 0.048 fl oz'), []],
      [
        'a millionth more, told at the area and not again for the whole',
        spray(inKitchen('amount: 0.048001 fl oz, extent: 3 ft2'), 'amount: 0.048001 fl oz'),
        ['2026-03-12-okafor areas.kitchen.amount error'],
      ],
      [
        'only the whole is recorded',
        spray(inKitchen('where: behind the range'), 'amount: 0.048001 fl oz'),
        ['2026-03-12-okafor amount error'],
      ],
      [
        'the whole on the extents of the areas',
        spray(
          'areas: {kitchen: {extent: 1 ft2}, room-1: {extent: 2 ft2}}',
          'amount: 0.048001 fl oz',
          'treated-extent:',
        ),
        ['2026-03-12-okafor amount error'],
      ],
      [
        'the amounts of the areas on the whole extent',
        spray('areas: {kitchen: {amount: 0.04 fl oz}, room-1: {amount: 0.009 fl oz}}', 'amount:'),
        ['2026-03-12-okafor areas error'],
      ],
      [
        'one area above, the other not, and the whole not either',
        spray(
          'areas: {kitchen: {amount: 0.02 fl oz, extent: 1 ft2}, room-1: {amount: 0.02 fl oz, extent: 9 ft2}}',
          'amount: 0.04 fl oz',
          'treated-extent: 10 ft2',
        ),
        ['2026-03-12-okafor areas.kitchen.amount error'],
      ],
      [
        'the size of what was treated is not recorded',
        spray(inKitchen('amount: 90 fl oz'), 'amount: 90 fl oz', 'treated-extent:'),
        [],
      ],
      [
        'one area of two is not recorded',
        spray('areas: {kitchen: {extent: 1 ft2}, room-1: {}}', 'amount: 90 fl oz', 'treated-extent:'),
        [],
      ],
      ['the amount is not recorded', spray(inKitchen('extent: 3 ft2'), 'amount:'), []],
      // 0.048 fl oz is 1.4195 mL, and 3 ft2 is 0.27871 m2
      [
        'in other units',
        spray(inKitchen('amount: 1.42 mL, extent: 0.2787 m2'), 'amount:', 'treated-extent:'),
        ['2026-03-12-okafor areas.kitchen.amount error'],
      ],
      [
        'in other units, just below',
        spray(inKitchen('amount: 1.41 mL, extent: 0.2787 m2'), 'amount:', 'treated-extent:'),
        [],
      ],
      [
        'a weight of a liquid without a density',
        spray(inKitchen('amount: 90 oz, extent: 3 ft2'), 'amount: 90 oz'),
        [],
      ],
    ])('%s', (_, overlay, expected) => {
      expect(inShort(rule, overlay)).toEqual(expected)
    })

    it('a weight of a liquid with a density', () => {
      // 2 lb/gal: 0.048 fl oz is 0.048 / 128 gal, 0.00075 lb, 0.012 oz.
      const light = sprayLabel('').replace('signal-word', 'density: 2 lb/gal\nsignal-word')
      const weighed = (amount: string) => light + used(inKitchen('extent: 3 ft2'), `amount: ${amount}`)
      expect(inShort(rule, weighed('0.012 oz'))).toEqual([])
      expect(inShort(rule, weighed('0.012001 oz'))).toEqual(['2026-03-12-okafor amount error'])
    })

    it('says what it comes to', () => {
      // 3 fl oz on 3 ft2: a thousand on a thousand.
      expect(sentence(rule, spray(inKitchen('amount: 3 fl oz, extent: 3 ft2'), 'amount: 3 fl oz'))).toBe(
        '3 fl oz of Invented Spray A on 3 ft2 (`kitchen`) is 1000 fl oz per 1000 ft2; the label says at most 16 fl oz per 1000 ft2.',
      )
      expect(
        sentence(
          rule,
          spray(inKitchen('amount: 0.048001 fl oz, extent: 3 ft2'), 'amount:', 'treated-extent:'),
        ),
      ).toContain('is 16.0003 fl oz per 1000 ft2')
    })
  })

  it.each<[string, string, string, string[]]>([
    // 12 ft at 0.1 fl oz per foot are 1.2 fl oz.
    ['per length', '{at-most: 0.1 fl oz, per: 1 ft}', '1.2 fl oz', []],
    [
      'per length, above',
      '{at-most: 0.1 fl oz, per: 1 ft}',
      '1.21 fl oz',
      ['2026-03-12-okafor amount error'],
    ],
    // 4000 ft3 at 0.5 fl oz per 1000 ft3 are 2 fl oz.
    ['per room volume', '{at-most: 0.5 fl oz, per: 1000 ft3}', '2 fl oz', []],
    [
      'per room volume, above',
      '{at-most: 0.5 fl oz, per: 1000 ft3}',
      '2.01 fl oz',
      ['2026-03-12-okafor amount error'],
    ],
    ['per application', '{at-most: 2 fl oz, per: application}', '2 fl oz', []],
    [
      'per application, above',
      '{at-most: 2 fl oz, per: application}',
      '2.01 fl oz',
      ['2026-03-12-okafor amount error'],
    ],
    // two areas
    ['per area', '{at-most: 1 fl oz, per: area}', '2 fl oz', []],
    ['per area, above', '{at-most: 1 fl oz, per: area}', '2.01 fl oz', ['2026-03-12-okafor amount error']],
    // 3 and 1 placements
    ['per placement', '{at-most: 0.5 fl oz, per: placement}', '2 fl oz', []],
    [
      'per placement, above',
      '{at-most: 0.5 fl oz, per: placement}',
      '2.01 fl oz',
      ['2026-03-12-okafor amount error'],
    ],
    ['for another method', '{at-most: 0.5 fl oz, per: application, methods: [broadcast]}', '2 fl oz', []],
    ['per station, where there is none', '{at-most: 0.1 fl oz, per: station}', '2 fl oz', []],
  ])('%s', (_, rate, amount, expected) => {
    const overlay =
      sprayLabel('').replace('{at-most: 16 fl oz, per: 1000 ft2}', rate) +
      used(
        'areas: {kitchen: {placements: 3}, room-1: {placements: 1}}',
        `amount: ${amount}`,
        'treated-length: 12 ft',
        'treated-space: 4000 ft3',
      )
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('two limits of one label are two findings', () => {
    const overlay =
      sprayLabel('').replace(
        '{area: {at-most: 16 fl oz, per: 1000 ft2}}',
        '{area: {at-most: 16 fl oz, per: 1000 ft2}, each: {at-most: 1 fl oz, per: application}}',
      ) + used(inKitchen('extent: 3 ft2'), 'amount: 3 fl oz')
    expect(problemsOf(rule, overlay).map(({ identity }) => identity)).toEqual([
      ['area', 'in all'],
      ['each', 'in all'],
    ])
  })

  describe('bait in devices', () => {
    const label = baitLabel('kind: pesticide', '{rates: {each: {at-most: 2 block, per: station}}}')
    const set = (facts: string) =>
      visit('2026-03-12', `set: {B1: {kind: bait-station, area: kitchen, product: bait-a, ${facts}}}`)
    it.each<[string, string, string[]]>([
      ['at the limit', set('bait-added: 2 block'), []],
      ['above', set('bait-added: 3 block'), ['2026-03-12-okafor set.B1.product error']],
      ['two stations that stand as one', set('traps: 2, bait-added: 3 block'), []],
      [
        'two stations, above',
        set('traps: 2, bait-added: 5 block'),
        ['2026-03-12-okafor set.B1.product error'],
      ],
      ['how much is not recorded', set('within-reach: no'), []],
      ['in a unit that does not compare', set('bait-added: 500 g'), []],
      [
        'put in later',
        set('bait-added: 1 block') +
          visit('2026-03-16', 'readings: {B1: {bait-added: 3 block, product: bait-a}}'),
        ['2026-03-16-okafor readings.B1.product error'],
      ],
    ])('%s', (_, overlay, expected) => {
      expect(inShort(rule, label + overlay)).toEqual(expected)
    })
    describe('where a block weighs 20 g, 2 blocks are 40 g', () => {
      const weighed = (most: string) =>
        baitLabel(
          'kind: pesticide\nweight-per: {block: 20 g}',
          `{rates: {each: {at-most: ${most}, per: station}}}`,
        )
      it.each<[string, string, string]>([
        ['2 block', '40 g', '40.1 g'],
        ['40 g', '2 block', '3 block'],
        ['2 block', '2 block', '3 block'],
      ])('at most %s: %s and %s', (most, at, above) => {
        expect(inShort(rule, weighed(most) + set(`bait-added: ${at}`))).toEqual([])
        expect(inShort(rule, weighed(most) + set(`bait-added: ${above}`))).toEqual([
          '2026-03-12-okafor set.B1.product error',
        ])
      })
      it('is said in the unit of the limit', () => {
        // 3 × 20 g = 60 g.
        expect(sentence(rule, weighed('40 g') + set('bait-added: 3 block'))).toBe(
          '3 block of Invented Bait A in 1 station (`kitchen`) is 60 g per station; the label says at most 40 g per station.',
        )
      })
      it('packets, of which it is not told, are still not held against it', () => {
        expect(inShort(rule, weighed('40 g') + set('bait-added: 9 packet'))).toEqual([])
      })
    })
    it('a station is a placement', () => {
      const placed = baitLabel('kind: pesticide', '{rates: {each: {at-most: 2 block, per: placement}}}')
      expect(inShort(rule, placed + set('bait-added: 3 block'))).toHaveLength(1)
    })
  })

  it('bad input: a treated extent of nothing gives no rate and no exception', () => {
    expect(
      inShort(rule, spray(inKitchen('amount: 1 fl oz, extent: 0 ft2'), 'treated-extent: 0 ft2')),
    ).toEqual([])
  })
})

describe('spot-too-large', () => {
  const rule = 'spot-too-large'
  const spot = (area: string, ...lines: string[]) =>
    sprayApplication('2026-03-12', `areas: {kitchen: {${area}}}`, ...lines)
  const bySize = sprayLabel('spot-at-most: 2 ft2')

  it.each<[string, string, string[]]>([
    // custom: 4 ft2
    ['exactly a spot', spot('extent: 4 ft2, placements: 1'), []],
    [
      'more than a spot',
      spot('extent: 4.01 ft2, placements: 1'),
      ['2026-03-12-okafor areas.kitchen.extent note'],
    ],
    ['two spots', spot('extent: 8 ft2, placements: 2'), []],
    [
      'two spots, more',
      spot('extent: 8.01 ft2, placements: 2'),
      ['2026-03-12-okafor areas.kitchen.extent note'],
    ],
    ['how many is not recorded', spot('extent: 8 ft2'), ['2026-03-12-okafor areas.kitchen.extent note']],
    // 0.3716 m2 is 3.9999 ft2
    ['in other units', spot('extent: 0.3716 m2'), []],
    ['in other units, more', spot('extent: 0.3717 m2'), ['2026-03-12-okafor areas.kitchen.extent note']],
    ['no size recorded', spot('where: x', 'treated-extent:'), []],
    [
      'the size of the whole',
      spot('where: x', 'treated-extent: 9 ft2'),
      ['2026-03-12-okafor treated-extent note'],
    ],
    [
      'the whole in two areas is two spots at least',
      sprayApplication('2026-03-12', 'areas: {kitchen: {}, room-1: {}}', 'treated-extent: 8 ft2'),
      [],
    ],
    ['another method', spot('extent: 90 ft2', 'method: perimeter'), []],
    // the label's own figure
    ['exactly the spot of the label', bySize + spot('extent: 2 ft2, placements: 1'), []],
    [
      'more than that',
      bySize + spot('extent: 2.01 ft2, placements: 1'),
      ['2026-03-12-okafor areas.kitchen.extent error'],
    ],
    [
      'more than that, but how many is not recorded: not certain',
      bySize + spot('extent: 2.01 ft2'),
      ['2026-03-12-okafor areas.kitchen.extent warning'],
    ],
    [
      'a larger spot of the label wins over custom',
      sprayLabel('spot-at-most: 9 ft2') + spot('extent: 9 ft2'),
      [],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('what the district set itself is a warning', () => {
    const own = `
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks: [{from: 2026-03-01, rulebook: own}, {from: 2026-03-01, rulebook: practice}]
calendar: [{from: 2025-09-02, until: 2026-06-12}]
=== rulebooks/own.yaml
title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: spots
does-not-cover: [everything else]
parameters: {spot.size: [{from: 2026-03-13, value: 1 ft2, source: Invented policy, kind: standard, confidence: read}]}
`
    const used = (day: string) => sprayApplication(day, 'areas: {kitchen: {extent: 3 ft2, placements: 1}}')
    expect(inShort(rule, own + used('2026-03-12'))).toEqual([])
    expect(inShort(rule, own + used('2026-03-13'))).toEqual([
      '2026-03-13-okafor areas.kitchen.extent warning',
    ])
  })

  it('says that the number of spots is not shown', () => {
    expect(sentence(rule, bySize + spot('extent: 6 ft2'))).toBe(
      '6 ft2 in `kitchen` was treated with Invented Spray A as a spot; the label has a spot 2 ft2 at most, and the record does not show how many spots there were.',
    )
  })
})
