import { describe, expect, it } from 'vitest'
import type { ThingDone } from '../../src/ledger/things-done.js'
import { isoOf } from '../../src/measure/calendar.js'
import type { AreaCatch } from '../../src/reports/effect-collect.js'
import { occasionsOf } from '../../src/reports/effect-compare.js'
import { pooledClumping } from '../../src/reports/effect-judge.js'
import { day } from '../ledger/small-site.js'
import { board, cleaned, effectOn, elm, readEvery, rowsOf, type Texts } from './effect-ledgers.js'

const areas = ['kitchen', 'room-1', 'store'] as const

/** One board in each area of Oak School, read every ten days, and the same done in each on the day of the third reading. */
function threeAreas(catches: readonly (readonly number[])[], tactic: string, done = '2026-03-31'): Texts {
  const begin = day('2026-03-01')
  const visits: Record<string, string> = {
    [isoOf(begin)]: `set: {${areas.map((area) => `${area}-1: ${board(area)}`).join(', ')}}`,
  }
  for (let at = 0; at < (catches[0]?.length ?? 0); at++) {
    const date = isoOf(begin + 10 * (at + 1))
    const readings = areas.map(
      (area, n) => `${area}-1: {german-cockroach: ${catches[n]?.[at] ?? 0}, renewed: yes}`,
    )
    visits[date] = `readings: {${readings.join(', ')}}`
    if (date === done)
      visits[date] +=
        `\nactions: {${areas.map((area) => `in-${area}: {did: so, tactic: ${tactic}, area: ${area}, pest: german-cockroach}`).join(', ')}}`
  }
  return visits
}

// Before (two readings), on the day, after (two): 20 to 5, 12 to 4, 9 to none.
const catches = [
  [12, 8, 40, 3, 2],
  [5, 7, 40, 2, 2],
  [4, 5, 40, 0, 0],
]

describe('clumping pooled over a pest', () => {
  const traps = (area: string): AreaCatch => ({
    site: 'oak',
    area,
    areaKind: 'kitchen',
    pest: 'ant',
    intervals: [3, 5, 2, 1, 4].map((count, at) => ({
      device: 'K1',
      start: 10 * at,
      day: 10 * at + 10,
      count,
      trapNights: 10,
      file: 'f',
    })),
  })
  const done = (area: string, day: number): ThingDone => ({
    id: `${area}-${day}`,
    kind: 'action',
    day,
    areas: [area],
    pests: ['ant'],
    tactic: 'cleaning',
    says: 'so',
    files: ['f'],
  })
  const degreesOf = (areas: readonly string[], things: readonly ThingDone[]) =>
    pooledClumping(occasionsOf(areas.map(traps), [{ site: 'oak', things }], { from: 0, to: 50 }, 20)).get(
      'ant',
    )?.degreesOfFreedom

  it('counts each reading once', () => {
    // Done on day 30: read whole before, without the last, on 10 and 20 (3, 5), and after on 40 and 50: 1 + 1 degrees.
    expect(degreesOf(['a'], [done('a', 30)])).toBe(2)
    expect(degreesOf(['a', 'b'], [done('a', 30), done('b', 30)])).toBe(4)
    // On day 31 the same readings before, and one after: told already.
    expect(degreesOf(['a'], [done('a', 30), done('a', 31)])).toBe(2)
  })
})

describe('what works here', () => {
  it('pools the cases of a tactic and a pest', () => {
    const [row] = rowsOf(effectOn(threeAreas(catches, 'exclusion')), 'tactics')
    // Equal effort, so the terms are after/√n and before/√n, n = 25, 16, 9: (5/5 + 4/4 + 0)/(20/5 + 12/4 + 9/3) = 2/10.
    expect(row?.cells.change).toBeCloseTo(0.2, 12)
    expect(row?.cells).toMatchObject({
      tactic: 'exclusion',
      taken: 'nothing',
      cases: 3,
      'lower-cases': 3,
      'caught-before': 41,
      'nights-before': 600,
      'caught-after': 9,
      'none-caught': 0,
      'only-one-before': 0,
    })
    // Wilson, all of 3: 3/(3 + 1.959964²) = 0.43850.
    expect(row?.cells['lower-share-low']).toBeCloseTo(43.85, 2)
    expect(row?.cells['lower-shown']).toBe('3 of 3 (44 to 100 %)')
    expect(row?.records).toContain('sites/oak/visits/2026-04-10-okafor.yaml')
  })

  it('leaves out cases whose only reading before may have led to them, and tells how many', () => {
    const other = elm(
      readEvery([40, 1, 1], { set: board('hall'), id: 'H1', done: { '2026-03-11': cleaned('hall') } }),
    )
    const [row] = rowsOf(effectOn(threeAreas(catches, 'cleaning'), other), 'tactics')
    expect(row?.cells).toMatchObject({ cases: 3, 'only-one-before': 1 })
    expect(row?.cells.change).toBeCloseTo(0.2, 12)
  })

  it('tells what was done alone apart from all, and tactics side by side', () => {
    const report = effectOn(threeAreas(catches, 'pesticide'), {
      'sites/oak/repairs/2026-04-05-tarrow.yaml': 'by: tarrow\ndone: sweep\nopenings: {store: 3/8 in gap}\n',
    })
    expect(rowsOf(report, 'tactics').map(({ cells }) => [cells.tactic, cells.taken, cells.cases])).toEqual([
      ['exclusion', 'anything', 1],
      ['pesticide', 'nothing', 2],
      ['pesticide', 'anything', 3],
    ])
    // All three: as above. Two alone are too few to claim anything.
    expect(rowsOf(report, 'tactics')[2]?.cells.change).toBeCloseTo(0.2, 12)
    expect(rowsOf(report, 'tactics')[1]?.cells).toMatchObject({ answer: 'cannot tell', change: null })
    expect(rowsOf(report, 'tactics')[1]?.cells.why).toContain('fewer than three cases')
  })

  it('says of nothing caught that nothing can be told', () => {
    const none = [
      [0, 0, 0, 0, 0],
      [0, 0, 0, 0, 0],
      [0, 0, 0, 0, 0],
    ]
    const report = effectOn(threeAreas(none, 'exclusion'))
    expect(rowsOf(report, 'tactics')[0]?.cells).toMatchObject({
      answer: 'cannot tell',
      change: null,
      'lower-shown': null,
      cases: 0,
      'none-caught': 3,
    })
    expect(report.headline).toBe(
      'None of 3 treatments, repairs and other actions can be judged, mostly since nothing was caught before or after.',
    )
  })
})
