import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  addMonths,
  civilOf,
  dayOf,
  firstOfMonth,
  isoOf,
  lastOfMonth,
  minutesOf,
  monthOf,
  weekdayOf,
} from '../../src/measure/calendar.js'

const MILLISECONDS_PER_DAY = 86_400_000
const FIRST_DAY = Date.UTC(1900, 0, 1) / MILLISECONDS_PER_DAY
const LAST_DAY = Date.UTC(2199, 11, 31) / MILLISECONDS_PER_DAY

/** What the language's own calendar says of a day. */
function byDate(day: number): Date {
  return new Date(day * MILLISECONDS_PER_DAY)
}

describe('against the calendar of the language', () => {
  test('every day from 1900 to 2199', () => {
    for (let day = FIRST_DAY; day <= LAST_DAY; day += 1) {
      const date = byDate(day)
      const iso = date.toISOString().slice(0, 10)
      if (isoOf(day) !== iso || dayOf(iso) !== day || monthOf(day) !== iso.slice(0, 7))
        expect(isoOf(day)).toBe(iso)
      if (weekdayOf(day) !== (date.getUTCDay() || 7))
        expect([day, weekdayOf(day)]).toEqual([day, date.getUTCDay()])
    }
    expect(dayOf('1900-01-01')).toBe(FIRST_DAY)
    expect(dayOf('2199-12-31')).toBe(LAST_DAY)
  })

  const days = fc.integer({ min: FIRST_DAY, max: LAST_DAY })

  test('first and last of the month', () => {
    fc.assert(
      fc.property(days, (day) => {
        const year = byDate(day).getUTCFullYear()
        const month = byDate(day).getUTCMonth()
        expect(firstOfMonth(day)).toBe(Date.UTC(year, month, 1) / MILLISECONDS_PER_DAY)
        expect(lastOfMonth(day)).toBe(Date.UTC(year, month + 1, 0) / MILLISECONDS_PER_DAY)
      }),
    )
  })

  test('months later or earlier, kept within the month', () => {
    fc.assert(
      fc.property(days, fc.integer({ min: -1200, max: 1200 }), (day, months) => {
        const date = byDate(day)
        const month = date.getUTCMonth() + months
        const last = new Date(Date.UTC(date.getUTCFullYear(), month + 1, 0)).getUTCDate()
        const expected = Date.UTC(date.getUTCFullYear(), month, Math.min(date.getUTCDate(), last))
        expect(addMonths(day, months)).toBe(expected / MILLISECONDS_PER_DAY)
      }),
    )
  })

  test('any ten characters: a day exactly when they are that day written out', () => {
    const digits = fc.string({ unit: fc.constantFrom(...'0123456789-'), minLength: 10, maxLength: 10 })
    const plausible = fc
      .tuple(
        fc.integer({ min: 1880, max: 2220 }),
        fc.integer({ min: 0, max: 13 }),
        fc.integer({ min: 0, max: 32 }),
      )
      .map(([y, m, d]) => `${y}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`)
    fc.assert(
      fc.property(fc.oneof(digits, plausible), (text) => {
        const time = Date.parse(`${text}T00:00:00Z`)
        const exists = !Number.isNaN(time) && new Date(time).toISOString().slice(0, 10) === text
        const inRange = exists && text >= '1900-01-01' && text <= '2199-12-31'
        expect(dayOf(text)).toBe(inRange ? time / MILLISECONDS_PER_DAY : null)
      }),
      { numRuns: 2000 },
    )
  })
})

describe('dayOf refuses', () => {
  test.each([
    '2026-02-30',
    '2026-02-29',
    '2100-02-29',
    '2026-13-01',
    '2026-00-10',
    '2026-01-00',
    '2026-1-01',
    '26-01-01',
    '2026/01/01',
    '2026-01-01 ',
    ' 2026-01-1',
    '1899-12-31',
    '2200-01-01',
    '٢٠٢٦-01-01',
    '2026-0x-01',
    '',
  ])('%j', (text) => {
    expect(dayOf(text)).toBeNull()
  })
})

test('well-known days', () => {
  expect(dayOf('1970-01-01')).toBe(0)
  expect(weekdayOf(0)).toBe(4)
  expect(dayOf('2000-02-29')).toBe(11_016)
  expect(civilOf(-719_468)).toEqual({ year: 0, month: 3, dayOfMonth: 1 })
  expect(isoOf(addMonths(dayOf('2024-01-31') ?? 0, 1))).toBe('2024-02-29')
  expect(isoOf(addMonths(dayOf('2024-02-29') ?? 0, 12))).toBe('2025-02-28')
  expect(isoOf(addMonths(dayOf('2026-01-15') ?? 0, -1))).toBe('2025-12-15')
})

describe('minutesOf', () => {
  test('every minute of a day', () => {
    for (let minute = 0; minute < 1440; minute += 1) {
      const text = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`
      expect(minutesOf(text)).toBe(minute)
    }
  })

  test.each(['24:00', '6:10', '06:60', '06.10', '06:1', '0610', '06:10 ', '-1:10', ''])(
    'refuses %j',
    (text) => {
      expect(minutesOf(text)).toBeNull()
    },
  )
})
