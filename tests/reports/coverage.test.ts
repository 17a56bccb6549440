import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { day } from '../ledger/small-site.js'
import {
  board,
  cellsOf,
  clumpedElm,
  complaint,
  coverageOn,
  needsOf,
  plan,
  rowsOf,
} from './coverage-ledgers.js'

const only = <T>(rows: readonly T[]): T => {
  const [row, ...others] = rows
  if (row === undefined || others.length > 0) throw new Error(`one row is asked for, not ${rows.length}`)
  return row
}

/** Traps set in the kitchen on the first day and read every so many nights, nothing caught. */
function readEvery(nights: number, times: number, traps = 1): Record<string, string> {
  const begin = day('2026-01-01')
  const visits: Record<string, string> = {
    '2026-01-01': `inspected: [kitchen]\nset: {K1: ${board('kitchen', 'german-cockroach', traps)}}`,
  }
  for (let at = 1; at <= times; at++) visits[isoOf(begin + nights * at)] = 'readings: {none: [K1]}'
  return visits
}

describe('the chance to notice a threshold', () => {
  const perWeek = (actAt: number) => ({
    'plans/german-cockroach.yaml': plan(`thresholds: {kitchen: {act-at: ${actAt}, per: trap-week}}`),
  })

  it('is that of the Poisson law where clumping cannot be told', () => {
    // One trap for 14 nights at 1/7 a night: 2 expected. 1 − e^−2 = 0.864665; two or more: 1 − 3·e^−2 = 0.593994.
    // −ln 0.05 = 2.995732 asks for 20.97 trap-nights: 2 traps for 14 nights, or one for 21.
    const report = coverageOn(readEvery(14, 6), perWeek(1))
    const { cells } = only(rowsOf(report, 'chance-to-notice'))
    expect(cells).toMatchObject({
      site: 'oak',
      area: 'kitchen',
      threshold: '1 per trap-week',
      traps: 1,
      nights: 14,
      effort: 14,
      expected: 2,
      'to-add': 1,
      'nights-needed': 21,
      clumping: null,
      interval: 'median of 6 times between checks',
      'chance-shown': '86 %',
      'at-threshold-shown': '59 %',
    })
    expect(cells.chance).toBeCloseTo(86.4665, 4)
    expect(cells['chance-unclumped']).toBeCloseTo(86.4665, 4)
    expect(cells['chance-at-threshold']).toBeCloseTo(59.3994, 4)
    expect(cells.why).toContain('cannot be told')
    expect(needsOf(report)).toEqual([['oak', 'kitchen', 'German cockroach', 'too few traps', 1]])
    expect(report.headline).toBe(
      'No pest was seen or complained of that a device could show; one area has too few traps to be 95 % sure of noticing a threshold, first of all for German cockroach in oak kitchen.',
    )
  })

  it('is enough with one trap more', () => {
    // 4 expected: 1 − e^−4 = 0.981684.
    const report = coverageOn(readEvery(14, 6, 2), perWeek(1))
    const { cells } = only(rowsOf(report, 'chance-to-notice'))
    expect(cells).toMatchObject({ traps: 2, 'to-add': 0, 'more-shown': 'none', 'left-shown': null })
    expect(cells.chance).toBeCloseTo(98.1684, 4)
    expect(needsOf(report)).toEqual([])
  })

  it.each([
    // c = 1: P(0) = 1/(1 + μ). At 7 a week for 20 nights 20 are expected: 20/21 = 0.952381.
    [7, 95.2381, 0, 19],
    // At 3.5 a week 10 are expected: 10/11 = 0.909091; 19 are needed, 38 trap-nights, two traps.
    [3.5, 90.9091, 1, 38],
    // At 0.7 a week 2: 2/3; 19/0.1 = 190 trap-nights, ten traps.
    [0.7, 66.6667, 9, 190],
    // At 0.3 a week 19·7/0.3 = 443.33 trap-nights, 23 traps: more than 20 to add.
    [0.3, 46.1538, null, 444],
  ])('allows for clumping: at %f a trap-week', (actAt, chance, toAdd, nights) => {
    const report = coverageOn(readEvery(20, 6), { ...clumpedElm(), ...perWeek(actAt) })
    const { cells } = only(rowsOf(report, 'chance-to-notice'))
    expect(cells.clumping).toBeCloseTo(1, 12)
    expect(cells.chance).toBeCloseTo(chance, 4)
    expect([cells['to-add'], cells['nights-needed']]).toEqual([toAdd, nights])
    expect(needsOf(report).map((need) => need[4])).toEqual(toAdd === 0 ? [] : [toAdd])
  })

  it('looks at a week at least where the plan counts by the week, so that daily checks are no fault', () => {
    const { cells } = only(rowsOf(coverageOn(readEvery(1, 20), perWeek(3)), 'chance-to-notice'))
    // 7 nights at 3/7: 3 expected, 1 − e^−3 = 0.950213.
    expect(cells).toMatchObject({ nights: 7, 'to-add': 0 })
    expect(cells.chance).toBeCloseTo(95.0213, 4)
  })

  it('takes the longest time a contract leaves a trap unread before it was read', () => {
    const site = `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly, checks: {sticky-trap: 10 days}}]
areas: {kitchen: {kind: kitchen}}
`
    const report = coverageOn(
      { '2026-12-31': `set: {K1: ${board('kitchen')}}` },
      { ...perWeek(1), 'sites/oak/site.yaml': site },
    )
    const { cells } = only(rowsOf(report, 'chance-to-notice'))
    expect(cells).toMatchObject({ traps: 1, nights: 10, effort: 10 })
    expect(cells.interval).toBe('not read in the period; by the contract 10 days, taken as 10 nights')
  })

  it('is not told where one is enough, nor where the plan counts by the room', () => {
    for (const says of ['act-on-one: [kitchen]', 'thresholds: {kitchen: {act-at: 3, per: room}}']) {
      const report = coverageOn(readEvery(14, 6), { 'plans/german-cockroach.yaml': plan(says) })
      expect(rowsOf(report, 'chance-to-notice')).toEqual([])
      expect(needsOf(report)).toEqual([])
    }
  })
})

describe('what devices could have missed', () => {
  it('is the upper bound over the period and over the last check', () => {
    const report = coverageOn(
      {
        '2026-03-01': `set: {K1: ${board('kitchen', 'german-cockroach', 10)}}`,
        '2026-03-05': 'readings: {none: [K1]}',
        '2026-03-11': 'readings: {none: [K1]}',
      },
      { 'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]') },
    )
    // 100 trap-nights: 2.995732/100 × 7 = 0.209701 a trap-week; the last check 60: 0.349502.
    const { cells, records } = only(rowsOf(report, 'none-caught'))
    expect(cells).toMatchObject({
      'on-one': 'yes',
      'trap-nights': 100,
      'last-trap-nights': 60,
      'last-read': '2026-03-11',
      'days-read': 2,
      'caught-shown': 'none in 100',
      'at-most-shown': '0.21',
      'at-most-last-shown': '0.35',
      threshold: null,
      'nights-missing': null,
    })
    expect(cells['at-most']).toBeCloseTo(0.209701, 6)
    expect(cells['at-most-last']).toBeCloseTo(0.349502, 6)
    expect(records).toEqual([
      'sites/oak/visits/2026-03-05-okafor.yaml',
      'sites/oak/visits/2026-03-11-okafor.yaml',
    ])
  })

  it('comes with the further effort that would rule out the number of the plan', () => {
    const report = coverageOn(readEvery(14, 1), {
      'plans/german-cockroach.yaml': plan('thresholds: {kitchen: {act-at: 0.5, per: trap-week}}'),
    })
    // 2.995732/(0.5/7) = 41.94 trap-nights, 14 of which are there.
    expect(only(rowsOf(report, 'none-caught')).cells).toMatchObject({ 'nights-missing': 28 })
  })

  it('is not asked where something was caught, on a full board too', () => {
    const report = coverageOn(
      {
        '2026-03-01': `set: {K1: ${board('kitchen')}}`,
        '2026-03-05': 'readings: {K1: {german-cockroach: 90, unusable: full, renewed: yes}}',
      },
      { 'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]') },
    )
    expect(rowsOf(report, 'none-caught')).toEqual([])
  })

  it('cannot be told without usable effort, nor of what counts no animals', () => {
    const report = coverageOn(
      {
        '2026-03-01': `set: {K1: ${board('kitchen')}, B1: {kind: tracking-patch, area: store}}`,
        '2026-03-05': 'readings: {K1: {unusable: wet, renewed: yes}, B1: {tracks: none}}',
      },
      {
        'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]'),
        'plans/house-mouse.yaml': plan('act-on-one: [storage]'),
      },
    )
    expect(cellsOf(report, 'none-caught', 'area', 'trap-nights', 'at-most', 'at-most-shown')).toEqual([
      ['kitchen', 0, null, 'cannot tell'],
      ['store', 0, null, 'cannot tell'],
    ])
    expect(rowsOf(report, 'none-caught').map(({ cells }) => String(cells.why).slice(0, 40))).toEqual([
      'cannot tell: no reading of the period ha',
      'cannot tell: no reading of the period ha',
    ])
  })
})

describe('a pest that people saw or complained of', () => {
  const inRoom = { 'sites/oak/complaints/2026-06-01-lind.yaml': complaint('house-mouse', 'room-1') }
  const mouseTrap = '{kind: snap-trap, area: room-1}'

  it('where no device for it stands comes first', () => {
    const report = coverageOn(
      { '2026-03-01': `set: {R1: ${board('room-1')}}` },
      { ...inRoom, 'plans/house-mouse.yaml': plan('act-on-one: [everywhere]') },
    )
    expect(needsOf(report)).toEqual([['oak', 'room-1', 'house mouse', 'seen, no device for it', 1]])
    const { cells, records } = only(rowsOf(report, 'needs'))
    expect(cells).toMatchObject({ 'last-seen': '2026-06-01', 'seen-on': '2026-06-01 complaint', devices: 0 })
    expect(records).toEqual(['sites/oak/complaints/2026-06-01-lind.yaml', 'plans/house-mouse.yaml'])
    expect(report.headline).toBe(
      'In one place people saw or complained of a pest and no device that can catch it stands there, first of all house mouse in oak room-1.',
    )
  })

  it('and that a device set since looked for is told with how much that tells', () => {
    const report = coverageOn(
      {
        '2026-06-02': `set: {M1: ${mouseTrap}}`,
        '2026-06-03': 'readings: {none: [M1]}',
        '2026-06-06': 'readings: {none: [M1]}\ntaken-up: {M1: nothing came}',
      },
      inRoom,
    )
    expect(needsOf(report)).toEqual([])
    const { cells } = only(rowsOf(report, 'seen-none-caught'))
    // 1 and 3 nights: 2.995732/4 × 7 = 5.242530.
    expect(cells).toMatchObject({ devices: 0, 'trap-nights': 4, 'trap-nights-since': 4, times: 1 })
    expect(cells['at-most']).toBeCloseTo(5.24253, 5)
    expect(report.headline).toContain('stands, stood since or caught it')
  })

  it('is a need again when the device was taken up before it was last seen', () => {
    const report = coverageOn(
      {
        '2026-05-02': `set: {M1: ${mouseTrap}}`,
        '2026-06-01': 'readings: {none: [M1]}\ntaken-up: {M1: nothing came}',
      },
      inRoom,
    )
    expect(needsOf(report).map((need) => need[3])).toEqual(['seen, no device for it'])
  })

  it('with a device set on the as-of day is no need, and nothing can be told of the effort', () => {
    const report = coverageOn({ '2026-12-31': `set: {M1: ${mouseTrap}}` }, inRoom)
    expect(needsOf(report)).toEqual([])
    expect(cellsOf(report, 'seen-none-caught', 'devices', 'trap-nights', 'at-most', 'why')).toEqual([
      [1, 0, null, 'cannot tell: no device was read there in the period'],
    ])
  })

  it('with a device taken up on the as-of day had one since', () => {
    const report = coverageOn(
      {
        '2026-06-02': `set: {M1: ${mouseTrap}}`,
        '2026-12-31': 'readings: {none: [M1]}\ntaken-up: {M1: done}',
      },
      inRoom,
    )
    expect(needsOf(report)).toEqual([])
    expect(cellsOf(report, 'seen-none-caught', 'devices')).toEqual([[0]])
  })

  it('is no need where it was caught, or shown by tracks', () => {
    for (const [set, reading] of [
      [mouseTrap, '{house-mouse: 1, reset: yes}'],
      ['{kind: tracking-patch, area: room-1}', '{tracks: some}'],
    ]) {
      const report = coverageOn(
        {
          '2026-06-02': `set: {M1: ${set}}`,
          '2026-06-03': `readings: {M1: ${reading}}\ntaken-up: {M1: done}`,
        },
        inRoom,
      )
      expect(needsOf(report)).toEqual([])
      expect(rowsOf(report, 'seen-none-caught')).toEqual([])
    }
  })

  it('is a need where the only device was found lost and not renewed, until it is', () => {
    const lost = {
      '2026-03-02': `set: {M1: ${mouseTrap}}`,
      '2026-06-03': 'readings: {M1: {unusable: missing}}',
    }
    expect(needsOf(coverageOn(lost, inRoom)).map((need) => need[3])).toEqual(['lost or spoilt, not renewed'])
    const renewed = { ...lost, '2026-06-03': 'readings: {M1: {unusable: missing, renewed: yes}}' }
    expect(needsOf(coverageOn(renewed, inRoom))).toEqual([])
  })

  it('counts by the kind not told: a station for Norway rats is for a rat', () => {
    const rat = { 'sites/oak/complaints/2026-06-01-lind.yaml': complaint('rat', 'store') }
    const station = (pest: string) => ({
      '2026-05-01': `set: {B1: {kind: bait-station, area: store, for: [${pest}]}}`,
    })
    expect(needsOf(coverageOn(station('norway-rat'), rat))).toEqual([])
    expect(needsOf(coverageOn(station('house-mouse'), rat))).toHaveLength(1)
  })

  it('without an area is a need only where the whole site has no device for it', () => {
    const somewhere = { 'sites/oak/complaints/2026-06-01-lind.yaml': complaint('house-mouse') }
    expect(needsOf(coverageOn({}, somewhere))).toEqual([
      ['oak', '(area not told)', 'house mouse', 'seen, no device for it', 1],
    ])
    expect(needsOf(coverageOn({ '2026-03-02': `set: {M1: ${mouseTrap}}` }, somewhere))).toEqual([])
  })

  it('is left out when withdrawn, old, abandoned, or out of the period', () => {
    const report = coverageOn(
      {
        '2026-02-01':
          'found: {a: {pest: house-mouse, area: store, evidence: droppings, age: old}, b: {pest: house-mouse, area: store, evidence: nest, nest-state: abandoned}}',
        '2026-02-02': 'found: {c: {pest: house-mouse, area: kitchen, evidence: live, count: 1}}',
      },
      {
        'sites/oak/complaints/2026-06-01-lind.yaml': `${complaint('house-mouse', 'room-1')}withdrawn: it was a toy\n`,
      },
      { from: day('2026-02-03') },
    )
    expect(needsOf(report)).toEqual([])
    expect(report.headline).toContain('No pest was seen')
  })

  it('that no device shows there, or that has no name, is not passed over in silence', () => {
    const report = coverageOn(
      {},
      {
        'sites/oak/complaints/2026-06-01-lind.yaml': complaint('yellowjacket', 'room-1'),
        'sites/oak/complaints/2026-06-02-lind.yaml': complaint('unidentified', 'room-1'),
      },
    )
    expect(needsOf(report)).toEqual([])
    expect(report.notExamined).toContain(
      'One complaint or sighting of yellowjacket: no kind of device of this program shows it there.',
    )
    expect(report.notExamined).toContain(
      'One complaint or sighting of a pest that is not named or not identified: no device can be said to be for it.',
    )
  })
})

describe('an area without a device', () => {
  const rooms = (kinds: string, more = '') => ({
    'sites/oak/site.yaml': `
name: Oak School
site-manager: [{from: 2026-01-01, who: lind}]
complaint-log: front office
contract: []
areas: {${kinds}}
${more}`,
  })
  const kitchens = 'a: {kind: kitchen}, b: {kind: kitchen}, c: {kind: kitchen}, yard: {kind: outdoors}'

  it('is missed where the plan names its kind, in one row for all of a kind', () => {
    const report = coverageOn(
      { '2026-03-01': `set: {K1: ${board('a')}}` },
      { ...rooms(kitchens), 'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]') },
    )
    expect(needsOf(report)).toEqual([
      ['oak', '2 of 3: kitchen', 'German cockroach', 'one is enough, no device', 2],
    ])
    expect(cellsOf(report, 'needs', 'areas', 'areas-lacking', 'areas-of-kind')).toEqual([['b, c', 2, 3]])
    expect(report.headline).toContain('2 areas lack a device for a pest of which one is enough')
  })

  it('is missed where most such areas have one, and only then, by a plan for everywhere', () => {
    const everywhere = { 'plans/house-mouse.yaml': plan('act-on-one: [everywhere]') }
    const traps = (...areas: readonly string[]) => ({
      '2026-03-01': `set: {${areas.map((area) => `M-${area}: {kind: snap-trap, area: ${area}}`).join(', ')}}`,
    })
    const on = (...areas: readonly string[]) =>
      needsOf(coverageOn(traps(...areas), { ...rooms(kitchens), ...everywhere }))
    expect(on('a', 'b')).toEqual([['oak', 'c', 'house mouse', 'one is enough, no device', 1]])
    expect(on('a')).toEqual([])
    expect(
      cellsOf(
        coverageOn(traps('a'), { ...rooms(kitchens), ...everywhere }),
        'eyes-only',
        'pest',
        'areas',
        'without',
      ),
    ).toEqual([['house mouse', 3, 2]])
  })

  it('is missed where the plan names its kind and counts by traps, with as many as would notice the number', () => {
    const others = (contract: string) => ({
      ...rooms('a: {kind: kitchen}'),
      'sites/oak/site.yaml': `name: Oak\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: [${contract}]\nareas: {a: {kind: kitchen}}\n`,
      'plans/german-cockroach.yaml': plan('thresholds: {kitchen: {act-at: 0.35, per: trap-week}}'),
    })
    // −ln 0.05/(0.35/7) = 59.9 trap-nights: two traps for the 30 nights from one routine visit to the next.
    const monthly = others('{from: 2026-01-01, contractor: Invented, routine-visits: monthly}')
    expect(needsOf(coverageOn({}, monthly))).toEqual([['oak', 'a', 'German cockroach', 'too few traps', 2]])
    expect(needsOf(coverageOn({}, others('')))).toEqual([
      ['oak', 'a', 'German cockroach', 'too few traps', 1],
    ])
  })

  it('is not missed outdoors, nor for a pest that no device is for', () => {
    const report = coverageOn(
      {},
      {
        ...rooms('yard: {kind: outdoors}, room: {kind: classroom}'),
        'plans/norway-rat.yaml': plan('act-on-one: [outdoors]'),
        'plans/yellowjacket.yaml': plan('act-on-one: [classroom]'),
        'plans/bed-bug.yaml': plan('act-on-one: [classroom]'),
      },
    )
    expect(needsOf(report)).toEqual([])
  })

  it('is not missed once it is closed, or the whole site', () => {
    const others = { 'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]') }
    const closedArea = coverageOn({}, { ...rooms('a: {kind: kitchen, until: 2026-12-30}'), ...others })
    expect(needsOf(closedArea)).toEqual([])
    expect(closedArea.notExamined).toContain('One area closed before the as-of day.')
    expect(closedArea.headline).toBe('No area that is open could be looked at, so nothing can be said.')
    const lastDay = coverageOn({}, { ...rooms('a: {kind: kitchen, until: 2026-12-31}'), ...others })
    expect(needsOf(lastDay)).toHaveLength(1)
    const closedSite = coverageOn({}, { ...rooms(kitchens, 'until: 2026-06-30\n'), ...others })
    expect(needsOf(closedSite)).toEqual([])
  })
})

describe('an area that no one looked at', () => {
  const routine = (day: string) => ({ [day]: `purpose: routine\nby: okafor\ninspected: [kitchen]\n` })

  it('comes last, told apart from one that could not be entered', () => {
    const report = coverageOn({
      '2026-01-10': 'inspected: [room-1]',
      ...routine('2026-03-10'),
      '2026-04-10': 'purpose: routine\nby: okafor\ninspected: [kitchen]\nno-entry: {store: no key}\n',
    })
    expect(needsOf(report)).toEqual([['oak', 'store', null, 'could not be entered', 0]])
    const late = coverageOn(
      { '2026-01-10': 'inspected: [room-1]', ...routine('2026-03-10') },
      {},
      { from: day('2026-02-01') },
    )
    expect(cellsOf(late, 'needs', 'area', 'need', 'why')).toEqual([
      [
        'room-1',
        'not inspected',
        'no one looked at it on the one routine visit of the period; the last look was on 2026-01-10',
      ],
      [
        'store',
        'not inspected',
        'no one looked at it on the one routine visit of the period; by the records no one ever did',
      ],
    ])
  })

  it('is not held against anyone before a routine visit was made', () => {
    expect(needsOf(coverageOn({ '2026-03-10': 'inspected: [kitchen]' }))).toEqual([])
  })
})

it('the table by site adds up', () => {
  const report = coverageOn(
    { '2026-03-01': `purpose: routine\nby: okafor\ninspected: [kitchen]\nset: {R1: ${board('room-1')}}` },
    {
      ...clumpedElm(),
      'sites/oak/complaints/2026-06-01-lind.yaml': complaint('house-mouse', 'room-1'),
      'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]'),
    },
  )
  const ids = [
    'site',
    'areas',
    'with-device',
    'seen-no-device',
    'one-is-enough',
    'too-few',
    'not-inspected',
    'to-add',
  ]
  expect(cellsOf(report, 'by-site', ...ids)).toEqual([
    ['elm', 6, 6, 0, 0, 0, 0, 0],
    ['oak', 3, 1, 1, 1, 0, 1, 2],
    ['all sites', 9, 7, 1, 1, 0, 1, 2],
  ])
})
