import { describe, expect, it } from 'vitest'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { adopted, inShort, problemsOf, product, sentence, visit } from './label-examples.js'

describe('same-mode-of-action', () => {
  const rule = 'same-mode-of-action'
  const only = (id: string) => `active-ingredients: {${id}: {strength: 0.1 %}}`
  const says = '{places: [indoors]}'
  const spray = (day: string, id = 'spray-a', ...lines: string[]) =>
    sprayApplication(day, `product: ${id}`, ...lines)

  it.each<[string, string, string[]]>([
    ['two months', spray('2026-02-12') + spray('2026-03-19'), []],
    [
      'three months running, by the calendar and not by days',
      spray('2026-01-31') + spray('2026-02-01') + spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'told at the first treatment of the third month, and once',
      spray('2026-01-15') + spray('2026-02-12') + spray('2026-03-02') + spray('2026-03-19'),
      ['2026-03-02-okafor product note'],
    ],
    ['three times in two months', spray('2026-02-12') + spray('2026-03-02') + spray('2026-03-19'), []],
    ['a month between', spray('2025-12-15') + spray('2026-02-12') + spray('2026-03-19'), []],
    [
      'over the turn of the year',
      spray('2025-12-15') + spray('2026-01-12') + spray('2026-02-12') + spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'another area',
      spray('2026-01-15') + spray('2026-02-12', 'spray-a', 'areas: {room-1: {}}') + spray('2026-03-19'),
      [],
    ],
    [
      'another pest',
      spray('2026-01-15') + spray('2026-02-12', 'spray-a', 'pest: pavement-ant') + spray('2026-03-19'),
      [],
    ],
    [
      'against the same pest beside another',
      spray('2026-01-15') +
        spray('2026-02-12', 'spray-a', 'pest: pavement-ant', 'also-against: [german-cockroach]') +
        spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'another product of the same group',
      product('other-a', only('bifenthrin'), says) +
        spray('2026-01-15') +
        spray('2026-02-12', 'other-a') +
        spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      // 4A and 4D are one main group
      'a subgroup of the same main group',
      product('four-a', only('imidacloprid'), says) +
        product('four-d', only('flupyradifurone'), says) +
        spray('2026-01-15', 'four-a') +
        spray('2026-02-12', 'four-d') +
        spray('2026-03-19', 'four-a'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'another group in between',
      product('other-a', only('indoxacarb'), says) +
        spray('2026-01-15') +
        spray('2026-02-12', 'other-a') +
        spray('2026-03-19'),
      [],
    ],
    [
      'one active ingredient of two is enough',
      product(
        'both',
        'active-ingredients: {deltamethrin: {strength: 1 %}, imidacloprid: {strength: 1 %}}',
        says,
      ) +
        spray('2026-01-15') +
        spray('2026-02-12', 'both') +
        spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'the group printed on the label wins over the table',
      product('other-a', 'active-ingredients: {deltamethrin: {strength: 1 %, mode-of-action: 22A}}', says) +
        spray('2026-01-15') +
        spray('2026-02-12', 'other-a') +
        spray('2026-03-19'),
      [],
    ],
    [
      'an ingredient that the table does not know, by the group on its label',
      product('new', 'active-ingredients: {novelthrin: {strength: 1 %, mode-of-action: 3A}}', says) +
        spray('2026-01-15') +
        spray('2026-02-12', 'new') +
        spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
    [
      'boric acid',
      baitApplication('2026-01-15') + baitApplication('2026-02-12') + baitApplication('2026-03-19'),
      [],
    ],
    [
      'diatomaceous earth',
      product('dust', only('diatomaceous-earth'), says) +
        ['2026-01-15', '2026-02-12', '2026-03-19'].map((day) => spray(day, 'dust')).join(''),
      [],
    ],
    [
      'a rodenticide',
      product('block', only('bromadiolone'), says) +
        ['2026-01-15', '2026-02-12', '2026-03-19']
          .map((day) => spray(day, 'block', 'pest: house-mouse'))
          .join(''),
      [],
    ],
    [
      'a pest that was not identified is not known to be the same',
      ['2026-01-15', '2026-02-12', '2026-03-19']
        .map((day) => spray(day, 'spray-a', 'pest: unidentified'))
        .join(''),
      [],
    ],
    [
      'bait in a device counts too',
      product('gel', `${only('indoxacarb')}\nformulation: gel`, says) +
        spray('2026-01-15', 'gel') +
        visit(
          '2026-02-12',
          'set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: gel, bait-added: 1 g}}',
        ) +
        visit('2026-03-19', 'readings: {B1: {bait-added: 1 g, product: gel}}'),
      ['2026-03-19-okafor readings.B1.product note'],
    ],
    [
      'a longer run that the records begin in',
      spray('2025-11-15') +
        spray('2025-12-15') +
        spray('2026-01-15') +
        spray('2026-02-12') +
        spray('2026-03-19'),
      ['2026-03-19-okafor product note'],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(inShort(rule, overlay)).toEqual(expected)
  })

  it('is a warning where the district adopted it, with its own number', () => {
    const two = spray('2026-02-12') + spray('2026-03-19')
    expect(inShort(rule, adopted('mode-of-action.months', '2') + two)).toEqual([
      '2026-03-19-okafor product warning',
    ])
  })

  it('names what was the same', () => {
    const both = 'areas: {kitchen: {}, room-1: {}}'
    const overlay = ['2026-01-15', '2026-02-12', '2026-03-19']
      .map((day) => spray(day, 'spray-a', both))
      .join('')
    expect(sentence(rule, overlay)).toBe(
      'Mode of action group 3 has now been used against German cockroach in `kitchen`, `room-1` in 3 calendar months running.',
    )
    expect(problemsOf(rule, overlay)).toHaveLength(1)
  })
})
