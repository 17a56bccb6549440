import { describe, expect, it } from 'vitest'
import { dayOf as dayOfText, weekdayOf } from '../../../src/measure/calendar.js'
import { dateText, dayOf, nthWeekday, pacificOffset, weekdays } from '../../../src/writing/demo/days.js'
import { schoolCalendar, schoolYear } from '../../../src/writing/demo/school-calendar.js'

const day = (text: string) => dayOfText(text) ?? Number.NaN

describe('days of the district', () => {
  it('carries months over the end of a year', () => {
    expect(dateText(dayOf(2025, 13, 1))).toBe('2026-01-01')
    expect(dateText(dayOf(2024, 2, 29))).toBe('2024-02-29')
  })

  it('counts weekdays of a month from both ends', () => {
    // Thanksgiving of 2025 is 27 November, Memorial Day of 2026 is 25 May (5 U.S.C. 6103).
    expect(dateText(nthWeekday(2025, 11, weekdays.thursday, 4))).toBe('2025-11-27')
    expect(dateText(nthWeekday(2026, 5, weekdays.monday, -1))).toBe('2026-05-25')
    expect(dateText(nthWeekday(2026, 2, weekdays.sunday, 1))).toBe('2026-02-01')
  })

  it('has summer time from the second Sunday of March to the first of November', () => {
    expect(pacificOffset(day('2026-03-07'))).toBe(-480)
    expect(pacificOffset(day('2026-03-08'))).toBe(-420)
    expect(pacificOffset(day('2026-10-31'))).toBe(-420)
    expect(pacificOffset(day('2026-11-01'))).toBe(-480)
  })
})

describe('the school year', () => {
  it('begins after Labor Day and ends on a Friday in June, for a lifetime of years', () => {
    for (let autumn = 1990; autumn < 2060; autumn++) {
      const year = schoolYear(autumn)
      expect(weekdayOf(year.from)).toBe(2)
      expect(weekdayOf(year.until)).toBe(5)
      for (const { first, last } of year.closures) {
        expect(first >= year.from && last <= year.until && first <= last).toBe(true)
        expect(weekdayOf(first) <= 5 && weekdayOf(last) <= 5).toBe(true)
      }
      const winter = year.closures.find((closure) => closure.name === 'winter-break')
      const christmas = dayOf(autumn, 12, 25)
      // On a Saturday or Sunday, Christmas lies in the weekend after the first week of the break.
      expect(winter && winter.first <= christmas && christmas <= winter.last).toBe(true)
    }
  })

  it('knows school days from closures, weekends and recess', () => {
    const calendar = schoolCalendar(day('2025-07-01'), day('2026-06-30'))
    const school = (text: string) => calendar.isSchoolDay(day(text))
    expect(school('2025-09-01')).toBe(false)
    expect(school('2025-09-02')).toBe(true)
    expect(school('2025-11-28')).toBe(false)
    expect(school('2026-01-05')).toBe(true)
    expect(school('2026-01-10')).toBe(false)
    expect(school('2026-06-15')).toBe(false)
    expect(calendar.isWorkday(day('2025-07-04'))).toBe(false)
    expect(calendar.isWorkday(day('2025-07-07'))).toBe(true)
  })
})
