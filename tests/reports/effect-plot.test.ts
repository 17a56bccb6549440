import { describe, expect, it } from 'vitest'
import { plotText } from '../../src/output/plot-text.js'
import { catchByMonth, catchPlot } from '../../src/reports/catch-plot.js'
import { day } from '../ledger/small-site.js'
import { referenceKind } from '../measure/stats-reference.js'
import { cleaned, effectOn, readEvery, rowsOf } from './effect-ledgers.js'

const series = {
  site: 'oak',
  area: 'kitchen',
  pest: 'house-mouse',
  observations: [
    { day: day('2026-01-10'), count: 3, trapNights: 40, files: ['b'] },
    { day: day('2026-01-31'), count: 4, trapNights: 44, files: ['a'] },
    { day: day('2026-03-01'), count: 0, trapNights: 100, files: ['c'] },
    { day: day('2026-04-01'), count: 9, trapNights: 10, files: ['d'] },
  ],
}

describe('catch by month', () => {
  const months = catchByMonth(series, day('2026-01-05'), day('2026-03-20'))

  it('adds up the readings of a month; a month without any has no rate', () => {
    expect(months.map(({ count, trapNights, files }) => [count, trapNights, files])).toEqual([
      [7, 84, ['a', 'b']],
      [0, 0, []],
      [0, 100, ['c']],
    ])
    expect(months[1]?.perTrapWeek).toBeNull()
    expect(months.map(({ from, to }) => [from, to])).toEqual([
      [day('2026-01-05'), day('2026-01-31')],
      [day('2026-02-01'), day('2026-02-28')],
      [day('2026-03-01'), day('2026-03-20')],
    ])
  })

  it('has the exact limits of the published reference: 7 in 84 trap-nights', () => {
    const trapWeek = referenceKind<unknown, { rate: number; ci95: { lower: number; upper: number } }>(
      'poisson_rate_ci',
    ).cases.find(({ id }) => id === 'trap_week')?.expected
    expect(months[0]?.perTrapWeek?.value).toBeCloseTo(7 / 12, 12)
    expect(months[0]?.perTrapWeek?.low).toBeCloseTo((trapWeek?.ci95.lower ?? 0) * 7, 6)
    expect(months[0]?.perTrapWeek?.high).toBeCloseTo((trapWeek?.ci95.upper ?? 0) * 7, 6)
    // None in 100: 3.6889/100 · 7 (Garwood, two-sided: −ln 0.025).
    expect(months[2]?.perTrapWeek?.high).toBeCloseTo((-Math.log(0.025) / 100) * 7, 9)
  })

  it('is drawn at the middle of the days, with what happened', () => {
    const marks = [{ day: '2026-02-10', says: 'exclusion: door sweep' }]
    const plot = catchPlot(series, marks, day('2026-01-05'), day('2026-03-20'))
    expect(plot).toMatchObject({
      title: 'house mouse in oak kitchen by month',
      unit: 'per trap-week',
      from: '2026-01-05',
      to: '2026-03-20',
      marks,
    })
    expect(plot.points.map(({ day: at, value }) => [at, value])).toEqual([
      ['2026-01-18', expect.closeTo(7 / 12, 12)],
      ['2026-02-14', null],
      ['2026-03-10', 0],
    ])
    const drawn = plotText(plot).join('\n')
    expect(drawn).toContain('a 2026-02-10 exclusion: door sweep')
    expect(drawn).toContain('x')
  })
})

describe('the report', () => {
  const visits = readEvery([4, 6, 30, 2, 3, 0], { done: { '2026-03-31': cleaned() } })

  it('draws the areas where something was done, when site and pest are asked for, and gives the numbers', () => {
    const report = effectOn(visits, {}, { site: 'oak', pest: 'german-cockroach' })
    expect(report.plots?.map(({ title, marks }) => [title, marks])).toEqual([
      [
        'German cockroach in oak kitchen by month',
        [{ day: '2026-03-31', says: 'cleaning: scrubbed', kind: 'action' }],
      ],
    ])
    const months = rowsOf(report, 'by-month').map(({ cells }) => [
      cells.month,
      cells.caught,
      cells['trap-nights'],
    ])
    // The year to 2026-12-31; April: 2 + 3 + 0.
    expect(months).toHaveLength(12)
    expect(months.slice(1, 5)).toEqual([
      ['2026-02', null, 0],
      ['2026-03', 40, 300],
      ['2026-04', 5, 300],
      ['2026-05', null, 0],
    ])
  })

  it('draws nothing else', () => {
    for (const filter of [
      {},
      { site: 'oak' },
      { pest: 'german-cockroach' },
      { site: 'oak', pest: 'house-mouse' },
    ])
      expect(effectOn(visits, {}, filter).plots).toBeUndefined()
  })
})
