import { describe, expect, it } from 'vitest'
import { beginningOf, instantOn } from '../../src/ledger/instants.js'
import { happenedBy } from '../../src/rules/notices/outcome.js'
import { day, districtIn } from './small-site.js'

const districtOf = (zone: string) =>
  districtIn({
    'district.yaml': `format: 1
name: Example District
time-zone: ${zone}
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: []
calendar: []
`,
  })

const pacific = districtOf('America/Los_Angeles')
/** Minutes since 1970 of a moment in UTC, by the calendar of the engine and not by ours. */
const utc = (text: string) => Date.parse(`${text}:00Z`) / 60_000

describe('a day of which no hour is recorded', () => {
  // Clocks of the United States change on 8 March and 1 November 2026 at 02:00 (15 U.S.C. 260a, from memory): PST is
  // UTC − 8 h, PDT is UTC − 7 h. A day is from 00:00 to 23:59: 1439 minutes, or an hour less, or an hour more.
  it.each([
    ['an ordinary day', '2026-03-12', '2026-03-12T07:00', '2026-03-13T06:59', 1439],
    ['the day that has 23 hours', '2026-03-08', '2026-03-08T08:00', '2026-03-09T06:59', 1379],
    ['the day that has 25 hours', '2026-11-01', '2026-11-01T07:00', '2026-11-02T07:59', 1499],
  ])('%s', (_, date, first, last, minutes) => {
    const range = instantOn(pacific, day(date), undefined)
    expect(range).toEqual({ earliest: utc(first), latest: utc(last) })
    expect(range.latest - range.earliest).toBe(minutes)
  })

  it('is from its first minute to its last, as the clock shows them', () => {
    for (const date of ['2026-03-07', '2026-03-08', '2026-10-31', '2026-11-01']) {
      const range = instantOn(pacific, day(date), undefined)
      expect(range.earliest).toBe(instantOn(pacific, day(date), '00:00').earliest)
      expect(range.latest).toBe(instantOn(pacific, day(date), '23:59').latest)
      expect(range.latest).toBeLessThan(instantOn(pacific, day(date) + 1, '00:00').earliest)
    }
  })

  it('ends before the next day, so that what was due by its end is not in doubt', () => {
    const due = instantOn(pacific, day('2026-03-10'), '23:59')
    const onThe = (date: string) => instantOn(pacific, day(date), undefined)
    expect(happenedBy(onThe('2026-03-10'), due)).toBe('shown')
    expect(happenedBy(onThe('2026-03-11'), due)).toBe('not shown')
    // Due a minute earlier, it can have come at 23:59.
    expect(happenedBy(onThe('2026-03-10'), instantOn(pacific, day('2026-03-10'), '23:58'))).toBe(
      'not recorded',
    )
    // Two things on neighbouring days are never at one moment.
    expect(happenedBy(onThe('2026-03-10'), onThe('2026-03-11'))).toBe('shown')
  })

  it('begins after the gap where the clock skips midnight', () => {
    // In Havana the clock goes from 00:00 to 01:00 on 8 March 2026 and from 01:00 back to 00:00 on 1 November (IANA time
    // zone database, from memory): CST is UTC − 5 h, CDT is UTC − 4 h.
    const havana = districtOf('America/Havana')
    expect(beginningOf(havana, day('2026-03-08'))).toBe(utc('2026-03-08T05:00'))
    expect(instantOn(havana, day('2026-03-07'), undefined).latest).toBe(utc('2026-03-08T04:59'))
    // The hour that is shown twice belongs to that day both times.
    expect(beginningOf(havana, day('2026-11-01'))).toBe(utc('2026-11-01T04:00'))
    expect(instantOn(havana, day('2026-11-01'), undefined).latest).toBe(utc('2026-11-02T04:59'))
  })
})

describe('an hour that is recorded', () => {
  const range = (date: string, time: string) => instantOn(pacific, day(date), time)
  const exactly = (text: string) => ({ earliest: utc(text), latest: utc(text) })

  it('is one moment', () => {
    expect(range('2026-03-12', '15:40')).toEqual(exactly('2026-03-12T22:40'))
    expect(range('2026-03-12', '00:00')).toEqual(exactly('2026-03-12T07:00'))
    expect(range('2026-11-01', '01:30-08:00')).toEqual(exactly('2026-11-01T09:30'))
  })

  it('is two where the clock showed it twice, and lies about the gap where it skipped it', () => {
    expect(range('2026-11-01', '01:30')).toEqual({
      earliest: utc('2026-11-01T08:30'),
      latest: utc('2026-11-01T09:30'),
    })
    expect(range('2026-03-08', '02:30')).toEqual({
      earliest: utc('2026-03-08T09:30'),
      latest: utc('2026-03-08T10:30'),
    })
  })
})
