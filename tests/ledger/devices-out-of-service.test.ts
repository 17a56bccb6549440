import { describe, expect, it } from 'vitest'
import { checksOf, deviceIn, oakView } from './small-site.js'

const setK1 = 'set: {K1: {kind: sticky-trap, area: kitchen}}'
const setS1 = 'set: {S1: {kind: snap-trap, area: kitchen}}'

describe.each(['missing', 'damaged', 'wet', 'full'])('a device found %s', (state) => {
  it('ends an interval that tells nothing, and starts a new one when it is renewed', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-04': 'readings: {K1: {german-cockroach: 4}}',
      '2026-03-08': `readings: {K1: {unusable: ${state}, renewed: yes}}`,
      '2026-03-15': 'readings: {K1: {german-cockroach: 2}}',
    })
    // The new one starts from zero: 2 in 7, not 2 less 4, and not in 11.
    expect(checksOf(view, 'K1')).toEqual([
      '03-04: 4 caught in 3',
      `03-08: no caught in 0, ${state}`,
      '03-15: 2 caught in 7',
    ])
    expect(view.deviceAnomalies).toEqual([])
  })

  it('is out of service until it is renewed, however often it is found so', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': `readings: {K1: {unusable: ${state}}}`,
      '2026-03-15': `readings: {K1: {unusable: ${state}}}`,
      '2026-03-22': 'readings: {K1: {german-cockroach: 1, renewed: yes}}',
      '2026-03-29': 'readings: {none: [K1]}',
    })
    expect(checksOf(view, 'K1')).toEqual([
      `03-08: no caught in 0, ${state}`,
      `03-15: no caught in 0, ${state}`,
      '03-22: 1 caught in 0, out of service',
      '03-29: 0 caught in 7',
    ])
  })
})

describe('a spoilt device that is read later as if nothing were wrong', () => {
  it.each(['damaged', 'wet', 'full'])('%s, it stays out of service until it is renewed', (state) => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': `readings: {K1: {unusable: ${state}, german-cockroach: 9}}`,
      '2026-03-15': 'readings: {K1: {german-cockroach: 9}}',
      '2026-03-22': 'readings: {K1: {german-cockroach: 9, renewed: yes}}',
      '2026-03-29': 'readings: {K1: {german-cockroach: 1}}',
    })
    // The same nine on a spoilt board are no two weeks without a catch.
    expect(checksOf(view, 'K1').slice(1)).toEqual([
      '03-15: 0 caught in 0, out of service',
      '03-22: 0 caught in 0, out of service',
      '03-29: 1 caught in 7',
    ])
  })

  it('missing, it is back in service from the look that finds it in its place', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {unusable: missing}}',
      '2026-03-15': 'readings: {none: [K1]}',
      '2026-03-22': 'readings: {K1: {german-cockroach: 2}}',
    })
    expect(checksOf(view, 'K1').slice(1)).toEqual([
      '03-15: 0 caught in 0, out of service',
      '03-22: 2 caught in 7',
    ])
  })

  it('sprung, a snap trap is back in service from the look that finds it set', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-02': 'readings: {S1: {sprung: empty}}',
      '2026-03-04': 'readings: {none: [S1]}',
      '2026-03-06': 'readings: {none: [S1]}',
    })
    expect(checksOf(view, 'S1', 'house-mouse').slice(1)).toEqual([
      '03-04: 0 caught in 0, left sprung',
      '03-06: 0 caught in 2',
    ])
  })
})

describe('a device that catches nothing more', () => {
  it('counts what could still be made out on it, and makes no zero of what could not', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {unusable: full, german-cockroach: 40}}',
    })
    expect(Object.fromEntries(deviceIn(view, 'K1').checks[0]?.counts ?? [])).toEqual({
      'german-cockroach': 40,
    })
    expect(checksOf(view, 'K1')).toEqual(['03-08: 40 caught in 0, full'])
  })

  it('is no fall when less can be made out on a spoilt board', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 5}}',
      '2026-03-15': 'readings: {K1: {unusable: damaged, german-cockroach: 2}}',
    })
    expect(view.deviceAnomalies).toEqual([])
    expect(checksOf(view, 'K1')[1]).toBe('03-15: no caught in 0, damaged')
  })

  it('a snap trap found sprung and left so has no effort until it is set again', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-02': 'readings: {S1: {sprung: empty}}',
      '2026-03-05': 'readings: {S1: {sprung: empty, reset: yes}}',
      '2026-03-06': 'readings: {none: [S1]}',
    })
    // It went off in the first night, which counts; the three nights after do not; then one.
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual([
      '03-02: 0 caught in 1',
      '03-05: 0 caught in 0, left sprung',
      '03-06: 0 caught in 1',
    ])
  })

  it('a single snap trap that caught and was not set again is sprung too', () => {
    const view = oakView({
      '2026-03-01': setS1,
      '2026-03-02': 'readings: {S1: {house-mouse: 1}}',
      '2026-03-04': 'readings: {S1: {house-mouse: 1, reset: yes}}',
    })
    expect(checksOf(view, 'S1', 'house-mouse')).toEqual([
      '03-02: 1 caught in 1',
      '03-04: 0 caught in 0, left sprung',
    ])
  })

  it('a pair of snap traps works on while one of the two is set', () => {
    const pair = 'set: {S1: {kind: snap-trap, area: kitchen, traps: 2}}'
    const one = oakView({
      '2026-03-01': pair,
      '2026-03-02': 'readings: {S1: {house-mouse: 1}}',
      '2026-03-03': 'readings: {S1: {house-mouse: 1}}',
    })
    expect(checksOf(one, 'S1', 'house-mouse')).toEqual(['03-02: 1 caught in 2', '03-03: 0 caught in 2'])
    const both = oakView({
      '2026-03-01': pair,
      '2026-03-02': 'readings: {S1: {house-mouse: 2}}',
      '2026-03-03': 'readings: {S1: {house-mouse: 2}}',
    })
    expect(checksOf(both, 'S1', 'house-mouse')).toEqual([
      '03-02: 2 caught in 2',
      '03-03: 0 caught in 0, left sprung',
    ])
  })

  it('a sticky trap goes on catching beside what is on it', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-02': 'readings: {K1: {german-cockroach: 1}}',
      '2026-03-03': 'readings: {K1: {german-cockroach: 1}}',
    })
    expect(checksOf(view, 'K1')[1]).toBe('03-03: 0 caught in 1')
  })
})
