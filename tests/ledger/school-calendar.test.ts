import { describe, expect, it } from 'vitest'
import { schoolCalendar } from '../../src/ledger/school-calendar.js'
import { isoOf } from '../../src/measure/calendar.js'
import { day, districtIn } from './small-site.js'

const district = (calendar: string) => `
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: []
calendar: ${calendar}
`

const calendarOf = (text: string) => districtIn({ 'district.yaml': district(text) }).calendar

/** Two school years; 2025-09-02 is a Tuesday, 2026-06-12 a Friday, 2026-09-08 a Tuesday. */
const years = calendarOf(`
  - {from: 2026-09-08, until: 2027-06-11}
  - from: 2025-09-02
    until: 2026-06-12
    closed: {winter-break: 2025-12-22 to 2026-01-02, presidents-day: 2026-02-16}`)

const closureOn = (date: string) => {
  const closure = years.closureOn(day(date))
  return closure && `${closure.name} ${isoOf(closure.first)} ${isoOf(closure.last)}`
}

describe('a school day', () => {
  it.each([
    ['2025-09-01', false, 'the day before the year begins'],
    ['2025-09-02', true, 'its first day'],
    ['2025-12-19', true, 'the Friday before the break'],
    ['2025-12-22', false, 'the first day of the break'],
    ['2026-01-02', false, 'its last day'],
    ['2026-01-05', true, 'the Monday after it'],
    ['2026-02-14', false, 'a Saturday'],
    ['2026-02-15', false, 'a Sunday'],
    ['2026-02-16', false, 'a closed day'],
    ['2026-02-17', true, 'the day after'],
    ['2026-06-12', true, 'the last day of the year'],
    ['2026-06-15', false, 'the Monday after it'],
    ['2026-09-07', false, 'the day before the next year'],
    ['2026-09-08', true, 'its first day'],
  ])('%s: %s, %s', (date, isSchoolDay) => {
    expect(years.isSchoolDay(day(date))).toBe(isSchoolDay)
  })

  it('is every Monday to Friday where no calendar is stated', () => {
    const none = calendarOf('[]')
    // 2026-07-04 is a Saturday.
    expect(
      ['2026-07-03', '2026-07-04', '2026-07-05', '2026-07-06'].map((date) => none.isSchoolDay(day(date))),
    ).toEqual([true, false, false, true])
    expect(none.closureOn(day('2026-07-04'))).toBeUndefined()
  })
})

describe('a closure', () => {
  it('is stated, or the recess between two school years, whatever their order in the file', () => {
    expect(closureOn('2025-12-25')).toBe('winter-break 2025-12-22 2026-01-02')
    expect(closureOn('2026-02-16')).toBe('presidents-day 2026-02-16 2026-02-16')
    expect(closureOn('2026-06-13')).toBe('recess 2026-06-13 2026-09-07')
    expect(closureOn('2026-09-07')).toBe('recess 2026-06-13 2026-09-07')
  })

  it('is not a weekend between school days', () => {
    expect(closureOn('2026-02-14')).toBeUndefined()
    expect(closureOn('2026-06-12')).toBeUndefined()
    expect(closureOn('2026-09-08')).toBeUndefined()
  })

  it('is the time before the first year and a while after the last', () => {
    expect(closureOn('2025-09-01')).toContain('recess')
    expect(closureOn('2027-06-12')).toContain('recess 2027-06-12')
    // Nobody entered the next year: after a summer it is not taken for one without end.
    expect(closureOn('2027-12-01')).toBeUndefined()
  })
})

describe('school days in a month', () => {
  it.each([
    // 20 weekdays in February 2026, less the 16th.
    ['2026-02', 19],
    // 22 weekdays in January 2026, less the 1st and 2nd.
    ['2026-01', 20],
    // 23 weekdays in December 2025, less 22–26 and 29–31.
    ['2025-12', 15],
    // 1 to 12 June 2026: two weeks.
    ['2026-06', 10],
    ['2026-07', 0],
    // 22 weekdays in September 2025, less Monday the 1st.
    ['2025-09', 21],
  ])('%s has %i', (month, count) => {
    expect(years.schoolDaysIn(month)).toBe(count)
    expect(years.schoolDaysIn(month)).toBe(count)
  })
})

describe('the next school day', () => {
  it.each([
    ['2026-02-13', '2026-02-13'],
    // Saturday, Sunday and the closed Monday are passed over.
    ['2026-02-14', '2026-02-17'],
    ['2025-12-22', '2026-01-05'],
    ['2026-06-13', '2026-09-08'],
  ])('on or after %s is %s', (date, next) => {
    expect(isoOf(years.nextSchoolDay(day(date)))).toBe(next)
  })

  it('is that very day where none is in sight', () => {
    const closed = schoolCalendar({
      ...districtIn().district.data,
      calendar: [
        { from: '2026-01-05', until: '2026-01-09' },
        { from: '2028-01-03', until: '2028-06-09' },
      ],
    })
    expect(isoOf(closed.nextSchoolDay(day('2026-01-10')))).toBe('2026-01-10')
  })
})
