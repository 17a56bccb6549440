import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { reportJson } from '../../src/output/report-json.js'
import { conditionsReport } from '../../src/reports/conditions.js'
import { cameBefore, comparedOnsets } from '../../src/reports/conditions-before-pests.js'
import type { Feeds, OnsetStrata } from '../../src/reports/conditions-onsets.js'
import { allFeeds } from '../../src/reports/conditions-onsets.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string>>

function reportOn(visits: Texts, more: Partial<ReportOptions> = {}): Report {
  return conditionsReport(memorySource(oakFiles(visits)), {
    asOf: day('2026-06-30'),
    asOfIsToday: false,
    ...more,
  })
}

const rowsOf = (report: Report, table: string) => report.tables.find(({ id }) => id === table)?.rows ?? []
const compared = (report: Report, gives: string) =>
  rowsOf(report, 'before-pests').find(({ cells }) => cells.gives === gives)?.cells

const set = 'set: {K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}'
const none = 'readings: {none: [K1]}'
const caught = (count: number) => `readings: {K1: {german-cockroach: ${count}, renewed: yes}}`
const drip = 'conditions: {drip: {new: drip, area: kitchen, kind: moisture, gives: water}}'

/** Read every 30 days from 31 January on: four times nothing, then a catch on 31 May. */
const quietThenCaught: Texts = {
  '2026-01-01': set,
  '2026-01-31': none,
  '2026-03-02': none,
  '2026-04-01': none,
  '2026-05-01': none,
  '2026-05-31': caught(3),
}

describe('a pest that comes after a quiet time', () => {
  it('is held against what was open there before, on the days on which it could have been noticed', () => {
    const report = reportOn({ ...quietThenCaught, '2026-05-11': drip })
    // 90 days after the first look, 31 January, is 1 May: from there to 31 May are 31 days. The drip counts from the
    // day after it was found: 12 to 31 May are 20 of them.
    const cells = compared(report, 'water')
    expect(cells).toMatchObject({
      'onsets-with': 1,
      'days-with': 20,
      'onsets-without': 0,
      'days-without': 11,
      verdict: 'cannot tell',
      why: 'fewer than 10 onsets in all',
      'p-adjusted': null,
      times: null,
      'times-high': null,
    })
    // One in 20 area-days is 50 in 1,000. One onset, 20/31 of it to be expected with the drip.
    expect(cells?.['rate-with']).toBeCloseTo(50, 12)
    expect(cells?.['expected-with']).toBeCloseTo(20 / 31, 12)
    expect(cells?.['expected-without']).toBeCloseTo(11 / 31, 12)
    // All of one onset on one side: the chance p of that side is 0.025 or more, so its odds are 1/39 or more, and the
    // ratio is these times 11/20.
    expect(cells?.['times-low']).toBeCloseTo(11 / 20 / 39, 9)
    expect(compared(report, 'anything')).toMatchObject({ 'onsets-with': 1, 'days-with': 20 })
    expect(compared(report, 'food')).toMatchObject({
      'onsets-with': 0,
      'days-with': 0,
      'days-without': 31,
      why: 'no such condition was open on a day that counts',
    })
    expect(rowsOf(report, 'onsets').map(({ cells: onset }) => onset)).toEqual([
      {
        site: 'oak',
        area: 'kitchen',
        pest: 'German cockroach',
        day: '2026-05-31',
        'quiet-days': 120,
        before: 'drip',
        gives: 'water',
        conditions: '2026-05-11-okafor/drip',
      },
    ])
  })

  it('does not come after what was found on the same visit, nor after what was put right long before', () => {
    const sameDay = reportOn({ ...quietThenCaught, '2026-05-31': `${caught(3)}\n${drip}` })
    expect(compared(sameDay, 'water')).toMatchObject({
      'onsets-with': 0,
      'onsets-without': 1,
      'days-with': 0,
    })
    // Put right on 1 February it counts until 90 days later, 2 May: two days of the 31.
    const longAgo = reportOn({
      ...quietThenCaught,
      '2026-01-31': `${none}\n${drip}`,
      '2026-02-01': 'conditions: {drip: {fixed: tightened}}',
    })
    expect(compared(longAgo, 'water')).toMatchObject({
      'onsets-with': 0,
      'days-with': 2,
      'onsets-without': 1,
    })
    // On 2 March it counts until 31 May, the very day of the catch.
    const lately = reportOn({
      ...quietThenCaught,
      '2026-01-31': `${none}\n${drip}`,
      '2026-03-02': `${none}\nconditions: {drip: {fixed: tightened}}`,
    })
    expect(compared(lately, 'water')).toMatchObject({ 'onsets-with': 1, 'days-with': 31, 'days-without': 0 })
    expect(compared(lately, 'water')?.why).toBe('such a condition was open on every day that counts')
  })

  it('needs ninety days and three looks without it', () => {
    const { '2026-03-02': _, '2026-04-01': __, ...twoLooks } = quietThenCaught
    const few = reportOn(twoLooks)
    expect(rowsOf(few, 'onsets')).toEqual([])
    expect(compared(few, 'anything')?.why).toBe(
      'no area was looked at long enough for a pest to be noticed to come after a quiet time',
    )
    // 31 January to 30 April are 89 days, to 1 May 90.
    const early = { '2026-01-01': set, '2026-01-31': none, '2026-02-10': none, '2026-03-02': none }
    expect(rowsOf(reportOn({ ...early, '2026-04-30': caught(1) }), 'onsets')).toEqual([])
    expect(rowsOf(reportOn({ ...early, '2026-05-01': caught(1) }), 'onsets')).toHaveLength(1)
    // A catch ends the quiet: the next one 60 days later is no second onset.
    expect(
      rowsOf(reportOn({ ...early, '2026-05-01': caught(1), '2026-06-30': caught(1) }), 'onsets'),
    ).toHaveLength(1)
  })

  it('is one onset, however many are caught, and none where nothing was read', () => {
    const many = reportOn({ ...quietThenCaught, '2026-05-31': caught(1_000_000) })
    expect(rowsOf(many, 'onsets')).toHaveLength(1)
    const unread = reportOn({ '2026-01-01': set, '2026-05-31': 'readings: {K1: {unusable: missing}}' })
    expect(rowsOf(unread, 'onsets')).toEqual([])
    expect(reportJson(unread)).not.toMatch(/\bNaN\b|Infinity/)
  })

  it('takes earlier records as history, and counts days of the period only', () => {
    const report = reportOn({ ...quietThenCaught, '2026-05-11': drip }, { from: day('2026-05-20') })
    expect(compared(report, 'water')).toMatchObject({ 'onsets-with': 1, 'days-with': 12, 'days-without': 0 })
    const before = reportOn(quietThenCaught, { from: day('2026-05-01'), to: day('2026-05-30') })
    expect(rowsOf(before, 'onsets')).toEqual([])
    expect(compared(before, 'anything')).toMatchObject({ 'onsets-without': 0, 'days-without': 30 })
  })
})

describe('the comparison', () => {
  const strata = (of: Readonly<Record<string, readonly [number, number, number, number]>>): OnsetStrata =>
    new Map(
      Object.entries(of).map(([key, [onsetsWith, daysWith, onsets, days]]) => [
        key,
        new Map(
          allFeeds.map(
            (feeds): [Feeds, { onsetsWith: number; daysWith: number; onsets: number; days: number }] =>
              feeds === 'any'
                ? [feeds, { onsetsWith, daysWith, onsets, days }]
                : [feeds, { onsetsWith: 0, daysWith: 0, onsets, days }],
          ),
        ),
      ]),
    )

  it('holds like areas against each other', () => {
    // Kitchens have most of both; within kitchens, and within classrooms, a condition makes no difference:
    // 90 · 900/1000 + 10 · 1000/10000 = 82 onsets to expect with one open, and 82 were found.
    const [any] = comparedOnsets(
      strata({ 'kitchen mouse': [81, 900, 90, 1000], 'classroom mouse': [1, 1000, 10, 10_000] }),
    )
    if (!any) throw new Error('conditions of any kind are compared')
    expect(any.expectedWith).toBeCloseTo(82, 9)
    expect(any.like?.ratio).toBeCloseTo(1, 9)
    expect(cameBefore(any)).toBe('cannot tell')
    // Without regard to that: 82 in 1,900 against 18 in 9,100, 21.8 times as often.
    expect(any.crude?.ratio).toBeCloseTo(82 / 1900 / (18 / 9100), 9)
  })

  it('says more or less often when it is sure', () => {
    // 32 of 40 in half of the days: odds of 4. Twice the chance of 32 or more heads in 40 is 0.00018.
    const [more] = comparedOnsets(strata({ 'kitchen mouse': [32, 500, 40, 1000] }))
    expect(more && cameBefore(more)).toBe('more often')
    expect(more?.like?.ratio).toBeCloseTo(4, 9)
    expect(more?.adjustedP).toBeCloseTo(0.000182, 6)
    const [less] = comparedOnsets(strata({ 'kitchen mouse': [8, 500, 40, 1000] }))
    expect(less && cameBefore(less)).toBe('less often')
  })

  it('is of all sites together, and left out for one site', () => {
    const report = reportOn({ ...quietThenCaught, '2026-05-11': drip }, { site: 'oak' })
    expect(rowsOf(report, 'before-pests')).toEqual([])
    expect(rowsOf(report, 'onsets')).toHaveLength(1)
  })
})
