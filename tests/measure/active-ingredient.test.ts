import { describe, expect, it } from 'vitest'
import { activeIngredientIn } from '../../src/measure/active-ingredient.js'
import { numberOf } from '../../src/measure/fractions.js'
import { parseQuantity, type Quantity } from '../../src/measure/quantities.js'
import { sumsOf } from '../../src/measure/rates.js'

function quantity(text: string): Quantity {
  const read = parseQuantity(text)
  if (!read) throw new Error(`${text} is no quantity`)
  return read
}

function told(
  amounts: readonly string[],
  strength: string,
  density?: string,
  pieces: Readonly<Record<string, string>> = {},
) {
  const { grams, notTold } = activeIngredientIn(sumsOf(amounts.map(quantity)), quantity(strength), {
    density: density === undefined ? undefined : quantity(density),
    pieceWeights: new Map(Object.entries(pieces).map(([piece, weight]) => [piece, quantity(weight)])),
  })
  return { grams: grams && numberOf(grams), notTold }
}

describe('active ingredient in an amount of undiluted product', () => {
  it('is the percentage of a weight, exactly', () => {
    // 4.5 g + 1.5 g = 6 g; 0.6 % of it is 0.036 g.
    expect(told(['4.5 g', '1.5 g'], '0.6 %')).toEqual({ grams: 0.036, notTold: [] })
    // 2 oz = 2 × 28.349523125 g = 56.69904625 g; 5 % of it is 2.8349523125 g.
    expect(told(['2 oz'], '5 %')).toEqual({ grams: 2.8349523125, notTold: [] })
  })

  it('is the strength by volume of a volume', () => {
    // 1 fl oz is 1/128 gal; 2 lb/gal gives 1/64 lb = 453.59237 g / 64 = 7.08738078125 g.
    expect(told(['1 fl oz'], '2 lb/gal')).toEqual({ grams: 7.08738078125, notTold: [] })
    // 250 mL of 40 g/L is 10 g.
    expect(told(['250 mL'], '40 g/L')).toEqual({ grams: 10, notTold: [] })
  })

  it('goes over the density where the strength is not of what was measured', () => {
    // 100 mL × 1.2 g/mL = 120 g; 0.5 % of it is 0.6 g.
    expect(told(['100 mL'], '0.5 %', '1200 g/L')).toEqual({ grams: 0.6, notTold: [] })
    // 120 g / 1200 g/L = 0.1 L; of 40 g/L that is 4 g.
    expect(told(['120 g'], '40 g/L', '1200 g/L')).toEqual({ grams: 4, notTold: [] })
    // 100 mL is 120 g, with 80 g more 200 g; 0.5 % of it is 1 g.
    expect(told(['100 mL', '80 g'], '0.5 %', '1200 g/L')).toEqual({ grams: 1, notTold: [] })
  })

  it('is not told without the density, nor of pieces, and each reason is given', () => {
    expect(told(['6 fl oz'], '1.5 %')).toEqual({ grams: null, notTold: ['percent-of-a-volume'] })
    expect(told(['6 oz'], '2 lb/gal')).toEqual({ grams: null, notTold: ['strength-by-volume-of-a-weight'] })
    expect(told(['4 block', '1 packet'], '0.005 %', '1200 g/L')).toEqual({ grams: null, notTold: ['pieces'] })
  })

  it('is told of the part that can be told, with what is missing', () => {
    // 10 g at 2 % is 0.2 g; the fluid ounce and the blocks tell nothing.
    expect(told(['1 fl oz', '10 g', '2 block'], '2 %')).toEqual({
      grams: 0.2,
      notTold: ['pieces', 'percent-of-a-volume'],
    })
  })

  it('is told of pieces by what one of them weighs', () => {
    // 8 blocks of 20 g are 160 g; 0.005 % of it is 0.008 g.
    expect(told(['8 block'], '0.005 %', undefined, { block: '20 g' })).toEqual({ grams: 0.008, notTold: [] })
    // With 40 g of crumbs 200 g, and 0.01 g; a packet is no block.
    expect(told(['8 block', '40 g', '1 packet'], '0.005 %', undefined, { block: '20 g' })).toEqual({
      grams: 0.01,
      notTold: ['pieces'],
    })
    // 3 tablets of 2 oz are 6 oz = 170.09713875 g; over 1000 g/L 0.17009713875 L, of 40 g/L 6.80388555 g.
    expect(told(['3 tablet'], '40 g/L', '1000 g/L', { tablet: '2 oz' }).grams).toBeCloseTo(6.80388555, 12)
    expect(told(['3 tablet'], '40 g/L', undefined, { tablet: '2 oz' })).toEqual({
      grams: null,
      notTold: ['strength-by-volume-of-a-weight'],
    })
    // What weighs nothing tells nothing.
    expect(told(['8 block'], '0.005 %', undefined, { block: '0 g' }).notTold).toEqual(['pieces'])
  })

  it('is null of nothing and zero of a recorded zero', () => {
    expect(told([], '2 %')).toEqual({ grams: null, notTold: [] })
    expect(told(['0 g'], '2 %')).toEqual({ grams: 0, notTold: [] })
  })
})
