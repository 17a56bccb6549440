import { describe, expect, it } from 'vitest'
import { plotText } from '../../src/output/plot-text.js'
import { day } from '../ledger/small-site.js'
import { board, rowsOf, trendOn } from './trend-ledgers.js'

const asked = { site: 'oak', pest: 'german-cockroach' }
const visits = {
  '2026-01-01': `set: {K1: ${board()}, R1: ${board('room-1')}, S1: ${board('store')}}`,
  '2026-01-29':
    'readings: {K1: {german-cockroach: 8, renewed: yes}, R1: {german-cockroach: 1, renewed: yes}, none: [S1]}',
  '2026-02-26': `readings: {K1: {german-cockroach: 4, renewed: yes}, none: [R1, S1]}
actions: {under-oven: {tactic: cleaning, area: kitchen, did: scrubbed under the oven}}`,
  '2026-04-09': 'readings: {K1: {unusable: wet, renewed: yes}}',
}
const plans = {
  'plans/german-cockroach.yaml':
    'spans: [{from: 2026-01-01, thresholds: {kitchen: {act-at: 0.5, per: trap-night}, classroom: {act-at: 2, per: room}}, tactics: {dry: {do: dry the room}}}]\n',
  'sites/oak/repairs/2026-03-04-reyes.yaml': 'by: reyes\ndone: new sweep on the dock door\narea: kitchen\n',
}

describe('the plot of one pest at one site', () => {
  const report = trendOn(visits, { asOf: day('2026-06-30'), ...asked }, plans)

  it('is drawn for each area with a catch, most caught first', () => {
    expect(report.plots?.map(({ title }) => title)).toEqual([
      'German cockroach in oak kitchen by month',
      'German cockroach in oak room-1 by month',
    ])
    const points = report.plots?.[0]?.points.map(({ day, value }) => [day.slice(0, 7), value])
    // 8 and 4 in 28 nights of one board: 2 and 1 a trap-week. A wet board is no reading.
    expect(points?.slice(6, 9)).toEqual([
      ['2026-01', 2],
      ['2026-02', 1],
      ['2026-03', null],
    ])
  })

  it('marks what was done there, and the threshold where it counts by traps', () => {
    const [kitchen, room] = report.plots ?? []
    expect(kitchen?.marks).toEqual([
      { day: '2026-02-26', says: 'scrubbed under the oven', kind: 'action' },
      { day: '2026-03-04', says: 'new sweep on the dock door', kind: 'repair' },
    ])
    // Half an animal a night is 3.5 a week.
    expect(kitchen?.line).toEqual({ value: 3.5, says: 'the plan says to act at 0.5 per trap-night' })
    expect([room?.marks, room?.line]).toEqual([[], undefined])
    expect(report.cautions.join(' ')).toContain('came before a catch or after it')
  })

  it('fits eighty columns, and its numbers stand in a table', () => {
    const lines = report.plots?.flatMap((plot) => plotText(plot)) ?? []
    expect(lines.length).toBeGreaterThan(20)
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80)
    const january = rowsOf(report, 'by-month').find(
      ({ cells }) => cells.area === 'kitchen' && cells.month === '2026-01',
    )
    expect(january?.cells).toMatchObject({ caught: 8, 'trap-nights': 28, 'per-trap-week': 2 })
  })

  it.each([
    ['only the site', { site: 'oak' }],
    ['only the pest', { pest: 'german-cockroach' }],
    ['another pest', { site: 'oak', pest: 'ant' }],
    ['another site', { site: 'elm', pest: 'german-cockroach' }],
  ])('is not drawn where %s is asked for', (_, more) => {
    const other = trendOn(visits, { asOf: day('2026-06-30'), ...more }, plans)
    expect(other.plots).toBeUndefined()
    expect(other.tables.map(({ id }) => id)).toEqual(['trend', 'same-season', 'none-caught', 'trap-index'])
  })

  it('is not drawn where nothing was caught', () => {
    const none = trendOn(
      { '2026-01-01': `set: {K1: ${board()}}`, '2026-01-29': 'readings: {none: [K1]}' },
      asked,
    )
    expect(none.plots).toBeUndefined()
  })
})

it('draws four areas at most and names the others', () => {
  const areas = ['a', 'b', 'c', 'd', 'e', 'f']
  const site = `name: Oak School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {${areas.map((id) => `${id}: {kind: classroom}`).join(', ')}}\n`
  const report = trendOn(
    {
      '2026-01-01': `set: {${areas.map((id) => `T${id}: ${board(id)}`).join(', ')}}`,
      '2026-01-29': `readings: {${areas.map((id, at) => `T${id}: {german-cockroach: ${at < 5 ? 5 - at : 9}}`).join(', ')}}`,
    },
    asked,
    { 'sites/oak/site.yaml': site },
  )
  expect(report.plots?.map(({ id }) => id)).toEqual(
    ['f', 'a', 'b', 'c'].map((area) => `oak-${area}-german-cockroach`),
  )
  expect(report.cautions.join(' ')).toContain('Drawn are the 4 areas with most caught; not drawn: d, e.')
})

it('of a long period draws the last five years, and says so', () => {
  const report = trendOn(visits, { asOf: day('2026-06-30'), from: day('2019-01-01'), ...asked })
  expect([report.plots?.[0]?.from, report.plots?.[0]?.points.length]).toEqual(['2021-07-01', 60])
  expect(report.cautions.join(' ')).toContain('Drawn are the last five years, from 2021-07-01.')
})

it('marks the last 26 things done, and says that there were more', () => {
  const actions = Object.fromEntries(
    Array.from({ length: 28 }, (_, at) => [
      `2026-03-${String(at + 1).padStart(2, '0')}-reyes`,
      `actions: {clean: {tactic: cleaning, area: kitchen, did: cleaned ${at + 1}}}`,
    ]),
  )
  const report = trendOn({ ...visits, ...actions }, { asOf: day('2026-06-30'), ...asked })
  const marks = report.plots?.[0]?.marks ?? []
  expect([marks.length, marks.at(-1)?.says]).toEqual([26, 'cleaned 28'])
  expect(report.cautions.join(' ')).toContain('Marked in kitchen are the last 26 things done there')
})
