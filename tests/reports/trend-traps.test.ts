import { describe, expect, it } from 'vitest'
import { only, rowsOf, trendOn } from './trend-ledgers.js'

const snap = (traps: number, area = 'kitchen', pests = '[house-mouse]') =>
  `{kind: snap-trap, area: ${area}, for: ${pests}, traps: ${traps}}`
const indexOf = (visits: Readonly<Record<string, string>>) => rowsOf(trendOn(visits), 'trap-index')

describe('catch per 100 trap-nights', () => {
  it('of snap traps is corrected for those that went off', () => {
    const { cells, records } = only(
      indexOf({
        '2026-03-01': `set: {S1: ${snap(2)}}`,
        '2026-03-02': 'readings: {S1: {house-mouse: 1, sprung: {empty: 1}, reset: yes}}',
        '2026-03-03': 'readings: {none: [S1]}',
        '2026-03-05': 'readings: {S1: {house-mouse: 1, reset: yes}}',
      }),
    )
    // Two traps for 1 + 1 + 2 nights: 8 trap-nights, 2 caught: 25. Nelson & Clark: half a night for each of two traps
    // sprung in the first night, one night for the one in the last two: 2 lost, 2/6 = 33.3. The field protocol takes
    // off only the empty one: half a night, 2/7.5 = 26.7. Garwood (1936) for 2: 0.2422 to 7.2247.
    expect(cells).toMatchObject({
      where: 'oak kitchen',
      pest: 'house mouse',
      device: 'snap trap',
      'caught-shown': '2 in 8',
      captured: 2,
      'trap-nights': 8,
      'sprung-empty': 1,
      'other-animals': 0,
      'plain-trap-nights': 8,
      'corrected-trap-nights': 6,
      'without-captures-trap-nights': 7.5,
      'plain-shown': '25.0 (3.0 to 90.3)',
      'corrected-shown': '33.3 (4.0 to 120.4)',
      why: 'both can be told',
    })
    expect(cells['without-captures']).toBeCloseTo(200 / 7.5, 12)
    expect(cells['without-captures-low']).toBeCloseTo(24.22 / 7.5, 3)
    expect(cells['without-captures-high']).toBeCloseTo(722.47 / 7.5, 2)
    expect(records).toHaveLength(3)
  })

  it('counts other animals as traps that went off, told as sprung or by name; what closes no trap is none', () => {
    const rows = indexOf({
      '2026-03-01': `set: {S1: ${snap(4)}}`,
      '2026-03-02': 'readings: {S1: {norway-rat: 1, ant: 7, sprung: {other-animal: 1}, reset: yes}}',
      '2026-03-03': 'readings: {S1: {sprung: other-animal, reset: yes}}',
      '2026-03-04': 'readings: {S1: {house-mouse: 1, sprung: empty, reset: yes}}',
    })
    // 12 trap-nights; sprung 2, 1 and 2, half a night each: 12 − 2.5 = 9.5; 1/9.5.
    expect(only(rows).cells).toMatchObject({
      'other-animals': 3,
      'sprung-empty': 1,
      'corrected-trap-nights': 9.5,
      'sprung-shown': 4,
    })
    expect(only(rows).cells.corrected).toBeCloseTo(100 / 9.5, 12)
  })

  it('of traps for two pests holds each against the other', () => {
    const rows = indexOf({
      '2026-03-01': `set: {S1: ${snap(4, 'kitchen', '[house-mouse, norway-rat]')}}`,
      '2026-03-02': 'readings: {S1: {norway-rat: 1, house-mouse: 2, reset: yes}}',
    })
    // 4 trap-nights, three of them halved for both: 2.5 are left.
    expect(rows.map(({ cells }) => [cells.pest, cells.captured, cells['other-animals']])).toEqual([
      ['house mouse', 2, 1],
      ['Norway rat', 1, 2],
    ])
    for (const { cells } of rows) expect(cells['corrected-trap-nights']).toBe(2.5)
  })

  it('leaves out what tells nothing, with its effort', () => {
    const { cells } = only(
      indexOf({
        '2026-03-01': `set: {S1: ${snap(1)}, S2: ${snap(1)}}`,
        // Not set again: the next night tells nothing.
        '2026-03-02': 'readings: {S1: {sprung: empty}, S2: {unusable: missing, renewed: yes}}',
        '2026-03-03': 'readings: {S1: {reset: yes}, S2: {no-access: locked}}',
        '2026-03-05': 'readings: {none: [S1, S2]}',
      }),
    )
    // S1: 1 night, none, 2 nights. S2: none, then 3 nights from its renewal.
    expect(cells).toMatchObject({ 'trap-nights': 6, captured: 0, 'sprung-empty': 1, plain: 0 })
    // None in 6: up to 3.689/6 (Garwood 1936).
    expect(cells['plain-high']).toBeCloseTo(368.9 / 6, 1)
  })

  it('of traps that hold many is not corrected; other devices have no row', () => {
    const rows = indexOf({
      '2026-03-01': `set: {M1: {kind: multiple-catch-trap, area: kitchen}, S1: ${snap(1)}, G1: {kind: glue-board, area: kitchen}}`,
      '2026-03-11':
        'readings: {M1: {house-mouse: 3, renewed: yes}, G1: {house-mouse: 1, renewed: yes}, none: [S1]}',
    })
    expect(rows.map(({ cells }) => [cells.device, cells.plain, cells.corrected])).toEqual([
      ['multiple-catch trap', 30, null],
      ['snap trap', 0, 0],
    ])
    expect(rows[0]?.cells.why).toContain('does not close')
    expect(rows[0]?.cells['sprung-shown']).toBeNull()
  })

  it.each([
    // Read on the day it was set: no night yet.
    [
      'no effort',
      {
        '2026-03-01-okafor': `set: {S1: ${snap(1)}}`,
        '2026-03-01-reyes': 'readings: {S1: {house-mouse: 1}}',
      },
      [null, null, 'no effort'],
    ],
    [
      'more caught than traps stood there',
      { '2026-03-01': `set: {S1: ${snap(1)}}`, '2026-03-02': 'readings: {S1: {house-mouse: 1000000}}' },
      [100_000_000, null, 'more traps were found sprung than stood there'],
    ],
  ])('with %s cannot be told', (_, visits, expected) => {
    const { cells } = only(indexOf(visits))
    expect([cells.plain, cells.corrected, cells.why]).toEqual(expected)
    expect(cells['corrected-trap-nights'] ?? 0).toBeGreaterThanOrEqual(0)
  })

  it('is said to leave the trend as it is only where there are such traps', () => {
    const said = (visits: Readonly<Record<string, string>>) =>
      trendOn(visits).cautions.some((caution) => caution.includes('keeps its full effort'))
    const set = { '2026-03-01': `set: {S1: ${snap(2)}}` }
    expect(said(set)).toBe(false)
    expect(said({ ...set, '2026-03-02': 'readings: {none: [S1]}' })).toBe(true)
  })
})
