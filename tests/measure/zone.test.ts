// Statutes (15 U.S.C. 260a, 261) and the rules of zones outside the United States are from memory; the dates that follow
// from them are worked out by the calendar below.
import { describe, expect, it } from 'vitest'
import { dayOf, isoOf, weekdayOf } from '../../src/measure/calendar.js'
import { clockTimeOf, knownTimeZones, offsetText, timeZone } from '../../src/measure/zone.js'

function zoneNamed(name: string) {
  const zone = timeZone(name)
  if (!zone) throw new Error(`no zone ${name}`)
  return zone
}

function day(text: string): number {
  const found = dayOf(text)
  if (found === null) throw new Error(`no day ${text}`)
  return found
}

const at = (zone: string, on: string, time: string) =>
  zoneNamed(zone).offsetsAt(day(on), clockTimeOf(time)?.minutes ?? Number.NaN)

/** The nth Sunday of a month, by the calendar alone. */
function sunday(year: number, month: number, nth: number): number {
  const first = day(`${year}-${String(month).padStart(2, '0')}-01`)
  return first + ((7 - weekdayOf(first)) % 7) + (nth - 1) * 7
}

const daysOfYear = (year: number) => {
  const first = day(`${year}-01-01`)
  return Array.from({ length: day(`${year + 1}-01-01`) - first }, (_, n) => first + n)
}

describe('daylight saving time of the United States', () => {
  // 15 U.S.C. 260a(a): from 2 o'clock antemeridian on the second Sunday of March the standard time is
  // advanced one hour, until 2 o'clock antemeridian on the first Sunday of November. Pacific standard time is
  // UTC−8 (15 U.S.C. 261).
  const pacific = 'America/Los_Angeles'

  it('skips 02:00 to 02:59 on 2026-03-08', () => {
    expect(at(pacific, '2026-03-08', '01:59')).toEqual([-480])
    expect(at(pacific, '2026-03-08', '02:00')).toEqual([])
    expect(at(pacific, '2026-03-08', '02:59')).toEqual([])
    expect(at(pacific, '2026-03-08', '03:00')).toEqual([-420])
    expect(at(pacific, '2026-03-08', '23:59')).toEqual([-420])
  })

  it('shows 01:00 to 01:59 twice on 2026-11-01, daylight time first', () => {
    expect(at(pacific, '2026-11-01', '00:59')).toEqual([-420])
    expect(at(pacific, '2026-11-01', '01:00')).toEqual([-420, -480])
    expect(at(pacific, '2026-11-01', '01:59')).toEqual([-420, -480])
    expect(at(pacific, '2026-11-01', '02:00')).toEqual([-480])
  })

  it.each([2007, 2015, 2025, 2026, 2027, 2030])('changes on the two Sundays of the statute in %d', (year) => {
    const zone = zoneNamed(pacific)
    const skipping = daysOfYear(year).filter((on) => zone.offsetsAt(on, 150).length === 0)
    const twice = daysOfYear(year).filter((on) => zone.offsetsAt(on, 90).length === 2)
    expect(skipping.map(isoOf)).toEqual([isoOf(sunday(year, 3, 2))])
    expect(twice.map(isoOf)).toEqual([isoOf(sunday(year, 11, 1))])
  })

  it('changed on the first Sunday of April and the last of October before 2007', () => {
    // Uniform Time Act as it stood until Pub. L. 109-58, section 110, took effect on 2007-03-01.
    expect(at(pacific, '2006-04-02', '02:30')).toEqual([])
    expect(at(pacific, '2006-10-29', '01:30')).toEqual([-420, -480])
    expect(at(pacific, '2006-03-12', '02:30')).toEqual([-480])
  })

  it('is one offset on every other day, and knows which days are steady', () => {
    const zone = zoneNamed(pacific)
    for (const on of daysOfYear(2026)) {
      const nearChange = Math.min(Math.abs(on - day('2026-03-08')), Math.abs(on - day('2026-11-01'))) <= 2
      if (!nearChange) expect(zone.isSteadyOn(on)).toBe(true)
      if (on !== day('2026-03-08') && on !== day('2026-11-01'))
        for (const minutes of [0, 90, 150, 720, 1439]) expect(zone.offsetsAt(on, minutes)).toHaveLength(1)
    }
    expect(zone.isSteadyOn(day('2026-03-08'))).toBe(false)
    expect(zone.isSteadyOn(day('2026-11-01'))).toBe(false)
  })
})

describe('other zones', () => {
  it('has no change in a zone without daylight saving time', () => {
    // Arizona is exempt under 15 U.S.C. 260a(a); Mountain standard time is UTC−7.
    const phoenix = zoneNamed('America/Phoenix')
    for (const on of daysOfYear(2026)) {
      expect(phoenix.isSteadyOn(on)).toBe(true)
      expect(phoenix.offsetsAt(on, 150)).toEqual([-420])
    }
    expect(at('UTC', '2026-03-08', '02:30')).toEqual([0])
    // Hawaii-Aleutian standard time is UTC−10 (15 U.S.C. 261, 263); the state is exempt as Arizona is.
    expect(at('Pacific/Honolulu', '2026-03-08', '02:30')).toEqual([-600])
  })

  it('follows changes that do not fall at two in the morning', () => {
    // IANA time zone database, file northamerica, rule Cuba: 0:00 standard time, second Sunday of March and
    // first of November (where the clock goes back from 01:00 to 00:00).
    expect(at('America/Havana', '2026-03-08', '00:30')).toEqual([])
    expect(at('America/Havana', '2026-11-01', '00:30')).toEqual([-240, -300])
    // The same database, file australasia, rule LH: half an hour.
    expect(at('Australia/Lord_Howe', '2026-04-05', '01:45')).toEqual([660, 630])
    expect(at('Australia/Lord_Howe', '2026-10-04', '02:15')).toEqual([])
    // The same file, zone Pacific/Apia: 2011-12-30 was left out altogether.
    expect(at('Pacific/Apia', '2011-12-30', '12:00')).toEqual([])
  })

  it('does not know a misspelt zone', () => {
    expect(timeZone('America/Los_Angles')).toBeUndefined()
    expect(knownTimeZones()).toContain('America/Los_Angeles')
    expect(knownTimeZones()).toContain('UTC')
  })
})

describe('times as records write them', () => {
  it.each([
    ['00:00', 0, undefined],
    ['06:10', 370, undefined],
    ['23:59', 1439, undefined],
    ['01:30-07:00', 90, -420],
    ['01:30+05:30', 90, 330],
    ['01:30-00:00', 90, 0],
  ])('reads %s', (text, minutes, offset) => {
    expect(clockTimeOf(text)).toEqual({ minutes, offset })
  })

  it.each(['24:00', '6:10', '06:60', '06:10 ', '06:10-7', '06:10Z', ''])('refuses %j', (text) => {
    expect(clockTimeOf(text)).toBeNull()
  })

  it('writes an offset as it is read', () => {
    for (const offset of [-720, -570, -420, 0, 60, 345, 840])
      expect(clockTimeOf(`01:30${offsetText(offset)}`)?.offset).toBe(offset)
    expect(offsetText(-420)).toBe('-07:00')
  })
})
