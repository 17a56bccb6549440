import { describe, expect, it } from 'vitest'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { sprayLabel } from '../../src/rules/label-use/example-ledgers.js'
import { areas, baitLabel, firstDays, inShort, problemsOf, sentence, visit } from './label-examples.js'

describe('label-interval-too-short', () => {
  const rule = 'label-interval-too-short'
  const two = (interval: string, first: string, second: string, ...lines: string[]) =>
    sprayLabel(`interval: ${interval}`) + sprayApplication(first) + sprayApplication(second, ...lines)

  it.each<[string, string, number]>([
    ['the fourteenth day after', two('14 days', '2026-03-05', '2026-03-19'), 0],
    ['the thirteenth day after', two('14 days', '2026-03-06', '2026-03-19'), 1],
    ['two weeks', two('2 weeks', '2026-03-06', '2026-03-19'), 1],
    // a month after 19 February is 19 March, 28 days later; after 19 January it would be 31
    ['a month, by the calendar', two('1 month', '2026-02-19', '2026-03-19'), 0],
    ['a day short of a month', two('1 month', '2026-02-20', '2026-03-19'), 1],
    // 31 January has no day in February of 2026 but the 28th
    ['after the last of January', two('1 month', '2026-01-31', '2026-03-01'), 0],
    ['in another area', two('14 days', '2026-03-12', '2026-03-19', 'areas: {room-1: {}}'), 0],
    ['another product', two('14 days', '2026-03-12', '2026-03-19', 'product: bait-a'), 0],
    [
      'the label says nothing',
      sprayLabel('') + sprayApplication('2026-03-12') + sprayApplication('2026-03-19'),
      0,
    ],
    ['cancelled', two('14 days', '2026-03-12', '2026-03-19', 'status: cancelled'), 0],
    [
      'two records of one day',
      two('14 days', '2026-03-12', '2026-03-12').replace('2026-03-12-okafor.yaml', '2026-03-12-vale.yaml'),
      0,
    ],
    [
      'bait put into a device again',
      baitLabel('kind: pesticide', '{interval: 14 days}') +
        visit('2026-03-12', 'set: {B1: {kind: bait-station, area: kitchen, product: bait-a}}') +
        visit('2026-03-16', 'readings: {B1: {bait-added: 1 g, product: bait-a}}'),
      0,
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toHaveLength(expected)
  })

  it('speaks at the second one, of the nearest before it, and of every area', () => {
    const wide = 'areas: {kitchen: {extent: 3 ft2}, room-1: {extent: 3 ft2}}'
    const overlay = `${sprayLabel('interval: 14 days')}${sprayApplication('2026-03-02', wide)}${sprayApplication('2026-03-09')}${sprayApplication('2026-03-12', wide)}`
    expect(
      problemsOf(rule, overlay).map(({ at, args }) => [at.file.slice(-22), args.before, args.areas]),
    ).toEqual([
      ['2026-03-09-okafor.yaml', '2026-03-02', ['kitchen']],
      ['2026-03-12-okafor.yaml', '2026-03-09', ['kitchen', 'room-1']],
    ])
  })

  it('is judged by the label of the second', () => {
    const changed = sprayLabel('interval: 14 days').replace(
      /sds: /,
      '  - {from: 2026-03-19, file: label.txt, says: {interval: 7 days}}\nsds: ',
    )
    expect(inShort(rule, changed + sprayApplication('2026-03-09') + sprayApplication('2026-03-19'))).toEqual(
      [],
    )
    expect(
      inShort(rule, changed + sprayApplication('2026-03-09') + sprayApplication('2026-03-18')),
    ).toHaveLength(1)
  })

  it('names the first day that would have been late enough', () => {
    expect(sentence(rule, two('1 month', '2026-02-20', '2026-03-19'))).toContain('2026-03-20')
  })
})

describe('label-yearly-limit-exceeded', () => {
  const rule = 'label-yearly-limit-exceeded'
  const spray = (day: string, area = 'kitchen', amount = '0.04 fl oz') =>
    sprayApplication(day, `areas: {${area}: {extent: 3 ft2}}`, `amount: ${amount}`)

  describe('two applications a year', () => {
    const label = sprayLabel('applications-a-year: 2')
    it.each<[string, string, string[]]>([
      ['two', spray('2026-03-02') + spray('2026-03-12'), []],
      [
        'three',
        spray('2026-03-02') + spray('2026-03-12') + spray('2026-03-19'),
        ['2026-03-19-okafor product error'],
      ],
      [
        'four: told once, at the one that goes over',
        spray('2026-03-02') + spray('2026-03-12') + spray('2026-03-17') + spray('2026-03-19'),
        ['2026-03-17-okafor product error'],
      ],
      // twelve whole months after 19 March 2025 begins a new twelve
      ['twelve months after the first', spray('2025-03-19') + spray('2025-09-19') + spray('2026-03-19'), []],
      [
        'a day before that',
        spray('2025-03-20') + spray('2025-09-19') + spray('2026-03-19'),
        ['2026-03-19-okafor product error'],
      ],
      [
        'two records of one day are one application',
        spray('2026-03-02') +
          spray('2026-03-12') +
          spray('2026-03-12').replace('2026-03-12-okafor.yaml', '2026-03-12-vale.yaml'),
        [],
      ],
      [
        'in three areas: the label may count by place',
        spray('2026-03-02') + spray('2026-03-12', 'room-1') + spray('2026-03-19', 'gym'),
        ['2026-03-19-okafor product warning'],
      ],
      [
        'three in one area and one in another: only the certain one is told',
        spray('2026-03-02') + spray('2026-03-12') + spray('2026-03-17', 'room-1') + spray('2026-03-19'),
        ['2026-03-19-okafor product error'],
      ],
    ])('%s', (_, overlay, expected) => {
      expect(inShort(rule, areas('gym: {kind: public}') + label + overlay)).toEqual(expected)
    })

    it('counts what follows, and only the count over several areas can be excepted', () => {
      const four = spray('2026-03-02') + spray('2026-03-12') + spray('2026-03-17') + spray('2026-03-19')
      const [certain] = problemsOf(rule, label + four)
      expect(certain?.args).toMatchObject({ used: '3 applications', where: 'in `kitchen`', more: 1 })
      expect(certain?.sources.map(({ kind }) => kind)).toEqual(['law'])
      const apart = spray('2026-03-02') + spray('2026-03-12', 'room-1') + spray('2026-03-19', 'gym')
      const [perhaps] = problemsOf(rule, areas('gym: {kind: public}') + label + apart)
      expect(perhaps?.sources.map(({ kind }) => kind)).toEqual(['practice'])
    })

    it('bait in a device is no application', () => {
      const overlay =
        baitLabel('kind: pesticide', '{applications-a-year: 1}') +
        visit('2026-03-12', 'set: {B1: {kind: bait-station, area: kitchen, product: bait-a}}') +
        visit('2026-03-16', 'readings: {B1: {bait-added: 1 g, product: bait-a}}')
      expect(inShort(rule, overlay)).toEqual([])
    })
  })

  describe('1 fl oz a year', () => {
    const label = sprayLabel('amount-a-year: 1 fl oz')
    it.each<[string, string, string[]]>([
      [
        'exactly',
        spray('2026-03-02', 'kitchen', '0.4 fl oz') + spray('2026-03-12', 'room-1', '0.6 fl oz'),
        [],
      ],
      [
        'more, wherever it was used',
        spray('2026-03-02', 'kitchen', '0.4 fl oz') + spray('2026-03-12', 'room-1', '0.600001 fl oz'),
        ['2026-03-12-okafor amount error'],
      ],
      // 1 fl oz is 6 tsp
      [
        'in other units',
        spray('2026-03-02', 'kitchen', '3 tsp') + spray('2026-03-12', 'room-1', '3.01 tsp'),
        ['2026-03-12-okafor amount error'],
      ],
      [
        'a year later',
        spray('2025-03-12', 'kitchen', '0.9 fl oz') + spray('2026-03-12', 'kitchen', '0.9 fl oz'),
        [],
      ],
      [
        'what does not compare is left out, and could only make it more',
        spray('2026-03-02', 'kitchen', '50 oz') + spray('2026-03-12', 'kitchen', '1.1 fl oz'),
        ['2026-03-12-okafor amount error'],
      ],
      ['nothing but what does not compare', spray('2026-03-02', 'kitchen', '50 oz'), []],
      [
        'over, and then within again',
        spray('2025-03-15', 'kitchen', '0.9 fl oz') +
          spray('2026-03-12', 'kitchen', '0.2 fl oz') +
          spray('2026-03-16', 'kitchen', '0.2 fl oz') +
          spray('2026-03-19', 'kitchen', '0.7 fl oz'),
        ['2026-03-12-okafor amount error', '2026-03-19-okafor amount error'],
      ],
    ])('%s', (_, overlay, expected) => {
      expect(inShort(rule, label + overlay)).toEqual(expected)
    })
  })

  it('adds pieces by what one of them weighs', () => {
    const overlay =
      baitLabel('kind: pesticide\nweight-per: {block: 20 g}', '{amount-a-year: 100 g}') +
      visit(
        '2026-03-12',
        'set: {B1: {kind: bait-station, area: kitchen, product: bait-a, bait-added: 4 block}}',
      )
    // 4 × 20 g = 80 g, with 1 block more 100 g, and with another 120 g.
    const more = (on: string) => visit(on, 'readings: {B1: {bait-added: 1 block, product: bait-a}}')
    expect(inShort(rule, overlay + more('2026-03-16'))).toEqual([])
    expect(sentence(rule, overlay + more('2026-03-16') + more('2026-03-18'))).toBe(
      '120 g of Invented Bait A at this site in the twelve months to this one; the label says at most 100 g.',
    )
  })

  it('adds what lies in devices to what was applied', () => {
    const overlay =
      baitLabel('kind: pesticide', '{amount-a-year: 10 g}') +
      baitApplication('2026-03-10', 'amount: 6 g') +
      visit(
        '2026-03-12',
        'set: {B1: {kind: bait-station, area: kitchen, product: bait-a, bait-added: 4 g}}',
      ) +
      visit('2026-03-16', 'readings: {B1: {bait-added: 0.1 g, product: bait-a}}')
    expect(inShort(rule, overlay)).toEqual(['2026-03-16-okafor readings.B1.product error'])
    expect(firstDays(rule, overlay)).toEqual(['2026-03-16'])
    expect(sentence(rule, overlay)).toBe(
      '10.1 g of Invented Bait A at this site in the twelve months to this one; the label says at most 10 g.',
    )
  })
})
