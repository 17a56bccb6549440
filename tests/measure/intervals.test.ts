import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type DaySpan, daysInAny, daysInCommon, joined, overlap } from '../../src/measure/intervals.js'

const span = fc
  .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: -3, max: 15 }))
  .map(([from, length]): DaySpan => ({ from, until: from + length }))

function daysOf({ from, until }: DaySpan): number[] {
  return Array.from({ length: Math.max(0, until - from) }, (_, i) => from + i)
}

test('overlap and days in common are those of the sets of days', () => {
  fc.assert(
    fc.property(span, span, (a, b) => {
      const shared = daysOf(a).filter((day) => daysOf(b).includes(day))
      expect(daysInCommon(a, b)).toBe(shared.length)
      const part = overlap(a, b)
      expect(part === null ? [] : daysOf(part)).toEqual(shared)
    }),
  )
})

test('joined spans hold the same days, in order, with a gap between any two', () => {
  fc.assert(
    fc.property(fc.array(span, { maxLength: 12 }), (spans) => {
      const days = new Set(spans.flatMap(daysOf))
      const result = joined(spans)
      expect(result.flatMap(daysOf)).toEqual([...days].sort((a, b) => a - b))
      expect(daysInAny(spans)).toBe(days.size)
      result.forEach((one, i) => {
        const next = result[i + 1]
        if (next !== undefined) expect(next.from).toBeGreaterThan(one.until)
      })
    }),
  )
})

test('touching spans share no day; the last day is not in a span', () => {
  expect(overlap({ from: 0, until: 5 }, { from: 5, until: 9 })).toBeNull()
  expect(
    joined([
      { from: 5, until: 9 },
      { from: 0, until: 5 },
    ]),
  ).toEqual([{ from: 0, until: 9 }])
  const input = [
    { from: 0, until: 5 },
    { from: 1, until: 8 },
  ]
  joined(input)
  expect(input[0]).toEqual({ from: 0, until: 5 })
})
