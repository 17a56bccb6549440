import { describe, expect, it } from 'vitest'
import { firstAndLast, holdsOn, inForce } from '../../src/ledger/spans.js'
import { day } from './small-site.js'

describe('a dated span', () => {
  it.each([
    ['2026-02-28', false],
    ['2026-03-01', true],
    ['2026-03-15', true],
    ['2026-03-31', true],
    ['2026-04-01', false],
  ])('from 2026-03-01 until 2026-03-31 holds on %s: %s', (date, holds) => {
    expect(holdsOn({ from: '2026-03-01', until: '2026-03-31' }, day(date))).toBe(holds)
  })

  it('without an end holds for good', () => {
    expect(holdsOn({ from: '2026-03-01' }, day('2099-01-01'))).toBe(true)
  })
})

describe('what is in force', () => {
  const spans = [
    { from: '2026-01-01', says: 'first' },
    { from: '2026-03-01', until: '2026-03-31', says: 'second' },
    { from: '2025-06-01', until: '2026-01-31', says: 'older' },
  ]

  it.each([
    ['2025-05-31', undefined],
    ['2025-06-01', 'older'],
    ['2025-12-31', 'older'],
    // The one that began last, wherever it is written.
    ['2026-01-01', 'first'],
    ['2026-03-01', 'second'],
    ['2026-03-31', 'second'],
    ['2026-04-01', 'first'],
  ])('on %s is %s', (date, says) => {
    expect(inForce(spans, day(date))?.says).toBe(says)
  })

  it('is the one written last of two that begin on one day', () => {
    const both = [
      { from: '2026-01-01', says: 'a' },
      { from: '2026-01-01', says: 'b' },
    ]
    expect(inForce(both, day('2026-01-01'))?.says).toBe('b')
  })

  it('is nothing where nothing is said', () => {
    expect(inForce(undefined, day('2026-01-01'))).toBeUndefined()
    expect(inForce([], day('2026-01-01'))).toBeUndefined()
  })
})

it('a stretch of dates has a first and a last day, which may be one', () => {
  expect(firstAndLast('2025-12-22 to 2026-01-02')).toEqual([day('2025-12-22'), day('2026-01-02')])
  expect(firstAndLast('2026-02-16')).toEqual([day('2026-02-16'), day('2026-02-16')])
})
