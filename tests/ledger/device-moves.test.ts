import { describe, expect, it } from 'vitest'
import { standOn } from '../../src/ledger/standing.js'
import { checksOf, day, deviceIn, oakView } from './small-site.js'

const setK1 = 'set: {K1: {kind: sticky-trap, area: kitchen}}'

describe('a device that is moved', () => {
  it('to another area without being read spoils the interval, which belongs to neither', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-05': 'moved: {K1: {area: room-1}}',
      '2026-03-08': 'readings: {K1: {german-cockroach: 2}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 3}}',
    })
    expect(checksOf(view, 'K1')).toEqual([
      '03-08: 2 caught in 0, moved between areas',
      '03-15: 1 caught in 7',
    ])
    expect(deviceIn(view, 'K1').checks.map((check) => check.area)).toEqual(['room-1', 'room-1'])
  })

  it('after being read on that day starts clean in the new area', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 2}}\nmoved: {K1: {area: room-1}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 3}}',
    })
    expect(checksOf(view, 'K1')).toEqual(['03-08: 2 caught in 7', '03-15: 1 caught in 7'])
    expect(deviceIn(view, 'K1').checks.map((check) => check.area)).toEqual(['kitchen', 'room-1'])
  })

  it('is not read by someone who could not reach it', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {no-access: locked}}\nmoved: {K1: {area: room-1}}',
      '2026-03-15': 'readings: {none: [K1]}',
    })
    expect(checksOf(view, 'K1')[1]).toBe('03-15: 0 caught in 0, moved between areas')
  })

  it('within its area goes on as before, and so does one moved on the day it was set', () => {
    const within = oakView({
      '2026-03-01': setK1,
      '2026-03-05': 'moved: {K1: {height: 1 ft}}',
      '2026-03-08': 'readings: {none: [K1]}',
    })
    expect(checksOf(within, 'K1')).toEqual(['03-08: 0 caught in 7'])
    const sameDay = oakView({
      '2026-03-01-okafor': `time: 06:00 to 06:30\n${setK1}`,
      '2026-03-01-reyes': 'time: 15:00 to 15:30\nmoved: {K1: {area: room-1}}',
      '2026-03-08': 'readings: {none: [K1]}',
    })
    expect(checksOf(sameDay, 'K1')).toEqual(['03-08: 0 caught in 7'])
    expect(deviceIn(sameDay, 'K1').checks[0]?.area).toBe('room-1')
  })

  it('stands where it stood at the beginning of the day it is moved on', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-05': 'moved: {K1: {area: room-1}}',
    })
    const areas = ['2026-02-28', '2026-03-01', '2026-03-05', '2026-03-06'].map(
      (date) => standOn(deviceIn(view, 'K1'), day(date))?.area,
    )
    expect(areas).toEqual([undefined, 'kitchen', 'kitchen', 'room-1'])
  })
})

describe('a catch after flushing', () => {
  it('is left out, and the next one goes on from it', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 9, after-flush: yes}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 10}}',
    })
    expect(checksOf(view, 'K1')).toEqual(['03-08: 9 caught in 0, after flushing', '03-15: 1 caught in 7'])
  })
})

describe('an id used again', () => {
  it('after the device was taken up is another device', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 3}}\ntaken-up: {K1: room closed}',
      '2026-03-12': 'set: {K1: {kind: sticky-trap, area: room-1}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 1}}',
    })
    expect(checksOf(view, 'K1', 'german-cockroach', 0)).toEqual(['03-08: 3 caught in 7'])
    // 1 − 0 in 3 nights: nothing of the first life is left.
    expect(checksOf(view, 'K1', 'german-cockroach', 1)).toEqual(['03-15: 1 caught in 3'])
    expect(deviceIn(view, 'K1', 0).takenUp?.day).toBe(day('2026-03-08'))
    expect(deviceIn(view, 'K1', 0).out).toEqual([{ from: day('2026-03-01'), until: day('2026-03-08') }])
    expect(deviceIn(view, 'K1', 1).takenUp).toBeUndefined()
    expect(view.deviceAnomalies).toEqual([])
  })

  it('in the very visit that takes the first one up', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': `readings: {none: [K1]}\ntaken-up: {K1: worn}\n${setK1}`,
      '2026-03-10': 'readings: {none: [K1]}',
    })
    expect(checksOf(view, 'K1', 'german-cockroach', 1)).toEqual(['03-10: 0 caught in 2'])
    expect(view.deviceAnomalies).toEqual([])
  })
})
