import { describe, expect, it } from 'vitest'
import { measuredCells, measuredColumns, measuredWords } from '../../src/reports/measured.js'

const column = { id: 'rate', title: 'rate', unit: 'per trap-week', decimals: 1 }

describe('a number with its interval', () => {
  it('is one cell for people and three for machines', () => {
    expect(measuredColumns(column).map(({ id, for: whom }) => [id, whom])).toEqual([
      ['rate-shown', 'people'],
      ['rate', 'work'],
      ['rate-low', 'work'],
      ['rate-high', 'work'],
    ])
    expect(measuredCells(column, { value: 2.14, low: 0.84, high: 4.36 })).toEqual({
      'rate-shown': '2.1 (0.8 to 4.4)',
      rate: 2.14,
      'rate-low': 0.84,
      'rate-high': 4.36,
    })
  })

  it('says which side nothing bounds', () => {
    expect(measuredWords({ value: 2, low: 1, high: null }, 0)).toBe('2 (1 or more)')
    expect(measuredWords({ value: null, low: 1, high: null }, 0)).toBe('1 or more')
    expect(measuredWords({ value: 0, low: null, high: 3 }, 0)).toBe('0 (at most 3)')
    expect(measuredWords({ value: 2, low: null, high: null }, 0)).toBe('2')
    expect(measuredWords({ value: -0.04, low: -0.04, high: 0.04 }, 1)).toBe('0.0 (0.0 to 0.0)')
  })

  it('is never NaN or Infinity', () => {
    const infinite = { value: Number.NaN, low: 0.5, high: Number.POSITIVE_INFINITY }
    expect(measuredCells(column, infinite)).toEqual({
      'rate-shown': '0.5 or more',
      rate: null,
      'rate-low': 0.5,
      'rate-high': null,
    })
    expect(Object.values(measuredCells(column, null))).toEqual([null, null, null, null])
  })
})
