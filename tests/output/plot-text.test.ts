import { describe, expect, it } from 'vitest'
import { plotText } from '../../src/output/plot-text.js'
import type { Plot } from '../../src/types.js'

const plot: Plot = {
  id: 'rate',
  title: 'house mouse, oak kitchen',
  unit: 'per trap-week',
  from: '2026-01-01',
  to: '2026-12-31',
  points: [
    { day: '2026-01-16', value: 0, low: 0, high: 0.5 },
    { day: '2026-03-16', value: 2, low: 1, high: 3 },
    { day: '2026-06-15', value: null },
    { day: '2026-12-31', value: 4, low: 3, high: null },
  ],
  line: { value: 1, says: 'action threshold' },
  marks: [{ day: '2026-04-01', says: 'door sweep fitted' }],
}

const rowsOf = (lines: readonly string[]) =>
  lines.slice(1, 10).map((line) => line.slice(line.search(/[|+]/) + 1))

describe('plotText', () => {
  it('fits eighty columns', () => {
    for (const line of plotText(plot)) expect(line.length).toBeLessThanOrEqual(79)
  })

  it('puts zero at the bottom and every value at the height it has', () => {
    const rows = rowsOf(plotText(plot))
    // 71 columns; top is 4, eight rows: 2 lies on the middle row, 0 on the last, 4 on the first.
    expect(rows[0]).toMatch(/\^?o$/)
    expect(rows[4]?.indexOf('o')).toBe(Math.round((74 / 364) * 70))
    expect(rows[8]?.indexOf('o')).toBe(Math.round((15 / 364) * 70))
  })

  it('draws a missing value as missing, never as a zero', () => {
    const bottom = rowsOf(plotText(plot))[8] ?? ''
    expect(bottom.indexOf('x')).toBe(Math.round((165 / 364) * 70))
  })

  it('draws the line to compare with at its height and says what it is', () => {
    const lines = plotText(plot)
    expect(rowsOf(lines)[6]).toMatch(/^-{10,}/)
    expect(lines.at(-1)).toContain('action threshold: 1')
  })

  it('tells what happened under the plot, by letter', () => {
    expect(plotText(plot).join('\n')).toMatch(/a 2026-04-01 door sweep fitted/)
  })

  it.each([
    ['nothing measured', { ...plot, points: [{ day: '2026-02-01', value: null }] }, 'nothing was measured'],
    ['a period that is none', { ...plot, from: '2026-05-01', to: '2026-01-01' }, 'nothing to draw'],
  ])('%s is said', (_, odd, words) => {
    expect(plotText(odd).join('\n')).toContain(words)
  })

  it.each([
    ['all zero', [{ day: '2026-02-01', value: 0, low: 0, high: 0 }]],
    ['a million', [{ day: '2026-02-01', value: 1_000_000, low: 900_000, high: null }]],
    ['very small', [{ day: '2026-02-01', value: 1e-7, low: 0, high: 1e-6 }]],
  ])('%s gives no NaN and no Infinity', (_, points) => {
    const text = plotText({ ...plot, points }).join('\n')
    expect(text).not.toMatch(/NaN|Infinity|undefined/)
    expect(text).toContain('o')
  })

  it('makes control characters of a record visible', () => {
    const text = plotText({ ...plot, marks: [{ day: '2026-04-01', says: 'a\u001b[31m' }] }).join('\n')
    expect(text).not.toContain('\u001b')
  })
})
