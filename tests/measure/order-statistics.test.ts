import { describe, expect, it } from 'vitest'
import { medianOf, timesEach, valueAt } from '../../src/measure/order-statistics.js'
import { seededRandom } from '../../src/measure/seeded-random.js'

describe('the value at a place', () => {
  it.each([
    ['one value', [7]],
    ['already in order', [1, 2, 3, 4, 5, 6]],
    ['the other way round', [6, 5, 4, 3, 2, 1]],
    ['all alike', [3, 3, 3, 3, 3]],
    ['mostly noughts', [0, 0, 5, 0, 0, 0, -2, 0, 1, 0]],
    ['beyond every number', [Number.POSITIVE_INFINITY, 0, Number.NEGATIVE_INFINITY, 1]],
  ])('is that of the values in order: %s', (_, values) => {
    const inOrder = [...values].sort((a, b) => a - b)
    for (const [place, expected] of inOrder.entries())
      expect(valueAt(Float64Array.from(values), place)).toBe(expected)
  })

  it('also of many, with ties, asked one after another of the same numbers', () => {
    const random = seededRandom(5)
    for (const length of [2, 3, 10, 101, 1000]) {
      const values = Float64Array.from({ length }, () => Math.floor(random.next() * length * 0.4))
      const inOrder = [...values].sort((a, b) => a - b)
      for (const place of [0, 1, length >> 1, length - 1, length >> 2])
        expect(valueAt(values, place)).toBe(inOrder[place])
      // They are put in another order, and none is lost.
      expect([...values].sort((a, b) => a - b)).toEqual(inOrder)
    }
  })

  it.each([-1, 3, Number.NaN])('is nothing where there is no place %s', (place) => {
    expect(valueAt(Float64Array.of(1, 2, 3), place)).toBeNull()
    expect(valueAt(new Float64Array(0), place)).toBeNull()
  })
})

it('the median is the middle, or the mean of the two middle ones', () => {
  expect(medianOf(Float64Array.of(9, 1, 5))).toBe(5)
  expect(medianOf(Float64Array.of(9, 1, 5, 2))).toBe(3.5)
  expect(medianOf(Float64Array.of(1e308, 1.2e308))).toBe(1.1e308)
  expect(medianOf(new Float64Array(0))).toBeNull()
})

it('counts how often each value occurs', () => {
  expect(timesEach([2, 1, 2, 2]).sort()).toEqual([1, 3])
})
