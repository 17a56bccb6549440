import { describe, expect, it } from 'vitest'
import { dayOf, isoOf, minutesOf, weekdayOf } from '../../src/measure/calendar.js'
import type { Lead, LeadCalendar, Moment } from '../../src/measure/lead-time.js'
import {
  addLead,
  earliestInstantBefore,
  latestInstantAfter,
  latestInstantBefore,
  parseLead,
} from '../../src/measure/lead-time.js'
import { timeZone } from '../../src/measure/zone.js'

/** Monday to Friday but for winter break (2025-12-22 to 2026-01-02) and 2026-02-16. */
function isSchoolDay(day: number): boolean {
  const date = isoOf(day)
  if (date === '2026-02-16' || (date >= '2025-12-22' && date <= '2026-01-02')) return false
  return weekdayOf(day) <= 5
}

const zones = { LA: 'America/Los_Angeles', NY: 'America/New_York' } as const
type Zone = keyof typeof zones

function instantOf(zone: Zone, local: string): number {
  const [date = '', time = ''] = local.split(' ')
  const [day, minutes] = [dayOf(date), minutesOf(time)]
  if (day === null || minutes === null) throw new Error(`${local} is no moment`)
  const [offset] = timeZone(zones[zone])?.offsetsAt(day, minutes) ?? []
  if (offset === undefined) throw new Error(`the clock never shows ${local}`)
  return day * 1440 + minutes - offset
}

function momentOf(zone: Zone, local: string): Moment {
  return { day: dayOf(local.slice(0, 10)) ?? Number.NaN, instant: instantOf(zone, local) }
}

const calendarOf = (zone: Zone): LeadCalendar => ({
  beginningOf: (day) => instantOf(zone, `${isoOf(day)} 00:00`),
  isSchoolDay,
})

function leadOf(text: string): Lead {
  const lead = parseLead(text)
  if (!lead) throw new Error(`${text} is no lead time`)
  return lead
}

type Case = [what: string, zone: Zone, moment: string, lead: string, expected: string]

const tested =
  (find: (moment: Moment, lead: Lead, calendar: LeadCalendar) => number) =>
  (_: string, zone: Zone, moment: string, lead: string, expected: string) => {
    expect(find(momentOf(zone, moment), leadOf(lead), calendarOf(zone))).toBe(instantOf(zone, expected))
  }

// The clock went forward on Sunday 2026-03-08 at 02:00 and goes back on Sunday 2026-11-01 at 02:00 in both zones.
// Los Angeles: UTC-8, in summer UTC-7. New York: UTC-5, in summer UTC-4.

describe('the latest moment before', () => {
  it.each<Case>([
    // Thursday 15:40 PDT = 22:40Z; three days of 24 h earlier is Monday 2026-03-09 22:40Z = 15:40 PDT.
    ['72 hours without a change of clock', 'LA', '2026-03-12 15:40', '72 hours', '2026-03-09 15:40'],
    // Tuesday 07:00 PDT = 14:00Z; less 72 h is Saturday 2026-03-07 14:00Z = 06:00 PST.
    ['72 hours over the spring change', 'LA', '2026-03-10 07:00', '72 hours', '2026-03-07 06:00'],
    // Tuesday 07:00 EDT = 11:00Z; less 72 h is Saturday 11:00Z = 06:00 EST.
    ['the same in New York', 'NY', '2026-03-10 07:00', '72 hours', '2026-03-07 06:00'],
    // Tuesday 2026-11-03 07:00 PST = 15:00Z; less 72 h is Saturday 2026-10-31 15:00Z = 08:00 PDT.
    ['72 hours over the autumn change', 'LA', '2026-11-03 07:00', '72 hours', '2026-10-31 08:00'],
    // Tuesday 07:00 EST = 12:00Z; less 72 h is Saturday 12:00Z = 08:00 EDT.
    ['the same in New York, autumn', 'NY', '2026-11-03 07:00', '72 hours', '2026-10-31 08:00'],
    // Sunday 2026-03-08 07:00 PDT = 14:00Z; less 24 h is Saturday 14:00Z = 06:00 PST.
    ['24 hours over the short day', 'LA', '2026-03-08 07:00', '24 hours', '2026-03-07 06:00'],
    // 2028-03-01 18:00 PST = 2028-03-02 02:00Z; less 24 h is 03-01 02:00Z = 02-29 18:00 PST.
    ['24 hours onto a leap day', 'LA', '2028-03-01 18:00', '24 hours', '2028-02-29 18:00'],
    // 2027-03-01 18:00 less 48 h: 28 February, 27 February.
    ['48 hours where there is none', 'LA', '2027-03-01 18:00', '48 hours', '2027-02-27 18:00'],
    // 1.1 hours are 66 minutes: 18:00 less 1:06.
    ['part of an hour', 'NY', '2026-03-12 18:00', '1.1 hours', '2026-03-12 16:54'],
    // 12 less 3 is 9; any hour of that day.
    ['3 days', 'LA', '2026-03-12 15:40', '3 days', '2026-03-09 23:59'],
    // Tuesday the 10th less 3 days is Saturday the 7th, whatever the clock did on Sunday.
    ['3 days over the spring change', 'NY', '2026-03-10 07:00', '3 days', '2026-03-07 23:59'],
    // 2028-03-02 less 2 days: 1 March, 29 February.
    ['2 days onto a leap day', 'LA', '2028-03-02 07:00', '2 days', '2028-02-29 23:59'],
    // Half a day counts as a whole one: 2 days.
    ['part of a day', 'LA', '2026-03-12 15:40', '1.5 days', '2026-03-10 23:59'],
    // Thursday: Wednesday 1, Tuesday 2.
    ['2 business days from a Thursday', 'NY', '2026-03-12 07:00', '2 business days', '2026-03-10 23:59'],
    // Monday 2026-03-16: Friday the 13th is 1, Thursday the 12th is 2.
    ['2 business days over a weekend', 'NY', '2026-03-16 07:00', '2 business days', '2026-03-12 23:59'],
    // Sunday 2026-03-15: Friday 1, Thursday 2.
    ['2 business days from a Sunday', 'NY', '2026-03-15 07:00', '2 business days', '2026-03-12 23:59'],
    // Friday 2026-11-27: Thursday is Thanksgiving, Wednesday the 25th is 1, Tuesday the 24th is 2.
    ['2 business days over Thanksgiving', 'NY', '2026-11-27 07:00', '2 business days', '2026-11-24 23:59'],
    // Monday 2026-11-30: Friday the 27th 1, Wednesday the 25th 2, Tuesday 3, Monday the 23rd 4.
    ['4 business days, the same week', 'NY', '2026-11-30 07:00', '4 business days', '2026-11-23 23:59'],
    // Tuesday 2022-01-04: Monday the 3rd is 1; Friday 2021-12-31 is New Year observed; Thursday the 30th is 2.
    [
      '2 business days over a New Year observed',
      'LA',
      '2022-01-04 07:00',
      '2 business days',
      '2021-12-30 23:59',
    ],
    // Wednesday 2023-01-04: Tuesday 1; Monday the 2nd is New Year observed; Friday 2022-12-30 is 2.
    ['the same, observed on a Monday', 'LA', '2023-01-04 07:00', '2 business days', '2022-12-30 23:59'],
    // Monday 2026-07-06: Friday the 3rd is Independence Day observed; Thursday the 2nd 1, Wednesday the 1st 2.
    ['2 business days over the 4th of July', 'LA', '2026-07-06 07:00', '2 business days', '2026-07-01 23:59'],
    // Monday 2021-06-21: Friday the 18th is the first Juneteenth observed; Thursday the 17th is 1.
    [
      '1 business day over the first Juneteenth',
      'LA',
      '2021-06-21 07:00',
      '1 business days',
      '2021-06-17 23:59',
    ],
    // Monday 2026-01-05 is the first school day after the break; Friday 2025-12-19 is 1, Thursday the 18th 2.
    ['2 school days over a recess', 'LA', '2026-01-05 07:00', '2 school days', '2025-12-18 23:59'],
    // Wednesday 2025-12-24, in the break: Friday the 19th is 1.
    ['1 school day from within a recess', 'LA', '2025-12-24 07:00', '1 school days', '2025-12-19 23:59'],
    // Tuesday 2026-02-17: Monday is closed; Friday the 13th 1, Thursday the 12th 2, Wednesday the 11th 3.
    ['3 school days over a closed Monday', 'LA', '2026-02-17 07:00', '3 school days', '2026-02-11 23:59'],
    // None at all: until the end of the day itself for days, until the moment itself for hours.
    ['0 hours', 'LA', '2026-03-12 15:40', '0 hours', '2026-03-12 15:40'],
    ['0 days', 'LA', '2026-03-12 15:40', '0 days', '2026-03-12 23:59'],
  ])('%s', tested(latestInstantBefore))

  it('comes to an end where there is no school day at all', () => {
    const never: LeadCalendar = { ...calendarOf('LA'), isSchoolDay: () => false }
    const found = latestInstantBefore(momentOf('LA', '2026-03-12 15:40'), leadOf('2 school days'), never)
    expect(found).toBeLessThan(instantOf('LA', '2026-03-12 15:40'))
  })
})

describe('the earliest moment before, for a longest lead', () => {
  it.each<Case>([
    // March has 31 days: 31 March less 30 days is 1 March, from its first minute.
    ['30 days', 'NY', '2026-03-31 07:00', '30 days', '2026-03-01 00:00'],
    // 2028-03-30 less 30 days: 29 March days back to 1 March, one more to 29 February.
    ['30 days in a leap year', 'NY', '2028-03-30 07:00', '30 days', '2028-02-29 00:00'],
    // Tuesday 07:00 EDT = 11:00Z; less 48 h is Sunday 11:00Z, after the change = 07:00 EDT.
    ['48 hours since the spring change', 'NY', '2026-03-10 07:00', '48 hours', '2026-03-08 07:00'],
    // Monday 07:00 EDT = 11:00Z; less 48 h is Saturday 11:00Z = 06:00 EST.
    ['48 hours over it', 'NY', '2026-03-09 07:00', '48 hours', '2026-03-07 06:00'],
    // Monday 2026-03-16, 7 business days: 13, 12, 11, 10, 9 (5), 6, 5 (7).
    ['7 business days', 'LA', '2026-03-16 07:00', '7 business days', '2026-03-05 00:00'],
    // Half a day more does not count: 2 days.
    ['part of a day', 'LA', '2026-03-12 15:40', '2.5 days', '2026-03-10 00:00'],
  ])('%s', tested(earliestInstantBefore))
})

describe('how long something stays after an end', () => {
  it.each<Case>([
    // Friday 2026-03-06 16:05 PST = 2026-03-07 00:05Z; 72 h later is 03-10 00:05Z = Monday 03-09 17:05 PDT.
    ['72 hours over the spring change', 'LA', '2026-03-06 16:05', '72 hours', '2026-03-09 17:05'],
    // Friday 2026-10-30 16:05 EDT = 20:05Z; 72 h later is Monday 11-02 20:05Z = 15:05 EST.
    ['72 hours over the autumn change', 'NY', '2026-10-30 16:05', '72 hours', '2026-11-02 15:05'],
    // Two times 24 h: Saturday 18:00 EST = 23:00Z; Monday 23:00Z = 19:00 EDT.
    ['2 days are 48 hours', 'NY', '2026-03-07 18:00', '2 days', '2026-03-09 19:00'],
    // Wednesday 2026-11-25: Thursday is a holiday, Friday the 27th 1, Monday the 30th 2, to its end.
    ['2 business days over Thanksgiving', 'NY', '2026-11-25 16:00', '2 business days', '2026-11-30 23:59'],
    // Friday 2025-12-19, the last day before the break: Monday 2026-01-05 is 1.
    ['1 school day over a recess', 'LA', '2025-12-19 16:00', '1 school days', '2026-01-05 23:59'],
  ])('%s', tested(addLead))
})

describe('a term after something', () => {
  it.each<Case>([
    // Saturday 18:00 EST = 23:00Z; 24 h later is Sunday 23:00Z = 19:00 EDT.
    ['24 hours over the spring change', 'NY', '2026-03-07 18:00', '24 hours', '2026-03-08 19:00'],
    // The day after the 12th, to its end.
    ['1 day', 'LA', '2026-03-12 15:40', '1 days', '2026-03-13 23:59'],
  ])('%s', tested(latestInstantAfter))
})

describe('the text of a lead time', () => {
  it.each<[string, Lead | null]>([
    ['72 hours', { count: 72, unit: 'hours' }],
    ['1.5 hours', { count: 1.5, unit: 'hours' }],
    ['2 business days', { count: 2, unit: 'business days' }],
    ['10 school days', { count: 10, unit: 'school days' }],
    ['72 h', null],
    ['-2 days', null],
    ['two days', null],
    ['2 business days ', null],
    ['', null],
  ])('%s', (text, lead) => {
    expect(parseLead(text)).toEqual(lead)
  })
})
