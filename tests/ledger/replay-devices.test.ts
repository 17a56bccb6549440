import { describe, expect, it } from 'vitest'
import { isOut } from '../../src/ledger/standing.js'
import { isoOf } from '../../src/measure/calendar.js'
import { checksOf, day, deviceIn, oakView } from './small-site.js'

const setK1 = 'set: {K1: {kind: sticky-trap, area: kitchen}}'
const setS1 = 'set: {S1: {kind: snap-trap, area: kitchen}}'

/** Each anomaly as its kind, device, date and key path. */
function anomaliesOf(view: ReturnType<typeof oakView>) {
  return view.deviceAnomalies.map(
    ({ kind, device, at }) => `${kind} ${device} ${isoOf(at.day).slice(5)} ${at.path.join('.')}`,
  )
}

describe('the catch', () => {
  it('is the difference of two counts while the device is not renewed', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 3}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 5}}',
      '2026-03-22': 'readings: {K1: {german-cockroach: 5}}',
    })
    // 3 − 0, 5 − 3, 5 − 5, each in 7 nights.
    expect(checksOf(view, 'K1')).toEqual([
      '03-08: 3 caught in 7',
      '03-15: 2 caught in 7',
      '03-22: 0 caught in 7',
    ])
  })

  it('starts from zero after a renewal', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 3, renewed: yes}}',
      '2026-03-10': 'readings: {K1: {german-cockroach: 2}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 6}}',
    })
    // 3; then 2 − 0 in 2 nights; then 6 − 2 in 5 nights.
    expect(checksOf(view, 'K1')).toEqual([
      '03-08: 3 caught in 7',
      '03-10: 2 caught in 2',
      '03-15: 4 caught in 5',
    ])
    expect(view.deviceAnomalies).toEqual([])
  })

  it('starts from zero after a snap trap is set again', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-02': 'readings: {S1: {house-mouse: 1, reset: yes}}',
      '2026-03-03': 'readings: {S1: {house-mouse: 1, reset: yes}}',
    })
    // One mouse each night, not one mouse and then none.
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual(['03-02: 1 caught in 1', '03-03: 1 caught in 1'])
  })

  it('adds up life stages; egg cases are no animals', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: {nymphs: 4, adults: 1}}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: {nymphs: 4, adults: 2, egg-cases: 3}}}',
    })
    // 4 + 1 = 5; then 4 + 2 = 6, of which 6 − 5 = 1 is new.
    expect(checksOf(view, 'K1')).toEqual(['03-08: 5 caught in 7', '03-15: 1 caught in 7'])
  })

  it('counts each pest by itself', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 2, american-cockroach: 1}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2, american-cockroach: 4}}',
    })
    expect(checksOf(view, 'K1', 'german-cockroach')).toEqual(['03-08: 2 caught in 7', '03-15: 0 caught in 7'])
    expect(checksOf(view, 'K1', 'american-cockroach')).toEqual([
      '03-08: 1 caught in 7',
      '03-15: 3 caught in 7',
    ])
  })
})

describe('what was not named', () => {
  it('is zero, in a device listed under none, for exactly the pests it is for', () => {
    const view = oakView({
      '2026-03-01': 'set: {K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach, ant]}}',
      '2026-03-08': 'readings: {none: [K1]}',
    })
    const [check] = deviceIn(view, 'K1').checks
    expect([...(check?.counts ?? [])]).toEqual([
      ['german-cockroach', 0],
      ['ant', 0],
    ])
    expect(check?.reading).toBeNull()
  })

  it('is zero for the pests its kind is for when its record does not say', () => {
    const view = oakView({ '2026-03-01': setS1, '2026-03-02': 'readings: {none: [S1]}' })
    expect([...(deviceIn(view, 'S1').checks[0]?.counts ?? [])]).toEqual([['house-mouse', 0]])
  })

  it('is zero for a pest the device is for and nothing for any other', () => {
    const view = oakView({
      '2026-03-01': 'set: {K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}',
      '2026-03-08': 'readings: {K1: {ant: 4}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 1}}',
      '2026-03-22': 'readings: {K1: {ant: 6}}',
    })
    const counts = deviceIn(view, 'K1').checks.map((check) => Object.fromEntries(check.counts))
    // On the 22nd the unnamed cockroach is a zero, one below the 1 of the 15th: the count fell.
    expect(counts).toEqual([
      { 'german-cockroach': 0, ant: 4 },
      { 'german-cockroach': 1 },
      { 'german-cockroach': 0, ant: 6 },
    ])
    // Ants: 4, then not known, then 6 of which 4 were there already.
    expect(deviceIn(view, 'K1').checks.map((check) => check.caught.get('ant'))).toEqual([4, undefined, 2])
    expect(anomaliesOf(view)).toEqual(['count-fell K1 03-22 readings.K1'])
  })

  it('is nothing on a device that shows no counts', () => {
    const view = oakView({
      '2026-03-01': 'set: {B1: {kind: bait-station, area: kitchen}}',
      '2026-03-08': 'readings: {B1: {bait-taken: none}}',
      '2026-03-15': 'readings: {none: [B1]}',
    })
    expect(deviceIn(view, 'B1').checks.map((check) => check.counts.size)).toEqual([0, 0])
  })
})

describe('the effort', () => {
  it('runs on while the device could not be reached', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {no-access: cabinet in front}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2}}',
    })
    // 7 + 7 nights.
    expect(checksOf(view, 'K1')).toEqual(['03-08: no access', '03-15: 2 caught in 14'])
    expect(deviceIn(view, 'K1').checks[0]).toMatchObject({
      trapNights: 0,
      counts: new Map(),
      caught: new Map(),
    })
  })

  it('counts every trap of a set', () => {
    const view = oakView({
      '2026-03-01': 'set: {S1: {kind: snap-trap, area: kitchen, traps: 2}}',
      '2026-03-04': 'readings: {S1: {house-mouse: 1, reset: yes}}',
    })
    // 2 traps for 3 nights.
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual(['03-04: 1 caught in 6'])
  })

  it('leaves out the nights between picking up and putting out', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-04': 'picked-up: [S1]',
      '2026-03-06': 'put-out: [S1]',
      '2026-03-09': 'readings: {none: [S1]}',
    })
    // 1st to 4th are 3 nights, 6th to 9th are 3.
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual(['03-09: 0 caught in 6'])
    expect(deviceIn(view, 'S1').out).toEqual([
      { from: day('2026-03-01'), until: day('2026-03-04') },
      { from: day('2026-03-06') },
    ])
    expect(
      ['2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06'].map((d) =>
        isOut(deviceIn(view, 'S1'), day(d)),
      ),
    ).toEqual([true, false, false, true])
  })

  it('adds up as many stretches as a trap was put out for', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-03': 'picked-up: [S1]',
      '2026-03-05': 'put-out: [S1]',
      '2026-03-08': 'picked-up: [S1]',
      '2026-03-09': 'put-out: [S1]',
      '2026-03-10': 'readings: {none: [S1]}',
    })
    // 1st to 3rd, 5th to 8th, 9th to 10th: 2 + 3 + 1 nights.
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual(['03-10: 0 caught in 6'])
  })

  it('of a trap read in the hand, after it was picked up, is what it had until then', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-04': 'picked-up: [S1]',
      '2026-03-06': 'readings: {none: [S1]}',
      '2026-03-07': 'put-out: [S1]',
      '2026-03-10': 'readings: {none: [S1]}',
    })
    // 3 nights before it was picked up; then only the 3 since it was put out.
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual(['03-06: 0 caught in 3', '03-10: 0 caught in 3'])
  })

  it('is read before it is picked up where one visit does both, and set before it is put out', () => {
    const view = oakView({
      '2026-03-01': `${setS1}\nput-out: [S1]`,
      '2026-03-03': 'readings: {none: [S1]}\npicked-up: [S1]',
      '2026-03-05': 'put-out: [S1]',
      '2026-03-06': 'readings: {none: [S1]}',
    })
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual(['03-03: 0 caught in 2', '03-06: 0 caught in 1'])
    expect(view.deviceAnomalies).toEqual([])
  })

  it('is no night for a device set and read on one day', () => {
    const view = oakView({
      '2026-03-01-okafor': `time: 06:00 to 06:30\n${setK1}`,
      '2026-03-01-reyes': 'time: 15:00 to 15:30\nreadings: {K1: {german-cockroach: 2}}',
      '2026-03-08': 'readings: {K1: {german-cockroach: 3}}',
    })
    // The first two were caught within hours; the next count goes on from them.
    expect(checksOf(view, 'K1')).toEqual(['03-01: 2 caught in 0', '03-08: 1 caught in 7'])
  })

  it('is counted once when a device is read twice on one day, in the order of the hours', () => {
    const view = oakView({
      '2026-03-01': setK1,
      // By name the evening visit comes first; by its time it is the second.
      '2026-03-08-adams': 'time: 17:00 to 17:30\nreadings: {K1: {german-cockroach: 3}}',
      '2026-03-08-okafor': 'time: 06:00 to 06:30\nreadings: {K1: {german-cockroach: 1}}',
    })
    expect(checksOf(view, 'K1')).toEqual(['03-08: 1 caught in 7', '03-08: 2 caught in 0'])
  })

  it('takes a visit without a time for the last of its day', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08-adams': 'readings: {K1: {german-cockroach: 3}}',
      '2026-03-08-okafor': 'time: 21:00 to 21:30\nreadings: {K1: {german-cockroach: 1}}',
    })
    expect(checksOf(view, 'K1')).toEqual(['03-08: 1 caught in 7', '03-08: 2 caught in 0'])
  })
})
