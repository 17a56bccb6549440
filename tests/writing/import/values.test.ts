import { describe, expect, it } from 'vitest'
import { isoOf } from '../../../src/measure/calendar.js'
import { readTime } from '../../../src/writing/import/clock-times.js'
import { dateReader, plainDate } from '../../../src/writing/import/dates.js'
import { compareIds } from '../../../src/writing/import/natural-order.js'
import { readCost, readCount } from '../../../src/writing/import/numbers.js'

function dateAs(format: string, text: string): string {
  const reader = dateReader(format)
  const read = typeof reader === 'function' ? reader(text) : reader
  return 'day' in read ? isoOf(read.day) : whole(read)
}
/** Why, and what to do. */
const whole = ({ refused, todo }: { readonly refused: string; readonly todo?: string }) =>
  todo === undefined ? refused : `${refused} ${todo}`
const plain = (text: string) => {
  const read = plainDate(text)
  return 'day' in read ? isoOf(read.day) : whole(read)
}

describe('dates', () => {
  it.each([
    ['MM/DD/YYYY', '03/04/2026', '2026-03-04'],
    ['DD/MM/YYYY', '03/04/2026', '2026-04-03'],
    ['MM/DD/YYYY', '3/4/2026', '2026-03-04'],
    ['D.M.YYYY', '04.03.2026', '2026-03-04'],
    ['YYYYMMDD', '20260304', '2026-03-04'],
    ['M/D/YY', '3/4/26', '2026-03-04'],
    ['YYYY-MM-DDTHH:mm:ss', '2026-03-04T23:59:59', '2026-03-04'],
    ['DD/MM/YYYY', '29/02/2028', '2028-02-29'],
  ])('%s reads %s as %s', (format, text, expected) => {
    expect(dateAs(format, text)).toBe(expected)
  })

  it.each([
    [
      'MM/DD/YYYY',
      '13/02/2026',
      '`13/02/2026`, read as MM/DD/YYYY, is no date. Correct the cell, or the format in the mapping.',
    ],
    [
      'DD/MM/YYYY',
      '29/02/2026',
      '`29/02/2026`, read as DD/MM/YYYY, is no date. Correct the cell, or the format in the mapping.',
    ],
    [
      'DD/MM/YYYY',
      '2026-03-04',
      '`2026-03-04` is not written as DD/MM/YYYY. Correct the cell, or the format in the mapping.',
    ],
    [
      'YYYYMMDD',
      '2026304',
      '`2026304` is not written as YYYYMMDD. Correct the cell, or the format in the mapping.',
    ],
    [
      'YYYY-MM-DD HH:mm',
      '2026-03-04 24:00',
      '`2026-03-04 24:00`, read as YYYY-MM-DD HH:mm, is no date. Correct the cell, or the format in the mapping.',
    ],
  ])('%s refuses %s', (format, text, expected) => {
    expect(dateAs(format, text)).toBe(expected)
  })

  it.each(['MM/DD', 'YYYY-MM', 'DD/DD/YYYY', 'date', 'YY/MM/DD/YYYY'])(
    '%s is no format of a date',
    (format) => {
      expect(dateAs(format, '2026-03-04')).toContain('has to name year, month and day once each')
    },
  )

  it('without a format, a date that could be two days is refused with both', () => {
    expect(plain('03/04/2026')).toBe(
      '`03/04/2026` could be 2026-03-04 (`format: MM/DD/YYYY`) or 2026-04-03 (`format: DD/MM/YYYY`). Say which in the mapping.',
    )
    expect(plain('01.02.03')).toBe(
      '`01.02.03` could be 2003-01-02 (`format: MM.DD.YY`) or 2003-02-01 (`format: DD.MM.YY`) or 2001-02-03 (`format: YY.MM.DD`). Say which in the mapping.',
    )
  })

  it('and one that could be only one day is not taken for it either', () => {
    expect(plain('2026-03-12')).toBe('2026-03-12')
    expect(plain('02/13/2026')).toBe(
      '`02/13/2026` is not year-month-day. If it is 2026-02-13 (`format: MM/DD/YYYY`), say so in the mapping.',
    )
    expect(plain('46093')).toContain('looks like the day number of a spreadsheet')
    expect(plain('2026-02-30')).toContain('is not a date as 2026-03-12')
    expect(plain('soon')).toContain('is not a date as 2026-03-12')
  })
})

describe('counts', () => {
  it.each([
    ['0', undefined, 0],
    ['12', undefined, 12],
    ['3.0', '.', 3],
    ['3,00', ',', 3],
    ['1000000', undefined, 1_000_000],
  ] as const)('%s, decimal mark %s', (text, decimal, expected) => {
    expect(readCount(text, decimal)).toEqual({ count: expected })
  })

  it.each([
    ['-3', undefined, 'less than none'],
    ['1.5', undefined, 'not a whole number'],
    ['1,5', ',', 'not a whole number'],
    ['1.000', undefined, 'could be 1000 or 1'],
    ['1,000', '.', 'has a mark that is not the decimal one'],
    ['1,234,567', undefined, 'is not a number'],
    ['3.0', undefined, 'say `decimal: "."`'],
    ['=1+2', undefined, 'is a formula'],
    ['@A1', undefined, 'is a formula'],
    ['+A1', undefined, 'is a formula'],
    ['-A1', undefined, 'is a formula'],
    ['+3', undefined, 'has a sign'],
    ['1e3', undefined, 'is not a number'],
    ['٣', undefined, 'is not a number'],
    ['12345678901', undefined, 'is not a number'],
    ['many', undefined, 'is not a number'],
  ] as const)('%s is refused', (text, decimal, why) => {
    const read = readCount(text, decimal)
    expect('refused' in read ? whole(read) : read.count).toEqual(expect.stringContaining(why))
  })

  it('amounts of dollars', () => {
    expect(readCost('84', undefined)).toEqual({ cost: '84 USD' })
    expect(readCost('84.50 USD', undefined)).toEqual({ cost: '84.50 USD' })
    expect(readCost('84,50', ',')).toEqual({ cost: '84.50 USD' })
    expect(costRefused(readCost('84,50', undefined))).toContain('Say `decimal: ","`')
    expect(costRefused(readCost('$84', undefined))).toContain('is not an amount')
    expect(costRefused(readCost('1,200', undefined))).toContain('is not an amount')
  })
})

function costRefused(read: ReturnType<typeof readCost>): string {
  return 'refused' in read ? whole(read) : read.cost
}

it('times of day', () => {
  expect(readTime('9:10')).toEqual({ time: '09:10' })
  expect(readTime('12:05 AM')).toEqual({ time: '00:05' })
  expect(readTime('12:05 pm')).toEqual({ time: '12:05' })
  expect(readTime('9:10:30 p.m.')).toEqual({ time: '21:10' })
  for (const wrong of ['24:00', '13:00 PM', '0:30 AM', '9:60', '910', ''])
    expect(readTime(wrong)).toEqual({ refused: expect.stringContaining('is not a time of day') })
})

it('ids in the order people read them', () => {
  expect(['K10', 'K2', 'P1', 'K2b', 'K', 'K02'].sort(compareIds)).toEqual([
    'K',
    'K02',
    'K2',
    'K2b',
    'K10',
    'P1',
  ])
})
