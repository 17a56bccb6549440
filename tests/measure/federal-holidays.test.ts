import { describe, expect, it } from 'vitest'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { federalHolidayOn, isBusinessDay } from '../../src/measure/federal-holidays.js'

const day = (date: string) => dayOf(date) ?? Number.NaN

function observedFrom(first: string, last: string): string[] {
  const found: string[] = []
  for (let at = day(first); at <= day(last); at++) {
    const holiday = federalHolidayOn(at)
    if (holiday !== undefined) found.push(`${isoOf(at)} ${holiday}`)
  }
  return found
}

describe('federal holidays', () => {
  // By hand from 5 U.S.C. 6103(a). 2026-01-01 is a Thursday. January 5, 12, 19 are Mondays; February 2, 9, 16; May 4, 11,
  // 18, 25 (the last); July 4 is a Saturday, so Friday July 3; September 7; October 5, 12; November 5, 12, 19, 26 are
  // Thursdays.
  it('are these eleven days of 2026', () => {
    expect(observedFrom('2026-01-01', '2026-12-31')).toEqual([
      "2026-01-01 New Year's Day",
      '2026-01-19 Birthday of Martin Luther King, Jr.',
      "2026-02-16 Washington's Birthday",
      '2026-05-25 Memorial Day',
      '2026-06-19 Juneteenth National Independence Day',
      '2026-07-03 Independence Day',
      '2026-09-07 Labor Day',
      '2026-10-12 Columbus Day',
      '2026-11-11 Veterans Day',
      '2026-11-26 Thanksgiving Day',
      '2026-12-25 Christmas Day',
    ])
  })

  it.each<[string, string, string | undefined]>([
    // 2022-01-01 is a Saturday: the Friday before lies in the year before.
    ["New Year's Day 2022", '2021-12-31', "New Year's Day"],
    ['the Saturday itself is observed on the Friday', '2022-01-01', undefined],
    // 2023-01-01 is a Sunday: the Monday after.
    ["New Year's Day 2023", '2023-01-02', "New Year's Day"],
    // 2027-12-31 is a Friday and 2028-01-01 a Saturday.
    ["New Year's Day 2028", '2027-12-31', "New Year's Day"],
    // 2022-12-25 and 2022-06-19 are Sundays.
    ['Christmas Day 2022', '2022-12-26', 'Christmas Day'],
    ['Juneteenth 2022', '2022-06-20', 'Juneteenth National Independence Day'],
    // Signed on Thursday 2021-06-17; 2021-06-19 was a Saturday, so the next day was the first one observed.
    ['the first Juneteenth', '2021-06-18', 'Juneteenth National Independence Day'],
    ['no Juneteenth before', '2020-06-19', undefined],
    // 2021-07-04 was a Sunday.
    ['Independence Day 2021', '2021-07-05', 'Independence Day'],
    // November 2029 begins on a Thursday: 1, 8, 15, 22.
    ['Thanksgiving Day, as early as it can be', '2029-11-22', 'Thanksgiving Day'],
    // November 2030 begins on a Friday: Thursdays 7, 14, 21, 28.
    ['Thanksgiving Day, as late as it can be', '2030-11-28', 'Thanksgiving Day'],
    // May 2027 ends on a Monday.
    ['Memorial Day on the 31st', '2027-05-31', 'Memorial Day'],
    ['the Friday after Thanksgiving is none', '2026-11-27', undefined],
    // 2025-01-20 was Inauguration Day and the third Monday.
    ['the third Monday of January', '2025-01-20', 'Birthday of Martin Luther King, Jr.'],
    ['Inauguration Day on another day is none', '2029-01-19', undefined],
  ])('%s', (_, date, name) => {
    expect(federalHolidayOn(day(date))).toBe(name)
  })

  it('are no business days, nor are Saturdays and Sundays', () => {
    // Monday 2026-11-23 to Sunday 2026-11-29, with Thanksgiving on the Thursday.
    const week = [23, 24, 25, 26, 27, 28, 29].map((date) => isBusinessDay(day(`2026-11-${date}`)))
    expect(week).toEqual([true, true, true, false, true, false, false])
  })
})
