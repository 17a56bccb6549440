import { describe, expect, it } from 'vitest'
import { moreBetween, spreadAlong, spreadAround } from '../../src/measure/spread.js'

describe('along a wall', () => {
  it.each([
    // 60 ft at most 15 ft apart: four stretches, five devices.
    [60, 15, 5, 15, [0, 15, 30, 45, 60]],
    // 61 ft: five stretches of 12.2 ft.
    [61, 15, 6, 12.2, [0, 12.2, 24.4, 36.6, 48.8, 61]],
    [15, 15, 2, 15, [0, 15]],
    [8, 15, 2, 8, [0, 8]],
    // Within 7.5 ft of its middle everywhere.
    [7.5, 15, 1, 0, [3.75]],
    // 3 x 5.1 is a trace above 15.3 in binary.
    [3 * 5.1, 5.1, 4, 5.1, [0, 5.1, 10.2, 15.3]],
  ])('%d with at most %d between', (length, atMost, count, apart, at) => {
    expect(spreadAlong(length, atMost)).toEqual({ count, apart, at })
  })
})

describe('around a room', () => {
  it.each([
    // 30 by 24 ft is 108 ft around: at 15 ft eight devices, 13.5 ft apart.
    [108, 15, 8, 13.5],
    [60, 15, 4, 15],
    [10, 15, 1, 0],
  ])('%d with at most %d between', (length, atMost, count, apart) => {
    const spread = spreadAround(length, atMost)
    expect([spread?.count, spread?.apart]).toEqual([count, apart])
  })
})

it('between two neighbours as many more as keep the distance', () => {
  expect([15, 15.1, 30, 31, 45].map((apart) => moreBetween(apart, 15))).toEqual([0, 1, 1, 2, 2])
})

it.each([
  [0, 15],
  [-1, 15],
  [10, 0],
  [Number.NaN, 15],
  [Number.POSITIVE_INFINITY, 15],
  [1e9, 1],
])('%d with %d is no stretch', (length, atMost) => {
  expect(spreadAlong(length, atMost)).toBeNull()
  expect(spreadAround(length, atMost)).toBeNull()
  expect(moreBetween(length, atMost)).toBe(0)
})
