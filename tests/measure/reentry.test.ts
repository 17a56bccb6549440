import { describe, expect, it } from 'vitest'
import { combinedWait, durationText, longer, minutesIn } from '../../src/measure/reentry.js'

const hours = (number: number) => number * 60

describe('a label and a rule together', () => {
  it.each<[string, number | undefined, number | undefined, number | undefined]>([
    // N.J.S.A. 13:1F-29a: the re-entry time in hours on the label; where the label has none, seven hours.
    ['no number on the label', hours(7), undefined, hours(7)],
    ['a shorter one on the label', hours(7), hours(4), hours(4)],
    ['a longer one on the label', hours(7), hours(12), hours(12)],
    ['the same', hours(7), hours(7), hours(7)],
    // A number of zero is a number.
    ['the label says 0 h', hours(7), 0, 0],
    ['a rule that only points to the label', undefined, hours(4), hours(4)],
    ['neither gives a number', undefined, undefined, undefined],
  ])('New Jersey, the label instead: %s', (_, rule, label, expected) => {
    expect(combinedWait(rule, label, 'instead')).toBe(expected)
  })

  it.each<[string, number | undefined, number | undefined, number | undefined]>([
    // 7 Pa. Code 128.106(a): seven hours, or the time on the label where that is greater.
    ['no number on the label', hours(7), undefined, hours(7)],
    ['a shorter one on the label', hours(7), hours(4), hours(7)],
    ['a longer one on the label', hours(7), hours(12), hours(12)],
    ['one minute longer', hours(7), hours(7) + 1, hours(7) + 1],
    ['only the label', undefined, hours(4), hours(4)],
    ['neither gives a number', undefined, undefined, undefined],
  ])('Pennsylvania, the greater of both: %s', (_, rule, label, expected) => {
    expect(combinedWait(rule, label, 'if longer')).toBe(expected)
  })

  it.each<[string, number | undefined, number]>([
    // 225 ILCS 10/5.6, day care: two hours, or the time on the label where that is greater.
    ['no number on the label', undefined, 120],
    ['a shorter one on the label', 30, 120],
    ['a longer one on the label', 240, 240],
  ])('Illinois day care, the greater of both: %s', (_, label, expected) => {
    expect(combinedWait(hours(2), label, 'if longer')).toBe(expected)
  })
})

it('of two times the longer one counts, or the only one', () => {
  expect([longer(30, 120), longer(120, 30), longer(undefined, 30), longer(30, undefined)]).toEqual([
    120, 120, 30, 30,
  ])
  expect(longer(undefined, undefined)).toBeUndefined()
})

describe('times as written', () => {
  it.each([
    ['30 min', 30],
    ['7 h', 420],
    ['1.5 h', 90],
    // 0.1 h is six minutes, although a tenth is no binary fraction.
    ['0.1 h', 6],
    ['0 h', 0],
  ])('%s', (text, minutes) => expect(minutesIn(text)).toBe(minutes))

  it.each(['until dry', 'yes', '', '7', '2 months', '3 ft'])('`%s` never becomes hours', (text) => {
    expect(minutesIn(text)).toBeUndefined()
  })

  it.each([
    [390, '6 h 30 min'],
    [420, '7 h'],
    [25, '25 min'],
    [0, '0 min'],
    // 19.8 minutes are 20, as a clock shows them.
    [19.8, '20 min'],
    [59.9, '1 h'],
  ])('%d minutes are written %s', (minutes, text) => expect(durationText(minutes)).toBe(text))
})
