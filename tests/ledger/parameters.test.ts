import { describe, expect, it } from 'vitest'
import { amountOf, daysOf } from '../../src/ledger/parameters.js'
import { day, districtIn } from './small-site.js'

const rulebook = (parameters: string) => `
title: An invented rulebook
jurisdiction: nowhere
read-on: 2026-01-01
covers: what this test asks
does-not-cover: [everything else]
parameters: {${parameters}}
`

const value = (text: string, source: string, kind = 'practice', dates = 'from: 2026-01-01') =>
  `{${dates}, value: ${text}, source: ${source}, kind: ${kind}, confidence: no source}`

const district = (rulebooks: string) => `
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: ${rulebooks}
calendar: []
`

const three = districtIn({
  'district.yaml': district(
    '[{from: 2026-01-01, rulebook: loose}, {from: 2026-02-01, until: 2026-03-31, rulebook: strict}, {from: 2026-01-01, rulebook: third}]',
  ),
  'rulebooks/loose.yaml': rulebook(
    `check.snap-trap: [${value('2 weeks', 'loose')}], notice.days: [${value('1 day', 'loose')}]`,
  ),
  'rulebooks/strict.yaml': rulebook(
    `check.snap-trap: [${value('3 days', 'strict', 'law')}], notice.days: [${value('72 days', 'strict', 'law')}]`,
  ),
  'rulebooks/third.yaml': rulebook(`check.snap-trap: [${value('14 days', 'other', 'standard')}]`),
}).parameters

describe('where several rulebooks speak', () => {
  it('the strictest wins, and all are cited in the order of the district', () => {
    expect(three('check.snap-trap', day('2026-02-15'))).toEqual({
      value: '3 days',
      sources: [
        { kind: 'practice', text: 'loose' },
        { kind: 'law', text: 'strict' },
        { kind: 'standard', text: 'other' },
      ],
    })
  })

  it('the most wins where more is stricter', () => {
    expect(three('notice.days', day('2026-02-15'), 'most')?.value).toBe('72 days')
    expect(three('notice.days', day('2026-02-15'), 'least')?.value).toBe('1 day')
  })

  it('each speaks only on the days it is in force; both ends are in', () => {
    const valueOn = (date: string) => three('check.snap-trap', day(date))?.value
    // Two weeks and 14 days are one length: the first in order stays.
    expect(valueOn('2026-01-31')).toBe('2 weeks')
    expect(valueOn('2026-02-01')).toBe('3 days')
    expect(valueOn('2026-03-31')).toBe('3 days')
    expect(valueOn('2026-04-01')).toBe('2 weeks')
    expect(three('check.snap-trap', day('2026-01-31'))?.sources.map(({ text }) => text)).toEqual([
      'loose',
      'other',
    ])
  })

  it.each([
    // 5 m are 16.4 ft; 3 m are 9.8 ft.
    ['15 ft', '5 m', '15 ft'],
    ['15 ft', '3 m', '3 m'],
    // 72 h are 3 days.
    ['2 days', '72 h', '2 days'],
    ['4 days', '72 h', '72 h'],
    ['2', '10', '2'],
  ])('the least of %s and %s is %s: units are weighed, not only numbers', (one, two, least) => {
    const { parameters } = districtIn({
      'district.yaml': district('[{from: 2026-01-01, rulebook: one}, {from: 2026-01-01, rulebook: two}]'),
      'rulebooks/one.yaml': rulebook(`run.spacing: [${value(one, 'one')}]`),
      'rulebooks/two.yaml': rulebook(`run.spacing: [${value(two, 'two')}]`),
    })
    const on = day('2026-02-01')
    expect(String(parameters('run.spacing', on)?.value)).toBe(least)
    expect(String(parameters('run.spacing', on, 'most')?.value)).toBe(least === one ? two : one)
  })

  it('none speaks before any is in force, or of what none knows', () => {
    expect(three('check.snap-trap', day('2025-12-31'))).toBeUndefined()
    expect(three('check.no-such-thing', day('2026-02-15'))).toBeUndefined()
    // Asked again, from memory.
    expect(three('check.no-such-thing', day('2026-02-15'))).toBeUndefined()
  })
})

describe('a value', () => {
  it('is dated: a day is judged by what held then', () => {
    const { parameters } = districtIn({
      'district.yaml': district('[{from: 2026-01-01, rulebook: own}]'),
      'rulebooks/own.yaml': rulebook(
        `check.snap-trap: [${value('7 days', 'old', 'law', 'from: 2020-01-01, until: 2026-02-28')}, ${value('2 days', 'new', 'law', 'from: 2026-03-01')}]`,
      ),
    })
    expect(parameters('check.snap-trap', day('2026-02-28'))?.value).toBe('7 days')
    expect(parameters('check.snap-trap', day('2026-03-01'))?.value).toBe('2 days')
    expect(parameters('check.snap-trap', day('2026-03-01'))?.sources).toEqual([{ kind: 'law', text: 'new' }])
  })

  it('comes from the rulebooks of the program too, and the own one of the same name takes its place', () => {
    const practice = districtIn({ 'district.yaml': district('[{from: 2026-01-01, rulebook: practice}]') })
    expect(practice.parameters('check.snap-trap', day('2026-02-01'))?.value).toBe('1 day')
    const own = districtIn({
      'district.yaml': district('[{from: 2026-01-01, rulebook: practice}]'),
      'rulebooks/practice.yaml': rulebook(`check.snap-trap: [${value('4 days', 'own')}]`),
    })
    expect(own.parameters('check.snap-trap', day('2026-02-01'))?.value).toBe('4 days')
  })
})

it('amounts compare as days, as numbers and as duties', () => {
  expect([daysOf('14 days'), daysOf('2 weeks'), daysOf('1 week'), daysOf(5), daysOf('3 ft')]).toEqual([
    14,
    14,
    7,
    5,
    null,
  ])
  expect([amountOf('15 ft'), amountOf(2), amountOf('1.5 weeks'), amountOf('yes'), amountOf('no')]).toEqual([
    15, 2, 10.5, 1, 0,
  ])
})

it.each([
  ['730 days', '3 years', '730 days'],
  ['1 year', '13 months', '1 year'],
  ['40 days', '1 month', '1 month'],
  ['4 weeks', '1 month', '4 weeks'],
])('of %s and %s the shorter is the strictest: %s', (one, other, shorter) => {
  const both = districtIn({
    'district.yaml': district('[{from: 2026-01-01, rulebook: one}, {from: 2026-01-01, rulebook: second}]'),
    'rulebooks/one.yaml': rulebook(`sds.age: [${value(one, 'one')}]`),
    'rulebooks/second.yaml': rulebook(`sds.age: [${value(other, 'other')}]`),
  }).parameters
  expect(both('sds.age', day('2026-02-15'))?.value).toBe(shorter)
})
