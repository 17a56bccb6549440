import { describe, expect, it } from 'vitest'
import { compareIds } from '../../src/reports/map-devices.js'
import { boundsOf, liesIn, outlineOf } from '../../src/reports/map-outline.js'

const spots = (...pairs: readonly (readonly [number, number])[]) => pairs.map(([x, y]) => ({ x, y }))

describe('liesIn', () => {
  // An L: ten by ten without the lower right six by six.
  const ell = spots([0, 0], [10, 0], [10, 4], [4, 4], [4, 10], [0, 10])

  it.each([
    [[2, 2], true],
    [[9, 3], true],
    [[3, 9], true],
    [[7, 7], false],
    [[-1, 2], false],
    [[11, 0], false],
    // On a side, on a corner, and level with a corner outside.
    [[4, 7], true],
    [[10, 4], true],
    [[11, 4], false],
    [[-3, 10], false],
  ] as const)('%j: %s', ([x, y], is) => {
    expect(liesIn({ x, y }, ell)).toBe(is)
    expect(liesIn({ x, y }, [...ell].reverse())).toBe(is)
  })

  it('goes by the even-odd rule where sides cross: the two halves of a bow tie, and not between them', () => {
    const bow = spots([0, 0], [10, 10], [10, 0], [0, 10])
    expect([liesIn({ x: 1, y: 5 }, bow), liesIn({ x: 9, y: 5 }, bow)]).toEqual([true, true])
    expect([liesIn({ x: 5, y: 1 }, bow), liesIn({ x: 5, y: 9 }, bow)]).toEqual([false, false])
  })
})

describe('outlineOf', () => {
  it('does not take sides that only touch for crossing', () => {
    // A room with a spur drawn out and back along the same line.
    const spur = [
      [0, 0],
      [10, 0],
      [10, 10],
      [5, 10],
      [5, 14],
      [5, 10],
      [0, 10],
    ] as const
    expect(outlineOf(spur).outlineState).toBe('drawn')
  })

  it('finds no size in corners that are all one spot', () => {
    expect(
      outlineOf([
        [3, 3],
        [3, 3],
        [3, 3],
      ]),
    ).toEqual({ outlineState: 'no size', outline: [] })
    expect(outlineOf(undefined)).toEqual({ outlineState: 'none', outline: [] })
  })
})

it('boundsOf is the smallest upright box', () => {
  expect(boundsOf(spots([3, -2], [-1, 7], [2, 2]))).toEqual({ left: -1, top: -2, right: 3, bottom: 7 })
  expect(boundsOf([])).toBeNull()
})

it('ids are in the order of their numbers, whatever their length', () => {
  expect(['K10', 'K2', 'A', 'K2b', 'K', 'K02'].sort(compareIds)).toEqual([
    'A',
    'K',
    'K02',
    'K2',
    'K2b',
    'K10',
  ])
})
