import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportText } from '../../src/output/report-text.js'
import type { Report } from '../../src/types.js'
import { day } from '../ledger/small-site.js'
import { notFinite } from '../measure/not-finite.js'
import { board, only, rowsOf, trendOn } from './trend-ledgers.js'

const asked = { from: day('2024-01-01'), site: 'oak', pest: 'german-cockroach' }
const set = { '2024-01-01': `set: {K1: ${board()}}` }
const monthly = (reading: (at: number) => string, months = 36) =>
  Object.fromEntries(
    Array.from({ length: months }, (_, at) => [isoOf(day('2024-01-31') + 29 * at), reading(at)]),
  )

function written(report: Report): string[] {
  const text = (showWork: boolean) => reportText(report, { paint: plainPainter, showWork, width: 80 })
  return [
    reportJson(report),
    text(false),
    text(true),
    ...report.tables.map(({ id }) => reportCsv(report, id)),
  ]
}

describe('no number is written that is none', () => {
  it.each([
    ['an empty ledger', {}],
    ['a device that was never read', set],
    ['one reading', { ...set, '2026-11-30': 'readings: {K1: {german-cockroach: 3}}' }],
    ['all zeros', { ...set, ...monthly(() => 'readings: {none: [K1]}') }],
    ['all unusable', { ...set, ...monthly(() => 'readings: {K1: {unusable: wet, renewed: yes}}') }],
    ['no access', { ...set, ...monthly(() => 'readings: {K1: {no-access: locked}}') }],
    [
      'read and renewed on the day it was set',
      {
        '2026-11-30-okafor': `set: {K1: ${board()}}`,
        '2026-11-30-reyes': 'readings: {K1: {german-cockroach: 2, renewed: yes}}',
      },
    ],
    [
      'two visits on one day',
      {
        ...set,
        '2026-11-30-okafor': 'readings: {K1: {german-cockroach: 2, renewed: yes}}',
        '2026-11-30-reyes': 'readings: {K1: {german-cockroach: 3, renewed: yes}}',
      },
    ],
    [
      'millions',
      {
        ...set,
        ...monthly((at) => `readings: {K1: {german-cockroach: ${(at % 2) * 1_000_000}, renewed: yes}}`),
      },
    ],
    [
      'everything on the last day',
      {
        ...set,
        ...monthly((at) => `readings: {K1: {german-cockroach: ${at === 35 ? 90 : 0}, renewed: yes}}`),
      },
    ],
  ])('of %s', (_, visits) => {
    const report = trendOn(visits, asked)
    expect(notFinite(report)).toEqual([])
    for (const text of written(report)) expect(text).not.toMatch(/NaN|Infinity|undefined/)
    expect(report.headline).toMatch(/\.$/)
    expect(report.incomplete).toBe(false)
  })
})

it('two visits on one day are one reading', () => {
  const report = trendOn(
    {
      '2026-11-01': `set: {K1: ${board()}}`,
      '2026-11-30-okafor': 'readings: {K1: {german-cockroach: 2, renewed: yes}}',
      '2026-11-30-reyes': 'readings: {K1: {german-cockroach: 3, renewed: yes}}',
    },
    { pest: 'german-cockroach' },
  )
  // 29 nights, then none: what was caught on the same day counts with them.
  expect(only(rowsOf(report, 'trend')).cells).toMatchObject({ caught: 5, 'trap-nights': 29, readings: 1 })
  expect(only(rowsOf(report, 'same-season')).cells).toMatchObject({
    change: 'cannot tell',
    'now-shown': '5 in 29',
    'before-shown': 'not read',
  })
})

it('a site that cannot be read has no row in any table', () => {
  const report = trendOn({ ...set, '2026-05-01': 'readings: {K1: {german-cockroach: many}}' }, asked)
  expect(report.incomplete).toBe(true)
  for (const { rows } of report.tables) expect(rows).toEqual([])
  expect(report.plots).toBeUndefined()
  expect(report.notExamined[0]).toContain('sites/oak')
})
