import { describe, expect, it } from 'vitest'
import { catchSeriesOf } from '../../src/ledger/catch-series.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { isoOf } from '../../src/measure/calendar.js'
import { day, oakView } from './small-site.js'

const setK1 = 'set: {K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}'

/** Series as `area pest`, each with its days as `date: count in nights`. */
function seriesOf(view: SiteView, from = '2026-01-01', to = '2026-12-31') {
  return catchSeriesOf(view, day(from), day(to)).map(({ area, pest, observations }) => [
    `${area} ${pest}`,
    ...observations.map((one) => `${isoOf(one.day).slice(5)}: ${one.count} in ${one.trapNights}`),
  ])
}

describe('a series', () => {
  it('adds the devices of an area, day by day', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-03': 'set: {K2: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}',
      '2026-03-08': 'readings: {none: [K2], K1: {german-cockroach: 2}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 3}, K2: {german-cockroach: 4}}',
    })
    // 8th: 2 + 0 in 7 + 5 nights; 15th: 1 + 4 in 7 + 7.
    expect(seriesOf(view)).toEqual([['kitchen german-cockroach', '03-08: 2 in 12', '03-15: 5 in 14']])
  })

  it('is one for each area and each pest its devices are for, in the order of their names', () => {
    const view = oakView({
      '2026-03-01':
        'set: {R1: {kind: snap-trap, area: room-1}, K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach, ant]}}',
      '2026-03-02': 'readings: {none: [K1, R1]}',
    })
    expect(seriesOf(view)).toEqual([
      ['kitchen ant', '03-02: 0 in 1'],
      ['kitchen german-cockroach', '03-02: 0 in 1'],
      ['room-1 house-mouse', '03-02: 0 in 1'],
    ])
  })

  it('has no place for a pest the device is not for: there its silence is no zero', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {ant: 5}}',
      '2026-03-15': 'readings: {none: [K1]}',
    })
    expect(seriesOf(view)).toEqual([['kitchen german-cockroach', '03-08: 0 in 7', '03-15: 0 in 7']])
  })

  it('leaves out what tells nothing, with its effort', () => {
    const view = oakView({
      '2026-03-01':
        'set: {K1: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}, K2: {kind: sticky-trap, area: kitchen, for: [german-cockroach]}}',
      '2026-03-08':
        'readings: {K1: {german-cockroach: 1}, K2: {unusable: full, german-cockroach: 40, renewed: yes}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 9, after-flush: yes}, K2: {no-access: locked}}',
      '2026-03-22': 'readings: {K1: {german-cockroach: 10}, K2: {german-cockroach: 3}}',
    })
    // 8th: K1 alone. 15th: nothing usable. 22nd: K1 1 in 7; K2 3 in the 14 since it was renewed.
    expect(seriesOf(view)).toEqual([['kitchen german-cockroach', '03-08: 1 in 7', '03-22: 4 in 21']])
  })

  it('has no reading where a count fell: a catch below zero is none', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 5}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2}}',
    })
    expect(seriesOf(view)).toEqual([['kitchen german-cockroach', '03-08: 5 in 7']])
  })

  it('shares the effort of one day between two looks on it', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08-adams': 'time: 06:00 to 06:30\nreadings: {K1: {german-cockroach: 1}}',
      '2026-03-08-reyes': 'time: 15:00 to 15:30\nreadings: {K1: {german-cockroach: 3}}',
    })
    // 1 + 2 in 7 + 0.
    expect(seriesOf(view)).toEqual([['kitchen german-cockroach', '03-08: 3 in 7']])
    expect(catchSeriesOf(view, day('2026-03-01'), day('2026-03-31'))[0]?.observations[0]?.files).toEqual([
      'sites/oak/visits/2026-03-08-adams.yaml',
      'sites/oak/visits/2026-03-08-reyes.yaml',
    ])
  })

  it('counts what was caught on the day a device was set with its next reading', () => {
    const view = oakView({
      '2026-03-01-adams': `time: 06:00 to 06:30\n${setK1}`,
      '2026-03-01-reyes': 'time: 15:00 to 15:30\nreadings: {K1: {german-cockroach: 2}}',
      '2026-03-08': 'readings: {K1: {german-cockroach: 3}}',
    })
    // All 3 that are on it, in the 7 nights it stood: as if nobody had looked in between.
    expect(seriesOf(view)).toEqual([['kitchen german-cockroach', '03-08: 3 in 7']])
    // Without a night there is no rate.
    expect(seriesOf(view, '2026-03-01', '2026-03-01')).toEqual([])
  })

  it('follows a device to the area it is moved to', () => {
    const view = oakView({
      '2026-03-01': setK1,
      '2026-03-08': 'readings: {K1: {german-cockroach: 1}}\nmoved: {K1: {area: room-1}}',
      '2026-03-15': 'readings: {K1: {german-cockroach: 2}}',
    })
    expect(seriesOf(view)).toEqual([
      ['kitchen german-cockroach', '03-08: 1 in 7'],
      ['room-1 german-cockroach', '03-15: 1 in 7'],
    ])
  })
})

it('a period takes the readings made in it, both of its days included, each with its whole interval', () => {
  const view = oakView({
    '2026-03-01': setK1,
    '2026-03-08': 'readings: {K1: {german-cockroach: 1}}',
    '2026-03-15': 'readings: {K1: {german-cockroach: 3}}',
    '2026-03-22': 'readings: {K1: {german-cockroach: 6}}',
  })
  expect(seriesOf(view, '2026-03-15', '2026-03-22')).toEqual([
    ['kitchen german-cockroach', '03-15: 2 in 7', '03-22: 3 in 7'],
  ])
  expect(seriesOf(view, '2026-03-16', '2026-03-21')).toEqual([])
})
