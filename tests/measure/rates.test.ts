import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compareFractions, fractionOf, numberOf } from '../../src/measure/fractions.js'
import { parseQuantity, type Quantity } from '../../src/measure/quantities.js'
import {
  counted,
  heldAgainstRate,
  inUnitOf,
  type Sums,
  shown,
  sumAs,
  sumsOf,
  withOne,
} from '../../src/measure/rates.js'

function quantity(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (parsed === null) throw new Error(`${text} is no quantity`)
  return parsed
}

const measures = (density?: string, pieces: Readonly<Record<string, string>> = {}) => ({
  density: density === undefined ? undefined : quantity(density),
  pieceWeights: new Map(Object.entries(pieces).map(([piece, weight]) => [piece, quantity(weight)])),
})

const held = (
  amounts: string[],
  on: string[],
  most: string,
  per: string,
  density?: string,
  pieces?: Readonly<Record<string, string>>,
) =>
  heldAgainstRate(
    amounts.map(quantity),
    on.map(quantity),
    { most: quantity(most), per: quantity(per) },
    measures(density, pieces),
  )

describe('an amount on an extent is held against a rate exactly', () => {
  test.each<[string[], string[], string, string, -1 | 0 | 1]>([
    // 16 × 3 / 1000 = 0.048
    [['0.048 fl oz'], ['3 ft2'], '16 fl oz', '1000 ft2', 0],
    [['0.047999 fl oz'], ['3 ft2'], '16 fl oz', '1000 ft2', -1],
    [['0.048001 fl oz'], ['3 ft2'], '16 fl oz', '1000 ft2', 1],
    // One acre is 43,560 ft2 (NIST Handbook 44, Appendix C), so 1 fl oz per 1000 ft2 is 43.56 fl oz on an acre.
    [['43.56 fl oz'], ['1 acre'], '1 fl oz', '1000 ft2', 0],
    [['43.560001 fl oz'], ['1 acre'], '1 fl oz', '1000 ft2', 1],
    // and 1 oz per 1000 ft2 is 43.56 / 16 = 2.7225 lb on an acre.
    [['2.7225 lb'], ['1 acre'], '1 oz', '1000 ft2', 0],
    [['2.722501 lb'], ['1 acre'], '1 oz', '1000 ft2', 1],
    // A third has no end as a decimal: 1 mL on 3 m2 is exactly 1 mL per 3 m2, 0.333333 mL on 1 m2 a little less.
    [['1 mL'], ['3 m2'], '2 mL', '6 m2', 0],
    [['0.333333 mL'], ['1 m2'], '1 mL', '3 m2', -1],
    [['0.333334 mL'], ['1 m2'], '1 mL', '3 m2', 1],
    // Two parts: 8 fl oz and half a pint (8 fl oz) on 600 and 400 ft2 are 16 fl oz on 1000 ft2.
    [['8 fl oz', '0.5 pt'], ['600 ft2', '400 ft2'], '16 fl oz', '1000 ft2', 0],
    // Room air: 3 fl oz in 2000 ft3 is 1.5 fl oz per 1000 ft3.
    [['3 fl oz'], ['2000 ft3'], '1.5 fl oz', '1000 ft3', 0],
    // A length: 4 yd is 12 ft.
    [['6 g'], ['4 yd'], '0.5 g', '1 ft', 0],
    [['3 blocks'], ['2 each'], '1 block', '1 each', 1],
  ])('%j on %j against %s per %s', (amounts, on, most, per, expected) => {
    expect(held(amounts, on, most, per)?.compared).toBe(expected)
  })

  test('the rate that was used is told in the unit of the limit', () => {
    // 3 fl oz on 3 ft2 is 1000 fl oz per 1000 ft2.
    expect(held(['3 fl oz'], ['3 ft2'], '16 fl oz', '1000 ft2')?.used).toEqual(quantity('1000 fl oz'))
    // 12 g in 8 placements is 1.5 g for each.
    const used = heldAgainstRate([quantity('12 g')], [counted(8)], { most: quantity('1 g'), per: counted(1) })
    expect(used).toEqual({ compared: 1, used: quantity('1.5 g') })
    // 1 lb on an acre is 453.59237 g on 4046.8564224 m2: 1120.85 g on a hectare, 1.12085 kg.
    expect(held(['1 lb'], ['1 acre'], '1 kg', '1 hectare')?.used.value).toBeCloseTo(1.120851156, 9)
  })

  test.each<[string, string[], string[], string, string]>([
    ['an ounce is no fluid ounce', ['2 oz'], ['1 ft2'], '1 fl oz', '1 ft2'],
    ['a block is no packet', ['2 blocks'], ['1 ft2'], '1 packet', '1 ft2'],
    ['a length is no extent', ['2 g'], ['1 ft'], '1 g', '1 ft2'],
    ['one of two amounts does not compare', ['2 g', '1 block'], ['1 ft2'], '1 g', '1 ft2'],
    ['nothing was used', [], ['1 ft2'], '1 g', '1 ft2'],
    ['on nothing', ['2 g'], ['0 ft2'], '1 g', '1 ft2'],
    ['on what is not told', ['2 g'], [], '1 g', '1 ft2'],
  ])('nothing is said where %s', (_, amounts, on, most, per) => {
    expect(held(amounts, on, most, per)).toBeNull()
  })
})

describe('a density brings weight and volume together', () => {
  test.each<[string, string, string, -1 | 0 | 1]>([
    // 1000 g/L: a gram is a millilitre.
    ['100 g', '100 mL', '1000 g/L', 0],
    ['100.000001 g', '100 mL', '1000 g/L', 1],
    // A gallon at 8.6 lb/gal weighs 8.6 lb.
    ['8.6 lb', '1 gal', '8.6 lb/gal', 0],
    ['8.600001 lb', '1 gal', '8.6 lb/gal', 1],
    ['1 gal', '8.6 lb', '8.6 lb/gal', 0],
    // Lighter than water: 2 oz (56.7 g) at 800 g/L is 70.9 mL, more than 2 fl oz (59.1 mL).
    ['2 oz', '2 fl oz', '800 g/L', 1],
    // Denser: at 1200 g/L it is 47.2 mL.
    ['2 oz', '2 fl oz', '1200 g/L', -1],
  ])('%s against %s at %s', (amount, most, density, expected) => {
    expect(held([amount], ['1 each'], most, '1 each', density)?.compared).toBe(expected)
  })

  test('but never a block, nor with a density of nothing, nor with a percentage', () => {
    expect(held(['1 block'], ['1 each'], '1 mL', '1 each', '1000 g/L')).toBeNull()
    expect(held(['1 g'], ['1 each'], '1 mL', '1 each', '0 g/L')).toBeNull()
    expect(held(['1 g'], ['1 each'], '1 mL', '1 each', '50 %')).toBeNull()
  })
})

describe('what one piece weighs brings pieces and weight together', () => {
  test.each<[string[], string, -1 | 0 | 1]>([
    // 2 blocks of 20 g are 40 g.
    [['2 block'], '40 g', 0],
    [['2.000001 block'], '40 g', 1],
    [['40 g'], '2 block', 0],
    [['40.000001 g'], '2 block', 1],
    // 1 block and 19.9 g are 39.9 g.
    [['1 block', '19.9 g'], '2 block', -1],
    // 4 blocks are 80 g, as much as 2 packets of 40 g.
    [['4 block'], '2 packet', 0],
    [['4.1 block'], '2 packet', 1],
  ])('%j against %s', (amounts, most, expected) => {
    const pieces = { block: '20 g', packet: '40 g' }
    expect(held(amounts, ['1 each'], most, '1 each', undefined, pieces)?.compared).toBe(expected)
  })

  test('but not with pieces of which it is not known, nor with a weight of nothing', () => {
    const against = (amount: string, most: string, pieces: Readonly<Record<string, string>>) =>
      held([amount], ['1 each'], most, '1 each', undefined, pieces)
    expect(against('2 packet', '40 g', { block: '20 g' })).toBeNull()
    expect(against('2 block', '40 g', { block: '0 g' })).toBeNull()
    expect(against('40 g', '2 block', { block: '0 g' })).toBeNull()
    expect(against('2 block', '40 mL', { block: '20 g' })).toBeNull()
  })
})

describe('sums', () => {
  const inUnit = (sums: Sums, like: string, density?: string) => {
    const { size, leftOut } = sumAs(sums, quantity(like), measures(density))
    return [inUnitOf(size, quantity(like)).value, leftOut]
  }

  test('what is unlike is kept apart and said to be left out', () => {
    const sums = sumsOf(['1 gal', '1 qt', '2 oz', '1 block', '2 packets'].map(quantity))
    // 4 qt + 1 qt
    expect(inUnit(sums, '1 qt')).toEqual([5, true])
    expect(inUnit(sums, '1 block')).toEqual([1, true])
    expect(inUnit(sumsOf(['1 gal', '1 qt'].map(quantity)), '1 qt')).toEqual([5, false])
    expect(inUnit(new Map(), '1 qt')).toEqual([0, false])
  })

  test('a litre at 900 g/L and 100 g are 1000 g', () => {
    expect(inUnit(sumsOf(['1 L', '100 g'].map(quantity)), '1 g', '900 g/L')).toEqual([1000, false])
  })

  const amounts = fc
    .tuple(fc.nat({ max: 999_999 }), fc.constantFrom('fl oz', 'mL', 'gal', 'tsp', 'oz', 'g', 'block'))
    .map(([thousandths, unit]) => quantity(`${thousandths / 1000} ${unit}`))

  test('are the same in any order, and what is taken away again leaves no trace', () => {
    fc.assert(
      fc.property(fc.array(amounts, { minLength: 1 }), amounts, (list, one) => {
        const asList = (sums: Sums) => [...sums].map(([kind, size]) => `${kind} ${numberOf(size)}`).sort()
        expect(asList(sumsOf(list.toReversed()))).toEqual(asList(sumsOf(list)))
        const back = withOne(withOne(sumsOf(list), one), one, 'take away')
        for (const [kind, size] of sumsOf(list))
          expect(compareFractions(back.get(kind) ?? fractionOf('0'), size)).toBe(0)
      }),
    )
  })

  test('stay short however many are added', () => {
    let sums: Sums = new Map()
    for (let n = 0; n < 2000; n += 1) sums = withOne(sums, quantity('0.1 fl oz'))
    expect(inUnit(sums, '1 fl oz')).toEqual([200, false])
    // 200 × 29.5735295625 mL = 5914.7059125 mL = 59147059125 / 10^7; both divide by 125 (473176473 / 80000), no further.
    expect(sums.get('volume')).toEqual({ numerator: 473_176_473n, denominator: 80_000n })
  })
})

describe('a figure is shown with six digits', () => {
  test.each([
    ['1000 fl oz', undefined, '1000 fl oz'],
    ['0.123456 g', undefined, '0.123456 g'],
    ['16.000001 fl oz', undefined, '16 fl oz'],
    ['16.000001 fl oz', '16 fl oz', 'just above 16 fl oz'],
    ['16.1 fl oz', '16 fl oz', '16.1 fl oz'],
    ['16.000001 fl oz', '1 pt', 'just above 16 fl oz'],
  ])('%s above %s', (text, above, expected) => {
    expect(shown(quantity(text), above === undefined ? undefined : quantity(above))).toBe(expected)
  })
})
