import { describe, expect, it } from 'vitest'
import type { DoseRoute, RequiredWord, ToxicityCategory, ToxicityTable } from '../../src/measure/toxicity.js'
import {
  categoryOfDose,
  categoryOfEyeClearing,
  categoryOfEyeEffect,
  categoryOfSkinEffect,
  eyeEffects,
  isLesserWord,
  requiredSignalWord,
  skinEffects,
} from '../../src/measure/toxicity.js'

type Boundaries = readonly (readonly [DoseRoute, number, ToxicityCategory])[]

/** At each upper limit, and just above it. */
const tables: readonly (readonly [string, ToxicityTable, Boundaries])[] = [
  [
    '40 CFR 156.62, read in reprints; upper limits included, from memory',
    '40 CFR 156.62',
    [
      ['oral', 0, 'I'],
      ['oral', 50, 'I'],
      ['oral', 50.01, 'II'],
      ['oral', 500, 'II'],
      ['oral', 500.01, 'III'],
      ['oral', 5000, 'III'],
      ['oral', 5000.1, 'IV'],
      ['dermal', 200, 'I'],
      ['dermal', 200.01, 'II'],
      ['dermal', 2000, 'II'],
      ['dermal', 2000.1, 'III'],
      ['dermal', 5000.1, 'III'],
      ['dermal', 20_000, 'III'],
      ['dermal', 20_000.1, 'IV'],
      ['inhalation', 0.2, 'I'],
      ['inhalation', 0.201, 'II'],
      ['inhalation', 2, 'II'],
      ['inhalation', 2.01, 'III'],
      ['inhalation', 20, 'III'],
      ['inhalation', 20.1, 'IV'],
    ],
  ],
  [
    'EPA Label Review Manual, chapter 7, from memory',
    'Label Review Manual, chapter 7',
    [
      ['oral', 50, 'I'],
      ['oral', 50.01, 'II'],
      ['oral', 500, 'II'],
      ['oral', 500.01, 'III'],
      ['oral', 5000, 'III'],
      ['oral', 5000.1, 'IV'],
      ['dermal', 200, 'I'],
      ['dermal', 200.01, 'II'],
      ['dermal', 2000, 'II'],
      ['dermal', 2000.1, 'III'],
      ['dermal', 5000, 'III'],
      ['dermal', 5000.1, 'IV'],
      ['inhalation', 0.05, 'I'],
      ['inhalation', 0.051, 'II'],
      ['inhalation', 0.5, 'II'],
      ['inhalation', 0.501, 'III'],
      ['inhalation', 2, 'III'],
      ['inhalation', 2.01, 'IV'],
    ],
  ],
]

describe.each(tables)('%s', (_, table, boundaries) => {
  it.each(boundaries)('%s %d is %s', (route, value, category) => {
    expect(categoryOfDose(table, route, value)).toBe(category)
  })

  it('a value that is no dose has no category', () => {
    expect([-1, Number.NaN].map((value) => categoryOfDose(table, 'oral', value))).toEqual([null, null])
  })
})

describe('the two tables differ, so that one is always named', () => {
  it.each<[DoseRoute, number, ToxicityCategory, ToxicityCategory]>([
    ['dermal', 10_000, 'III', 'IV'],
    ['inhalation', 0.1, 'I', 'II'],
    ['inhalation', 1, 'II', 'III'],
    ['inhalation', 10, 'III', 'IV'],
  ])('%s %d', (route, value, regulation, manual) => {
    expect(categoryOfDose('40 CFR 156.62', route, value)).toBe(regulation)
    expect(categoryOfDose('Label Review Manual, chapter 7', route, value)).toBe(manual)
  })
})

describe('eye and skin', () => {
  it('40 CFR 156.62, read in reprints', () => {
    expect(eyeEffects).toEqual({
      corrosive: 'I',
      'opacity not reversible within 7 days': 'I',
      'opacity reversible within 7 days': 'II',
      'irritation persisting for 7 days': 'II',
      'irritation reversible within 7 days, no opacity': 'III',
      'no irritation': 'IV',
    })
    expect(categoryOfEyeEffect('irritation persisting for 7 days')).toBe('II')
    expect(Object.values(skinEffects)).toEqual(['I', 'II', 'III', 'IV'])
    expect(categoryOfSkinEffect('severe irritation at 72 hours')).toBe('II')
  })

  // Label Review Manual, chapter 7, from memory: clears in less than 24 hours, in up to 7 days, in 8 to 21 days, later.
  it.each<[number | 'corrosive', ToxicityCategory | null]>([
    [0, 'IV'],
    [1, 'III'],
    [7, 'III'],
    [8, 'II'],
    [21, 'II'],
    [22, 'I'],
    ['corrosive', 'I'],
    [-1, null],
    [7.5, null],
  ])('an eye that clears after %s days', (days, category) => {
    expect(categoryOfEyeClearing(days)).toBe(category)
  })
})

// 40 CFR 156.64(a), read.
describe('the signal word of the worst route', () => {
  it.each<[Parameters<typeof requiredSignalWord>[0], RequiredWord | null]>([
    [{ oral: 'I' }, 'danger-poison'],
    [{ dermal: 'I', oral: 'IV' }, 'danger-poison'],
    [{ inhalation: 'I', eye: 'I' }, 'danger-poison'],
    [{ eye: 'I', oral: 'II' }, 'danger'],
    [{ skin: 'I' }, 'danger'],
    [{ oral: 'II', eye: 'III' }, 'warning'],
    [{ oral: 'IV', eye: 'III' }, 'caution'],
    [{ oral: 'IV', dermal: 'IV', inhalation: 'IV', eye: 'IV', skin: 'IV' }, 'none'],
    [{}, null],
    [{ oral: undefined }, null],
  ])('%j', (categories, word) => {
    expect(requiredSignalWord(categories)).toBe(word)
  })

  it('none is less than caution, caution than warning, warning than danger, danger than danger with poison', () => {
    const words: RequiredWord[] = ['none', 'caution', 'warning', 'danger', 'danger-poison']
    words.forEach((word, at) => {
      expect(words.map((other) => isLesserWord(other, word))).toEqual(words.map((_, other) => other < at))
    })
  })
})
