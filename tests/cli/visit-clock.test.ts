import { expect, it } from 'vitest'
import { clockIn } from '../../src/cli/visit-clock.js'
import { day } from '../ledger/small-site.js'

const zone = 'America/Los_Angeles'

it("is the time of day on the district's own clocks", () => {
  // Pacific standard time is 8 hours behind UTC, daylight time 7.
  expect(clockIn(zone, day('2026-01-14'), new Date('2026-01-14T14:10:59Z'))).toBe('06:10')
  expect(clockIn(zone, day('2026-07-14'), new Date('2026-07-14T07:05:00Z'))).toBe('00:05')
  expect(clockIn('no/zone', day('2026-07-14'), new Date('2026-07-14T07:05:00Z'))).toBe('07:05')
})

it('names its offset in the hour that happens twice', () => {
  // On 1 November 2026 clocks go back from 02:00 daylight to 01:00 standard time.
  expect(clockIn(zone, day('2026-11-01'), new Date('2026-11-01T08:30:00Z'))).toBe('01:30-07:00')
  expect(clockIn(zone, day('2026-11-01'), new Date('2026-11-01T09:30:00Z'))).toBe('01:30-08:00')
  expect(clockIn(zone, day('2026-11-01'), new Date('2026-11-01T10:30:00Z'))).toBe('02:30')
})
