import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { checksOf, day, deviceIn, oakView } from './small-site.js'

const setK1 = 'set: {K1: {kind: sticky-trap, area: kitchen}}'

/** Each anomaly as its kind, device, date and key path. */
function anomaliesOf(view: ReturnType<typeof oakView>) {
  return view.deviceAnomalies.map(
    ({ kind, device, at }) => `${kind} ${device} ${isoOf(at.day).slice(5)} ${at.path.join('.')}`,
  )
}

describe('what cannot be', () => {
  it('a reading before the device was set, also in the visit that sets it', () => {
    const view = oakView({
      '2026-03-01': 'readings: {none: [K1]}',
      '2026-03-05': `readings: {K1: {german-cockroach: 1}}\n${setK1}`,
    })
    expect(anomaliesOf(view)).toEqual([
      'read-before-set K1 03-01 readings.none.0',
      'read-before-set K1 03-05 readings.K1',
    ])
    expect(view.deviceAnomalies[0]).toMatchObject({ set: { day: day('2026-03-05'), path: ['set', 'K1'] } })
    expect(checksOf(view, 'K1')).toEqual([])
  })

  it('a reading after it was taken up', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'taken-up: {K1: worn}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2}}',
    })
    expect(anomaliesOf(view)).toEqual(['read-after-taken-up K1 03-15 readings.K1'])
    expect(view.deviceAnomalies[0]).toMatchObject({
      takenUp: { day: day('2026-03-08'), path: ['taken-up', 'K1'] },
    })
  })

  it('setting what stands already; the first setting holds', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-05': 'set: {K1: {kind: sticky-trap, area: room-1}}',
      '2026-03-08': 'readings: {none: [K1]}',
    })
    expect(anomaliesOf(view)).toEqual(['set-twice K1 03-05 set.K1'])
    expect(checksOf(view, 'K1')).toEqual(['03-08: 0 caught in 7'])
    expect(deviceIn(view, 'K1').checks[0]?.area).toBe('kitchen')
  })

  it('two readings of one device in one visit', () => {
    const view = oakView({
      '2026-03-01': 'set: {K1: {kind: sticky-trap, area: kitchen}, K2: {kind: sticky-trap, area: kitchen}}',
      '2026-03-08': 'readings: {none: [K1, K2, K2], K1: {german-cockroach: 1}}',
    })
    expect(anomaliesOf(view)).toEqual([
      'read-twice K2 03-08 readings.none.2',
      'read-twice K1 03-08 readings.K1',
    ])
  })

  it('a count that fell without a renewal: no catch of that pest, and the next one is told from the lower count', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 5, american-cockroach: 1}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2, american-cockroach: 4}}',
      '2026-03-22': 'readings: {K1: {german-cockroach: 6, american-cockroach: 4}}',
    })
    expect(anomaliesOf(view)).toEqual(['count-fell K1 03-15 readings.K1'])
    expect(view.deviceAnomalies[0]).toMatchObject({
      pest: 'german-cockroach',
      before: 5,
      now: 2,
      last: { day: day('2026-03-08') },
    })
    expect(checksOf(view, 'K1')).toEqual([
      '03-08: 5 caught in 7',
      '03-15: no caught in 7',
      '03-22: 4 caught in 7',
    ])
    expect(checksOf(view, 'K1', 'american-cockroach')[1]).toBe('03-15: 3 caught in 7')
  })

  it('a count that fell to none', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 1}}',
      '2026-03-15': 'readings: {none: [K1]}',
    })
    expect(anomaliesOf(view)).toEqual(['count-fell K1 03-15 readings.none.0'])
    expect(view.deviceAnomalies[0]).toMatchObject({ before: 1, now: 0 })
  })

  it('moving, picking up, putting out and taking up what does not stand yet', () => {
    const view = oakView({
      '2026-03-01': 'moved: {K1: {area: room-1}}',
      '2026-03-02': 'picked-up: [K1]',
      '2026-03-03': 'put-out: [K1]',
      '2026-03-04': 'taken-up: {K1: worn}',
      '2026-03-05': setK1,
    })
    expect(
      view.deviceAnomalies.map((anomaly) => [anomaly.kind, 'did' in anomaly ? anomaly.did : '']),
    ).toEqual([
      ['not-standing', 'moved'],
      ['not-standing', 'picked-up'],
      ['not-standing', 'put-out'],
      ['not-standing', 'taken-up'],
    ])
    expect(anomaliesOf(view)).toEqual([
      'not-standing K1 03-01 moved.K1',
      'not-standing K1 03-02 picked-up.0',
      'not-standing K1 03-03 put-out.0',
      'not-standing K1 03-04 taken-up.K1',
    ])
  })

  it('is not told of a name that is set nowhere: that is a name that leads nowhere', () => {
    const view = oakView({ '2026-03-01': 'readings: {none: [K9]}\nmoved: {K8: {area: room-1}}' })
    expect(view.deviceAnomalies).toEqual([])
  })

  it('does not depend on the day the picture ends: what comes later is left out', () => {
    const visits = {
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 3}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 1}}',
    }
    expect(checksOf(oakView(visits, {}, '2026-03-14'), 'K1')).toEqual(['03-08: 3 caught in 7'])
    expect(oakView(visits, {}, '2026-03-14').deviceAnomalies).toEqual([])
    expect(oakView(visits, {}, '2026-03-15').deviceAnomalies).toHaveLength(1)
  })
})
