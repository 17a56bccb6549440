import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { beforeAfter } from '../../src/measure/before-after.js'
import { isoOf } from '../../src/measure/calendar.js'
import { clumpingAbout } from '../../src/measure/effective-counts.js'
import { benjaminiHochberg } from '../../src/measure/false-discovery.js'
import { trendReport } from '../../src/reports/trend.js'
import { twoSeasonsOf } from '../../src/reports/trend-season.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { board, only, renewedReadings, rowsOf, trendOn } from './trend-ledgers.js'

describe('the two seasons', () => {
  const seasons = (from: string, to: string) => {
    const { now, before } = twoSeasonsOf({ from: day(from), to: day(to) })
    return [now, before].map((days) => `${isoOf(days.from)} to ${isoOf(days.to)}`)
  }

  it.each([
    // 29 days of October, 30 of November and 31 of December are 90.
    ['2026-01-01', '2026-12-31', ['2026-10-03 to 2026-12-31', '2025-10-03 to 2025-12-31']],
    // A day that the year before has not is the last of its month; 90 days back from 29 February is 2 December.
    ['2027-03-01', '2028-02-29', ['2027-12-02 to 2028-02-29', '2026-12-02 to 2027-02-28']],
    // A shorter period is compared whole.
    ['2026-12-15', '2026-12-31', ['2026-12-15 to 2026-12-31', '2025-12-15 to 2025-12-31']],
    ['2026-12-31', '2026-12-31', ['2026-12-31 to 2026-12-31', '2025-12-31 to 2025-12-31']],
  ])('of %s to %s are the last 90 days, and the same days a year before', (from, to, expected) => {
    expect(seasons(from, to)).toEqual(expected)
  })
})

const setUp = { '2025-09-15': `set: {K1: ${board()}}` }
/** Each season one reading outside it and three in it, of 30 nights each. */
const fell = {
  ...setUp,
  ...renewedReadings({
    '2025-10-02': { K1: 500 },
    '2025-11-01': { K1: 40 },
    '2025-12-01': { K1: 40 },
    '2025-12-31': { K1: 40 },
    '2026-10-02': { K1: 500 },
    '2026-11-01': { K1: 4 },
    '2026-12-01': { K1: 4 },
    '2026-12-31': { K1: 4 },
  }),
}

describe('a series against the same season a year before', () => {
  it('is a ratio of rates, with the counts and efforts of both', () => {
    const report = trendOn(fell)
    const { cells, records } = only(rowsOf(report, 'same-season'))
    // 12 in 90 nights against 120 in 90: a tenth. No reading strays from its season's mean, so nothing clumps.
    expect(cells).toMatchObject({
      where: 'oak kitchen',
      change: 'fell',
      'times-as-many': 0.1,
      'before-shown': '120 in 90',
      'now-shown': '12 in 90',
      'before-caught': 120,
      'before-trap-nights': 90,
      'before-readings': 3,
      'now-caught': 12,
      'now-trap-nights': 90,
      'now-readings': 3,
      dispersion: 1,
      why: 'the whole interval is below no change',
    })
    // 12 and 120 in 90 nights, times 7; Garwood (1936) for 12: 6.201 to 20.96.
    expect(cells['now-per-trap-week']).toBeCloseTo((12 * 7) / 90, 12)
    expect(cells['now-per-trap-week-low']).toBeCloseTo((6.201 * 7) / 90, 3)
    expect(cells['now-per-trap-week-high']).toBeCloseTo((20.962 * 7) / 90, 3)
    expect(cells['before-per-trap-week']).toBeCloseTo((120 * 7) / 90, 12)
    expect(records).toHaveLength(6)
    expect(records[0]).toBe('sites/oak/visits/2025-11-01-okafor.yaml')
    expect(report.headline).toContain(
      '; against the same season a year before, 1 surely fell (German cockroach in oak kitchen).',
    )
    expect(report.cautions[1]).toContain('records from before the period are used as history')
  })

  it('has the interval of the exact comparison with its own clumping, where no other series tells more', () => {
    const catches = { before: [9, 2, 13], now: [1, 0, 4] }
    const { cells } = only(
      rowsOf(
        trendOn({
          ...setUp,
          ...renewedReadings({
            '2025-10-02': { K1: 0 },
            '2025-11-01': { K1: 9 },
            '2025-12-01': { K1: 2 },
            '2025-12-31': { K1: 13 },
            '2026-10-02': { K1: 0 },
            '2026-11-01': { K1: 1 },
            '2026-12-01': { K1: 0 },
            '2026-12-31': { K1: 4 },
          }),
        }),
        'same-season',
      ),
    )
    const side = (counts: readonly number[]) => counts.map((count) => ({ count, effort: 30 }))
    const change = beforeAfter(side(catches.before), side(catches.now))
    if (!change.estimable) throw new Error('there is a catch on both sides')
    // Means 8 and 5/3; χ² = (1 + 36 + 25)/8 + (4/9 + 25/9 + 49/9)/(5/3) = 7.75 + 5.2 = 12.95 on 4 degrees of freedom;
    // c = 8.95 / (2/3 · 24 + 2/3 · 5) = 0.4629; dispersion 1 + c · 8 = 4.703.
    expect(cells.dispersion).toBeCloseTo(4.7034, 3)
    expect([cells['times-as-many-low'], cells['times-as-many-high']]).toEqual([change.lower, change.upper])
    expect(cells['p-adjusted']).toBe(change.p)
    expect(cells.method).toContain('clumping of this series')
    expect(cells.change).toBe('cannot tell')
  })

  it('takes the clumping of the tested series of the pest where its own readings are few, and adjusts p over all', () => {
    const counts = {
      K1: [40, 40, 40, 4, 4, 4],
      R1: [9, 2, 13, 1, 0, 4],
      // Nine animals: shown, not tested.
      S1: [4, 3, 2, 0, 0, 0],
    }
    const dates = ['2025-11-01', '2025-12-01', '2025-12-31', '2026-11-01', '2026-12-01', '2026-12-31']
    const on = (at: number) =>
      Object.fromEntries(Object.entries(counts).map(([id, list]) => [id, list[at] ?? 0]))
    const nothing = { K1: 0, R1: 0, S1: 0 }
    const files = oakFiles({
      '2025-09-15': `set: {K1: ${board()}, R1: ${board('room-1')}, S1: ${board('store')}}`,
      ...renewedReadings({
        '2025-10-02': nothing,
        '2026-10-02': nothing,
        ...Object.fromEntries(dates.map((date, at) => [date, on(at)])),
      }),
    })
    const options = { asOf: day('2026-12-31'), asOfIsToday: false }
    const report = trendReport(memorySource(files), options)
    const sides = (list: readonly number[]) =>
      [list.slice(0, 3), list.slice(3)].map((side) => side.map((count) => ({ count, effort: 30 })))
    // Of those that are tested alone.
    const clumping = clumpingAbout([...sides(counts.K1), ...sides(counts.R1)])
    if (!clumping) throw new Error('readings repeat')
    // 2 degrees of freedom a side, in four sides.
    expect(clumping.degreesOfFreedom).toBe(8)
    const p = Object.values(counts).map((list) => {
      const [before = [], now = []] = sides(list)
      const change = beforeAfter(before, now, { clumping })
      return change.estimable && list !== counts.S1 ? change.p : null
    })
    const adjusted = benjaminiHochberg(p)
    const byArea = new Map(rowsOf(report, 'same-season').map(({ cells }) => [cells.area, cells]))
    expect(['kitchen', 'room-1', 'store'].map((area) => byArea.get(area)?.['p-adjusted'])).toEqual(adjusted)
    expect(byArea.get('room-1')?.method).toContain('clumping of the series of the pest with ten animals')
    expect(byArea.get('store')).toMatchObject({
      change: 'cannot tell',
      why: 'too few animals caught in all',
      'p-adjusted': null,
    })
    // Filters only hide.
    const filtered = trendReport(memorySource(files), { ...options, site: 'oak', pest: 'german-cockroach' })
    expect(rowsOf(filtered, 'same-season')).toEqual(rowsOf(report, 'same-season'))
    expect(rowsOf(trendReport(memorySource(files), { ...options, pest: 'ant' }), 'same-season')).toEqual([])
    // Nor does the order of the files matter.
    const turned = new Map([...files].reverse())
    expect(trendReport(memorySource(turned), options)).toEqual(report)
  })

  it('cannot be told where nothing was read a year before, or nothing was caught', () => {
    const visits = {
      '2025-09-15': `set: {K1: ${board()}}`,
      '2026-10-02': `set: {R1: ${board('room-1')}}`,
      ...renewedReadings({ '2025-11-01': { K1: 0 }, '2026-11-01': { K1: 0, R1: 60 } }),
    }
    const rows = rowsOf(trendOn(visits), 'same-season')
    expect(rows.map(({ cells }) => [cells.area, cells.change, cells.why, cells['before-shown']])).toEqual([
      ['room-1', 'cannot tell', 'not read in the season a year before', 'not read'],
      ['kitchen', 'cannot tell', 'nothing was caught', '0 in 47'],
    ])
    for (const { cells } of rows) expect(cells['times-as-many']).toBeNull()
    expect(rows[0]?.cells['before-per-trap-week']).toBeNull()
    expect(trendOn(visits).headline).not.toContain('a year before')
  })

  it('from none to some has no factor, only a lower limit; limits no one could use are not shown to people', () => {
    const catches = (before: number, now: number) => ({
      ...setUp,
      ...renewedReadings({
        '2025-10-02': { K1: 0 },
        '2025-11-01': { K1: before },
        '2025-12-01': { K1: before },
        '2026-10-02': { K1: 0 },
        '2026-11-01': { K1: now },
        '2026-12-01': { K1: now },
      }),
    })
    const some = only(rowsOf(trendOn(catches(0, 200)), 'same-season')).cells
    expect(some).toMatchObject({ change: 'rose', 'times-as-many': null, 'times-as-many-high': null })
    expect(some['times-as-many-shown']).toMatch(/^[0-9.]+ or more$/)
    const few = only(rowsOf(trendOn(catches(0, 1)), 'same-season')).cells
    expect([few.change, few['times-as-many-shown']]).toEqual(['cannot tell', 'too wide to tell'])
  })
})
