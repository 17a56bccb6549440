import { describe, expect, it } from 'vitest'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { earliestDiscardDay, lastDayOf, monthsIn, oldestKeptOn } from '../../src/measure/retention.js'

const day = (text: string) => dayOf(text) ?? Number.NaN
const earliest = (from: string, keep: string) =>
  isoOf(earliestDiscardDay(day(from), monthsIn(keep) ?? Number.NaN))

describe('earliestDiscardDay', () => {
  it.each<[string, string, string, string]>([
    // Two years from the date: 15 March 2026 is the last day of them.
    ['7 CFR 110.3(d), restricted use', '2024-03-15', '2 years', '2026-03-16'],
    ['the same, on a leap day: the later of 28 February and 1 March', '2024-02-29', '2 years', '2026-03-01'],
    ['the day before a leap day', '2024-02-28', '2 years', '2026-03-01'],
    ['the day after it', '2024-03-01', '2 years', '2026-03-02'],
    ['from one leap day to the next', '2024-02-29', '4 years', '2028-03-01'],
    ['from 28 February into a leap year', '2026-02-28', '2 years', '2028-02-29'],
    ['N.J.S.A. 13:1F-24a', '2023-06-30', '3 years', '2026-07-01'],
    ['N.J.S.A. 13:1F-24a, against termites', '2021-12-31', '5 years', '2027-01-01'],
    [
      '29 CFR 1910.1020(d)(1)(ii)(B), from memory: safety data sheets',
      '1996-02-29',
      '30 years',
      '2026-03-01',
    ],
    ['months that end on the 30th', '2025-08-31', '18 months', '2027-03-01'],
  ])('%s: of %s, kept for %s, from %s', (_, from, keep, expected) => {
    expect(earliest(from, keep)).toBe(expected)
  })

  it('never grows earlier from one day to the next', () => {
    for (let from = day('2023-12-01'); from < day('2025-04-01'); from++)
      expect(earliestDiscardDay(from + 1, 24)).toBeGreaterThanOrEqual(earliestDiscardDay(from, 24))
  })
})

describe('lastDayOf', () => {
  it('is the same day of the month, or the last one of a shorter month', () => {
    expect(isoOf(lastDayOf(day('2025-09-12'), 6))).toBe('2026-03-12')
    expect(isoOf(lastDayOf(day('2025-08-31'), 6))).toBe('2026-02-28')
  })
})

describe('monthsIn', () => {
  it.each<[string, number | null]>([
    ['2 years', 24],
    ['1 year', 12],
    ['6 months', 6],
    ['1.5 years', 18],
    // 0.1 of a year is 1.2 months, so that two have begun.
    ['0.1 years', 2],
    ['30 days', null],
    ['two years', null],
    ['', null],
  ])('%s', (text, expected) => {
    expect(monthsIn(text)).toBe(expected)
  })
})

describe('oldestKeptOn', () => {
  it.each([
    // The last day is one of them: two years from 2024-03-15 last through 2026-03-15.
    ['2026-03-15', 24, '2024-03-15'],
    ['2026-03-14', 24, '2024-03-14'],
    // From 29 February through 28 February: on 1 March that is over, and 1 March is the oldest.
    ['2026-02-28', 24, '2024-02-28'],
    ['2026-03-01', 24, '2024-03-01'],
    // One month from 28, 29, 30 and 31 January all last through 28 February.
    ['2026-02-28', 1, '2026-01-28'],
    ['2026-03-31', 1, '2026-03-01'],
  ])('on %s, for %i months, is %s', (on, months, oldest) => {
    expect(oldestKeptOn(day(on), months)).toBe(day(oldest))
  })
})
