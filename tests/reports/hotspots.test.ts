import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { rateRatio } from '../../src/measure/rate-ratio.js'
import { hotspotsReport } from '../../src/reports/hotspots.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { grid, readingsOf, setOf } from './hotspots-grid.js'

const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  ...more,
})
const rowsOf = (report: Report, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []
const cellsOf = (report: Report, table: string) => rowsOf(report, table).map(({ cells }) => cells)

/** Devices T1 to T20 in a grid of five by four, ten feet apart: the four in the corner stand in the kitchen. */
const corner = new Set([1, 2, 6, 7])
const planted = grid({ area: (at) => (corner.has(at) ? 'kitchen' : 'store') })
const read = (counts: (at: number) => number, more = '') =>
  hotspotsReport(
    memorySource(
      oakFiles({
        '2026-03-01': setOf(planted),
        '2026-03-31': readingsOf(20, counts) + more,
      }),
    ),
    options(),
  )

describe('a planted source', () => {
  const report = read((at) => (corner.has(at) ? 10 : 1))
  const [place, ...others] = cellsOf(report, 'places')

  it('is found, with its figures', () => {
    expect(others).toEqual([])
    // 4 · 10 + 16 · 1 = 56 in 20 · 30 nights; 56 · 4/20 = 11.2 are expected; (40/4)/(16/16) = 10 times.
    expect(place).toMatchObject({
      site: 'oak',
      floor: '1',
      pest: 'German cockroach',
      kind: 'sticky trap',
      where: 'kitchen (4)',
      'by-shown': '4 of 20',
      'caught-shown': '40 of 56',
      'effort-shown': '120 of 600',
      'devices-there': 4,
      devices: 20,
      'caught-there': 40,
      caught: 56,
      'trap-nights-there': 120,
      'trap-nights': 600,
      members: 'T1 T2 T6 T7',
    })
    expect(place?.['expected-there']).toBeCloseTo(11.2, 12)
    expect(place?.times).toBeCloseTo(10, 12)
    expect(place?.['times-shown']).toBe('10.0')
    // The circle about the corner out to the one across from it.
    expect(place?.centre).toBe('T1')
    expect(place?.radius).toBeCloseTo(Math.sqrt(200), 12)
  })

  it('has the p of all ways of dealing ten to four of twenty', () => {
    // Of the C(20,4) = 4845 fours only those that a circle holds by themselves do as well: the four corners, and
    // about a device at an edge, no corner, that one and its three neighbours: 3 + 3 + 2 + 2 = 10. 14/4845 = 0.0029.
    // Of 19,999 shuffles 58 are expected to do as well, with a standard error of 7.6: four of them either way.
    expect(place?.shuffles).toBe(19_999)
    expect(place?.p).toBeGreaterThan(27 / 20_000)
    expect(place?.p).toBeLessThan(89 / 20_000)
    // One scan only: nothing to adjust.
    expect(place?.['p-adjusted']).toBe(place?.p)
  })

  it('is not sought any longer than it takes to see that nothing is there', () => {
    const [scan] = cellsOf(
      read((at) => at % 7),
      'scans',
    )
    // It ended with the hundredth shuffle that did as well.
    expect(Number(scan?.p) * Number(scan?.shuffles)).toBeCloseTo(100, 9)
    expect(scan?.shuffles).toBeLessThan(5_000)
  })

  it('is told in one sentence, and as a row of all scans', () => {
    expect(report.headline).toBe(
      'One place stands out: at Oak School, 4 of the 20 sticky traps for German cockroach, in kitchen, caught 40 of the 56.',
    )
    expect(cellsOf(report, 'scans')).toMatchObject([
      { verdict: 'stands out', where: 'kitchen (4)', why: 'devices that caught much stand together' },
    ])
    expect(rowsOf(report, 'places').map(({ records }) => records)).toEqual([
      ['sites/oak/visits/2026-03-31-okafor.yaml'],
    ])
  })
})

describe('two sources on one floor', () => {
  it('are two places, the stronger first, and share no device', () => {
    // Sixty devices, five in a row; 20 each in six at one end, 18 each in six at the other, 1 each in the 48 between.
    const near = new Set([1, 2, 3, 6, 7, 8])
    const far = new Set([51, 52, 53, 56, 57, 58])
    const visits = {
      '2026-03-01': setOf(grid({ devices: 60, area: (at) => (near.has(at) ? 'kitchen' : 'store') })),
      '2026-03-31': readingsOf(60, (at) => (near.has(at) ? 20 : far.has(at) ? 18 : 1)),
    }
    const report = hotspotsReport(memorySource(oakFiles(visits)), options())
    const places = cellsOf(report, 'places')
    expect(places.map(({ members }) => members)).toEqual(['T1 T2 T3 T6 T7 T8', 'T51 T52 T53 T56 T57 T58'])
    // 20 against (108 + 48)/54 = 2.889: 6.92 times; 18 against (120 + 48)/54 = 3.111: 5.79 times.
    expect(places.map((cells) => cells['times-shown'])).toEqual(['6.9', '5.8'])
    // One scan: the second is held to what it would have had to reach as the strongest.
    for (const { p, 'p-adjusted': adjusted } of places) expect(adjusted).toBe(p)
    expect(Number(places[0]?.p)).toBeLessThanOrEqual(Number(places[1]?.p))
    expect(report.headline).toContain('2 places stand out, the surest first: at Oak School, 6 of the 60')
    expect(rowsOf(report, 'scans')).toHaveLength(1)
  })
})

describe('the same catches dealt out otherwise', () => {
  it('are no place when they stand in the four corners', () => {
    const apart = new Set([1, 5, 16, 20])
    const report = read((at) => (apart.has(at) ? 10 : 1))
    expect(rowsOf(report, 'places')).toEqual([])
    expect(report.headline).toBe('No device or group of devices surely catches more than its neighbours.')
    expect(cellsOf(report, 'scans')).toMatchObject([
      { verdict: 'cannot tell', why: 'shuffled catches stand together as much' },
    ])
  })

  it('are no place when all caught alike', () => {
    const report = read(() => 3)
    expect(rowsOf(report, 'places')).toEqual([])
    expect(cellsOf(report, 'scans')).toMatchObject([
      { verdict: 'cannot tell', why: 'every device caught its share', caught: 60, 'trap-nights': 600 },
    ])
  })
})

describe('a single device', () => {
  // T8 caught 40, the 19 others 1 each.
  const report = read((at) => (at === 8 ? 40 : 1))

  it('stands out by itself, with what the others would have caught', () => {
    expect(rowsOf(report, 'places')).toEqual([])
    const [device, ...others] = cellsOf(report, 'devices')
    expect(others).toEqual([])
    // 19 in 19 · 30 nights: 1 in 30; 40 times as many.
    expect(device).toMatchObject({
      site: 'oak',
      area: 'store',
      device: 'T8',
      'caught-shown': '40 in 30',
      expected: 1,
      times: 40,
      others: 19,
      'others-caught': 19,
      'others-trap-nights': 570,
      // They all caught the same: no clumping at all.
      dispersion: 1,
    })
    // Without clumping it is the exact interval of two rates, which is held against R's elsewhere.
    const exact = rateRatio(40, 30, 19, 570)
    expect(device?.['times-low']).toBeCloseTo(exact?.lower ?? Number.NaN, 6)
    expect(device?.['times-high']).toBeCloseTo(exact?.upper ?? Number.NaN, 6)
    // Twenty devices compared, and the p of all others is 1.
    expect(device?.['p-adjusted']).toBeCloseTo(20 * Number(device?.p), 12)
    expect(report.headline).toBe(
      'No group of devices surely stands out, but one single device does: at Oak School, T8 in store caught 40 (German cockroach), where the rate of the others would give 1.0.',
    )
  })
})

describe('conditions in the same areas', () => {
  const conditions = `conditions:
  gap: {new: gap under the dock door, area: kitchen, kind: structural, gives: entry, owner: maintenance}
  drip: {new: drip under the sink, area: kitchen, kind: moisture, gives: water}
  clutter: {new: boxes on the floor, area: kitchen, kind: storage}
  elsewhere: {new: crumbs, area: store, kind: sanitation, gives: food}
  old: {new: torn screen, area: kitchen, kind: structural, gives: entry}
`
  const visits = {
    '2026-01-10': conditions,
    '2026-01-20': 'conditions: {old: {closed: new screen}}',
    '2026-03-01': setOf(planted),
    '2026-03-31': readingsOf(20, (at) => (corner.has(at) ? 10 : 1)),
    '2026-04-10': 'conditions: {drip: {closed: new washer}, clutter: {still: boxes}}',
    '2026-09-01': 'conditions: {gap: {closed: sweep fitted}}',
  }
  const report = (from: string, to: string) =>
    hotspotsReport(memorySource(oakFiles(visits)), options({ from: day(from), to: day(to) }))

  it('come with openings first, then as they were found; those put right before the period are left out', () => {
    const told = report('2026-02-01', '2026-04-30')
    expect(cellsOf(told, 'conditions')).toEqual([
      {
        site: 'oak',
        area: 'kitchen',
        pest: 'German cockroach',
        beside: 'place',
        what: 'gap under the dock door',
        gives: 'entry',
        since: '2026-01-10',
        state: 'open',
        owner: 'maintenance',
      },
      expect.objectContaining({ what: 'boxes on the floor', gives: 'not said', owner: 'nobody named' }),
      expect.objectContaining({ what: 'drip under the sink', state: 'put right 2026-04-10' }),
    ])
    expect(told.headline).toContain('caught 40 of the 56; open there: gap under the dock door.')
    expect(rowsOf(told, 'conditions')[1]?.records).toEqual([
      'sites/oak/visits/2026-01-10-okafor.yaml',
      'sites/oak/visits/2026-04-10-okafor.yaml',
    ])
  })

  it('are told as they stood at the end of the period', () => {
    const states = (from: string, to: string) =>
      cellsOf(report(from, to), 'conditions').map(({ what, state }) => `${what}: ${state}`)
    expect(states('2026-01-01', '2026-12-31')).toEqual([
      'boxes on the floor: open',
      'gap under the dock door: put right 2026-09-01',
      'torn screen: put right 2026-01-20',
      'drip under the sink: put right 2026-04-10',
    ])
    expect(states('2026-01-20', '2026-04-01')).toEqual([
      'gap under the dock door: open',
      'boxes on the floor: open',
      'drip under the sink: open',
      'torn screen: put right 2026-01-20',
    ])
  })

  it('are not looked at where nothing stands out', () => {
    const quiet = read(() => 1, '\nconditions: {gap: {new: gap, area: kitchen, gives: entry}}')
    expect(rowsOf(quiet, 'conditions')).toEqual([])
  })
})
