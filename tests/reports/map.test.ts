import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { workTree } from '../../src/files/work-tree.js'
import { coverageReport } from '../../src/reports/coverage.js'
import { hotspotsReport } from '../../src/reports/hotspots.js'
import { layoutRunsReport } from '../../src/reports/layout-runs.js'
import { readMap } from '../../src/reports/map.js'
import { onlyAreasOf } from '../../src/reports/map-part.js'
import type { Report } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { grid, readingsOf, setOf } from './hotspots-grid.js'
import { oakMap, oakSite, readOak, threeAreas } from './map-ledgers.js'

const cellsOf = (report: Report, table: string) =>
  (report.tables.find(({ id }) => id === table)?.rows ?? []).map(({ cells }) => cells)
const roach = { pest: 'german-cockroach' }
const trap = (more = '') => `{kind: sticky-trap, area: kitchen, for: [german-cockroach]${more}}`

describe('the catch at a device', () => {
  const visits = {
    '2026-03-01': `set: {T1: ${trap()}, T2: ${trap()}, T3: ${trap()}, T4: ${trap()}, S1: {kind: sticky-trap, area: store, for: [silverfish]}, B1: {kind: bait-station, area: store, for: [norway-rat]}}`,
    '2026-03-15':
      'readings: {none: [T2], T1: {german-cockroach: 3}, S1: {silverfish: 1, german-cockroach: 2}}',
    '2026-03-31':
      'readings: {none: [T2], T1: {german-cockroach: 7}, T4: {unusable: wet}, S1: {silverfish: 1, german-cockroach: 2}}',
  }
  const { map, report } = readOak(visits, {}, roach)
  const caught = Object.fromEntries((map?.devices ?? []).map(({ id, catch: one }) => [id, one]))

  it('is a rate per trap-week of all its usable readings', () => {
    // 7 animals in 30 nights are 7 / 30 · 7 = 49/30 a week.
    expect(caught.T1).toMatchObject({ is: 'measured', count: 7, trapNights: 30 })
    expect(caught.T1).toHaveProperty('rate', expect.closeTo(49 / 30, 12))
  })

  it('is zero only where it was looked for and not found', () => {
    expect(caught.T2).toMatchObject({ is: 'measured', count: 0, trapNights: 30, rate: 0, low: 0 })
    expect(caught.T3).toEqual({ is: 'not measured', why: 'not read in the period' })
    expect(caught.T4).toEqual({ is: 'not measured', why: 'no look in the period tells what it caught (wet)' })
    expect(caught.S1).toEqual({ is: 'not for it', caught: 2 })
    expect(caught.B1).toEqual({ is: 'counts nothing' })
  })

  it('has an upper limit where none was caught: Garwood, chi-square of 2 degrees at 97.5 % over twice the effort', () => {
    // −ln(0.025) = 3.68888; over 30 nights, times 7.
    expect(caught.T2).toHaveProperty('high', expect.closeTo((3.688879 / 30) * 7, 5))
  })

  it('stands in the table as a number, a zero or nothing', () => {
    expect(
      cellsOf(report, 'devices').map(({ device, catch: words, caught: count, rate }) => [
        device,
        words,
        count,
        rate,
      ]),
    ).toEqual([
      ['T1', 'caught', 7, expect.closeTo(49 / 30, 12)],
      ['T2', 'none caught', 0, 0],
      ['T3', 'not measured: not read in the period', null, null],
      ['T4', 'not measured: no look in the period tells what it caught (wet)', null, null],
      ['B1', 'tells nothing: this kind counts no animals', null, null],
      ['S1', 'not for this pest, and yet caught 2', null, null],
    ])
    expect(report.headline).toContain(
      '1 of 2 devices that measured it caught German cockroach, T1 the most: 1.63 (',
    )
  })

  it('is of the period asked for: only what was added by the reading in it', () => {
    const { devices } = oakMap(visits, {}, { ...roach, from: '2026-03-20', to: '2026-04-10' })
    // 7 − 3 since 15 March, in 16 nights.
    expect(devices[0]?.catch).toMatchObject({ is: 'measured', count: 4, trapNights: 16 })
  })

  it('is not shown where no pest is asked for', () => {
    const bare = readOak(visits)
    expect(new Set(bare.map?.devices.map(({ catch: one }) => one.is))).toEqual(new Set(['not asked']))
    expect(bare.report.tables[0]?.columns.map(({ id }) => id)).not.toContain('caught')
  })

  it('marks a device that was found wet and was not renewed as unable to catch', () => {
    expect(map?.devices.filter(({ fit }) => !fit).map(({ id }) => id)).toEqual(['T4'])
  })
})

describe('a device that was moved or taken up', () => {
  it('shows what it caught at both places, and stands only at the last', () => {
    const map = oakMap(
      {
        '2026-03-01': `set: {T1: ${trap(', at: [4, 4]')}, T2: ${trap(', at: [9, 9]')}}`,
        '2026-03-11':
          'readings: {T1: {german-cockroach: 5, renewed: yes}, none: [T2]}\nmoved: {T1: {at: [8, 4]}}\ntaken-up: {T2: room closed}',
        '2026-03-31': 'readings: {T1: {german-cockroach: 1}}',
      },
      oakSite(threeAreas),
      roach,
    )
    expect(
      map.devices.map(({ no, id, spot, stands, catch: one }) => [
        no,
        id,
        spot,
        stands,
        one.is === 'measured' ? `${one.count} in ${one.trapNights}` : one.is,
      ]),
    ).toEqual([
      [1, 'T1', { x: 8, y: 4 }, true, '1 in 20'],
      [2, 'T1', { x: 4, y: 4 }, false, '5 in 10'],
      [3, 'T2', { x: 9, y: 9 }, false, '0 in 10'],
    ])
  })

  it('is not measured where it was not read since', () => {
    const map = oakMap(
      {
        '2026-03-01': `set: {T1: ${trap(', at: [4, 4]')}}`,
        '2026-03-11': 'readings: {T1: {german-cockroach: 5, renewed: yes}}\nmoved: {T1: {at: [8, 4]}}',
      },
      oakSite(threeAreas),
      roach,
    )
    expect(map.devices[0]?.catch).toEqual({ is: 'not measured', why: 'not read since it was moved here' })
  })
})

describe('where a device stands', () => {
  it('is told against the outlines', () => {
    const at = (area: string, spot: string) => `{kind: sticky-trap, area: ${area}${spot}}`
    const { map, report } = readOak(
      {
        '2026-03-01': `set: {A: ${at('kitchen', ', at: [5, 5]')}, B: ${at('kitchen', ', at: [25, 5]')}, C: ${at('kitchen', ', at: [5, 12]')}, D: ${at('kitchen', '')}, E: ${at('hall', ', at: [5, 20]')}, F: ${at('store', ', at: [90000, 5]')}, G: ${at('kitchen', ', at: [20, 10]')}, H: ${at('gone', ', at: [5, 5]')}}`,
      },
      oakSite(threeAreas),
    )
    expect(map?.devices.map(({ id, place, liesIn }) => [id, place, liesIn])).toEqual([
      ['A', 'in its area', undefined],
      ['B', 'in another area', 'store'],
      ['C', 'outside every outline', undefined],
      ['D', 'no position', undefined],
      // A corner belongs to both areas that meet there.
      ['G', 'in its area', undefined],
      ['F', 'too far', undefined],
      ['E', 'its area has no outline', undefined],
      ['H', 'in another area', 'kitchen'],
    ])
    expect(report.notExamined).toEqual(
      expect.arrayContaining([
        'hall: no outline on record.',
        'One device without a position (state `at: [across, down]` when it is set or moved): D.',
        'One device with a position outside every outline: C.',
        '2 devices with a position in another area than its record says: B, H.',
        'One device with a position too far away to be drawn: F.',
      ]),
    )
  })

  it('is told as no position of an unknown unit where no diagram is named', () => {
    const { report } = readOak({ '2026-03-01': `set: {T1: ${trap(', at: [4, 4]')}}` })
    expect(report.notExamined).toContain(
      'The unit of positions is not said: state `diagram` with its `unit` in site.yaml.',
    )
  })
})

describe('an outline', () => {
  const statesOf = (areas: string) =>
    oakMap({}, oakSite(areas)).areas.map(({ id, outlineState, outline }) => [
      id,
      outlineState,
      outline.length,
    ])

  it('that cannot be drawn is told, and the area stays on the map', () => {
    const many = Array.from({ length: 501 }, (_, at) => `[${at}, ${at % 2}]`).join(', ')
    expect(
      statesOf(`
bow: {kind: storage, outline: [[0, 0], [10, 10], [10, 0], [0, 10]]}
line: {kind: storage, outline: [[0, 0], [5, 5], [10, 10]]}
far: {kind: storage, outline: [[0, 0], [500000, 0], [0, 5]]}
many: {kind: storage, outline: [${many}]}
ell: {kind: storage, outline: [[0, 0], [10, 0], [10, 4], [4, 4], [4, 10], [0, 10]]}
`),
    ).toEqual([
      ['bow', 'crosses itself', 4],
      ['line', 'no size', 0],
      ['far', 'too far', 0],
      ['many', 'too many corners', 0],
      ['ell', 'drawn', 6],
    ])
  })

  it('of two points makes the site unreadable, as in every report: nothing is guessed', () => {
    const { map, report } = readOak({}, oakSite('kitchen: {kind: kitchen, outline: [[0, 0], [10, 10]]}'))
    expect(map).toBeUndefined()
    expect([report.incomplete, report.headline]).toEqual([
      true,
      'This site could not be read, so there is no map of it.',
    ])
    expect(report.tables.map(({ rows, empty }) => [rows.length, empty])).toEqual(
      Array(6).fill([0, 'Not examined.']),
    )
  })
})

describe('what is open', () => {
  it('is numbered in walking order, and once more only where no area is told', () => {
    const map = oakMap({
      '2026-03-01':
        'conditions: {leak: {new: a leak, gives: water}, gap: {new: a gap, area: store, gives: entry, owner: maintenance, by: 2026-04-01}, crumbs: {new: crumbs, area: kitchen}}',
      '2026-03-11': 'conditions: {drip: {new: a drip, area: kitchen}, crumbs: {fixed: swept}}',
    })
    expect(
      map.conditions.map(({ no, area, what, owner, since, due }) => [no, area, what, owner, since, due]),
    ).toEqual([
      [1, 'kitchen', 'a drip', undefined, '2026-03-11', undefined],
      [2, 'store', 'a gap', 'maintenance', '2026-03-01', '2026-04-01'],
      [3, undefined, 'a leak', undefined, '2026-03-01', undefined],
    ])
  })

  it('is nothing at a site without visits, devices or conditions', () => {
    const { map, report } = readOak({}, {}, roach)
    expect([map?.devices, map?.conditions, map?.areas.length]).toEqual([[], [], 3])
    expect(report.headline).toBe(
      '0 devices stand in 3 areas; no device measured German cockroach in the period; no condition is open.',
    )
  })

  it('leaves out areas that are not part of the site on the day', () => {
    const map = oakMap(
      {},
      oakSite(
        'old: {kind: storage, until: 2026-05-01}\nnow: {kind: kitchen}\nnext: {kind: storage, from: 2027-01-01}',
      ),
    )
    expect(map.areas.map(({ no, id }) => [no, id])).toEqual([[1, 'now']])
  })
})

describe('a map says what the other reports say', () => {
  const asked = { asOf: day('2026-12-31'), asOfIsToday: false }
  const corner = new Set([1, 2, 6, 7])
  const planted = grid({ area: (at) => (corner.has(at) ? 'kitchen' : 'store') })
  const visits = {
    '2026-03-01': setOf(planted),
    '2026-03-31': readingsOf(20, (at) => (corner.has(at) ? 10 : 1)),
  }

  it('of places: their devices, numbers and circle', () => {
    const source = memorySource(oakFiles(visits))
    const { report } = readMap(source, { ...asked, ...roach }, 'oak')
    const [theirs] = cellsOf(hotspotsReport(source, asked), 'places')
    expect(cellsOf(report, 'places')).toEqual([
      {
        no: 1,
        pest: 'German cockroach',
        kind: 'sticky trap',
        devices: theirs?.members,
        caught: theirs?.['caught-there'],
        expected: theirs?.['expected-there'],
        // About T1, at the origin of the grid, out to T7, ten feet across and ten down.
        across: 0,
        down: 0,
        radius: expect.closeTo(Math.SQRT2 * 10, 12),
        floor: '1',
        'p-adjusted': theirs?.['p-adjusted'],
      },
    ])
    const sums = cellsOf(report, 'devices').reduce((sum, { caught }) => sum + Number(caught), 0)
    expect(sums).toBe(theirs?.caught)
  })

  it('of a single device that stands out', () => {
    const map = oakMap(
      { '2026-03-01': setOf(planted), '2026-03-31': readingsOf(20, (at) => (at === 3 ? 60 : 1)) },
      {},
      roach,
    )
    expect(map.devices.filter(({ outlying }) => outlying).map(({ id }) => id)).toEqual(['T3'])
  })

  it.each(['ottermere', 'tamsin-hill', 'quarry-road'])('of what %s lacks, and of its runs', (site) => {
    const source = workTree(new URL('../../examples/district/', import.meta.url).pathname)
    const then = { asOf: day('2025-02-20'), asOfIsToday: false }
    for (const options of [then, { ...then, asOf: day('2026-06-30') }]) {
      const { report, map } = readMap(source, options, site)
      const needs = cellsOf(coverageReport(source, { ...options, site }), 'needs')
      expect(map?.needs.map(({ areas, toAdd, why }) => [areas.join(' '), toAdd, why])).toEqual(
        needs.map((need) => [String(need.areas ?? need.area), need['to-add'], need.why]),
      )
      const open = cellsOf(layoutRunsReport(source, site, options), 'stretches').filter(
        ({ more }) => Number(more) > 0,
      )
      expect(cellsOf(report, 'stretches')).toEqual(open.map((row, at) => ({ no: at + 1, ...row })))
    }
  })
})

describe('runs', () => {
  const run = `runs:\n  wall:\n    devices: [D1, D2, D3]\n`
  const files = oakSite(threeAreas)
  const site = { 'sites/oak/site.yaml': `${files['sites/oak/site.yaml']}${run}` }
  const rules = {
    'district.yaml':
      'format: 1\nname: Example District\ntime-zone: America/Los_Angeles\nrecords-begin: 2026-01-01\ncoordinator: [{from: 2026-01-01, who: marsh}]\nrulebooks: [{from: 2026-01-01, rulebook: practice}]\ncalendar: []\n',
  }
  const snap = (at: number) => `{kind: snap-trap, area: kitchen, at: [${at}, 1]}`
  const visits = { '2026-03-01': `set: {D1: ${snap(1)}, D2: ${snap(4)}, D3: ${snap(39)}}` }

  it('that stand open are told, with how many more would do', () => {
    const { map } = readOak(visits, { ...site, ...rules })
    // 35 ft from D2 to D3; the practice rulebook asks for at most 15 ft against mice, so two more make 11.7 ft each.
    expect(
      map?.gaps.map(({ no, run: name, from, to, apart, unit, limit, more }) => [
        no,
        name,
        from,
        to,
        apart,
        unit,
        limit,
        more,
      ]),
    ).toEqual([[1, 'wall', 'D2', 'D3', 35, 'ft', '15 ft', 2]])
  })

  it('are left out of a map of a pest that no run is for', () => {
    expect(readOak(visits, { ...site, ...rules }, roach).map?.gaps).toEqual([])
    expect(readOak(visits, { ...site, ...rules }, { pest: 'house-mouse' }).map?.gaps.length).toBe(1)
  })
})

describe('part of a map', () => {
  it('keeps the numbers of the whole, and says what it leaves out', () => {
    const map = oakMap(
      {
        '2026-03-01': `set: {T1: ${trap(', at: [4, 4]')}, S1: {kind: sticky-trap, area: store, at: [30, 5]}}\nconditions: {a: {new: a, area: kitchen}, b: {new: b, area: store}}`,
      },
      oakSite(threeAreas),
    )
    const part = onlyAreasOf(map, ['store'])
    expect(part.areas.map(({ no, id }) => [no, id])).toEqual([[2, 'store']])
    expect(part.devices.map(({ no, id }) => [no, id])).toEqual([[2, 'S1']])
    expect(part.conditions.map(({ no, id }) => [no, id])).toEqual([[2, '2026-03-01-okafor/b']])
    expect(part.leftOut).toEqual(['Main kitchen', 'hall'])
  })
})
