import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Amount, Mix, NoMix } from '../../src/measure/mixing.js'
import {
  activeIn,
  againstLimit,
  amountOf,
  mixAtRate,
  mixToStrength,
  quantityOf,
} from '../../src/measure/mixing.js'
import { parseQuantity, type Quantity } from '../../src/measure/quantities.js'
import type { Unit } from '../../src/measure/unit-table.js'

function q(text: string): Quantity {
  const read = parseQuantity(text)
  if (!read) throw new Error(`${text} is no quantity`)
  return read
}

function mixed(mix: Mix | NoMix): Mix {
  if (typeof mix === 'string') throw new Error(mix)
  return mix
}

function inUnit(amount: Amount | undefined, unit: Unit): number {
  if (!amount) throw new Error('there is no such amount')
  return quantityOf(amount, unit).value
}

/** A percent of the published value, as a distance. */
function within(percent: number, published: number, value: number): void {
  expect(Math.abs(value - published)).toBeLessThanOrEqual((percent / 100) * published)
}

const toStrength = (strength: string, target: string, make: string, diluent?: string, product?: string) =>
  mixToStrength(
    { strength: q(strength), target: q(target), make: q(make) },
    {
      diluent: diluent === undefined ? undefined : q(diluent),
      product: product === undefined ? undefined : q(product),
    },
  )

const atRate = (
  rate: string,
  per: string,
  on: string,
  { strength, density, inMix = false }: { strength?: string; density?: string; inMix?: boolean } = {},
) =>
  mixAtRate(
    {
      rate: q(rate),
      per: q(per),
      on: q(on),
      strength: strength === undefined ? undefined : q(strength),
      inMix,
    },
    { product: density === undefined ? undefined : q(density) },
  )

// The figure for water that MD0173 and most extension tables work with.
const water = '8.34 lb/gal'

describe('worked examples of US Army Medical Department, subcourse MD0173', () => {
  it('55 gal of 1 % from a 48 % concentrate: 1.146 gal and 53.9 gal of water', () => {
    const mix = mixed(toStrength('48 %', '1 %', '55 gal'))
    within(0.5, 1.146, inUnit(mix.product, 'gal'))
    within(0.5, 53.9, inUnit(mix.diluent, 'gal'))
    expect(mix.product.unit).toBe('gal')
  })

  it('10 lb of 5 % dust from 80 % powder: 0.625 lb, which is 10 oz, and 9 lb 6 oz of talc', () => {
    const mix = mixed(toStrength('80 %', '5 %', '10 lb'))
    expect(inUnit(mix.product, 'lb')).toBe(0.625)
    expect(inUnit(mix.product, 'oz')).toBe(10)
    expect(inUnit(mix.diluent, 'oz')).toBe(9 * 16 + 6)
  })

  it('5 gal of 2 % suspension from 80 % wettable powder: 1.04 lb', () => {
    const mix = mixed(toStrength('80 %', '2 %', '5 gal', water))
    within(0.5, 1.04, inUnit(mix.product, 'lb'))
    expect(mix.product.unit).toBe('lb')
    // 5 gal × 8.34 lb/gal = 41.7 lb; less 1.0425 lb is 40.6575 lb, ÷ 8.34 lb/gal = 4.875 gal.
    expect(inUnit(mix.diluent, 'gal')).toBe(4.875)
  })

  it('10 lb of active ingredient an acre with 5 % dust: 200 lb of dust an acre', () => {
    const mix = mixed(atRate('10 lb', '1 acre', '1 acre', { strength: '5 %' }))
    expect(inUnit(mix.product, 'lb')).toBe(200)
  })

  it('0.3 lb of active ingredient an acre with a 6 % emulsion of 8.34 lb/gal: 0.6 gal an acre', () => {
    const mix = mixed(atRate('0.3 lb', '1 acre', '1 acre', { strength: '6 %', density: '8.34 lb/gal' }))
    within(0.5, 0.6, inUnit(mix.productOtherwise, 'gal'))
  })
})

// Applicator training page "Calculations for Mixing" at pesticidesafety.org; owner unverified.
describe('a rate per 100 gallons of mix, as an applicator training page works it', () => {
  it.each<[string, string, Unit, number]>([
    ['2 lb', '300 gal', 'lb', 6],
    ['2 lb', '20 gal', 'oz', 6.4],
    ['2 pt', '300 gal', 'pt', 6],
    ['2 pt', '20 gal', 'fl oz', 6.4],
  ])('%s per 100 gal in %s', (rate, make, unit, published) => {
    const mix = mixed(atRate(rate, '100 gal', make, { inMix: true }))
    within(0.5, published, inUnit(mix.product, unit))
  })
})

it('gallons × pounds / 100, as the dilution chapter of TAMU hortipm has it: 2 lb per 100 gal in 500 gal is 10 lb', () => {
  // The chapter asks the question and gives the formula; 500 × 2 / 100 = 10 by hand.
  expect(inUnit(mixed(atRate('2 lb', '100 gal', '500 gal', { inMix: true })).product, 'lb')).toBe(10)
})

// MU Extension (Missouri) G7510. Its table takes 100 gal of mix as 800 lb, which is 4 % below 834 lb; hence 5 %.
describe('dilution table of MU Extension G7510', () => {
  it.each<[string, string, string, Unit, number]>([
    ['4 lb/gal', '1 %', '100 gal', 'gal', 2],
    ['4 lb/gal', '0.5 %', '100 gal', 'gal', 1],
    ['4 lb/gal', '0.25 %', '100 gal', 'pt', 4],
    ['4 lb/gal', '0.125 %', '100 gal', 'pt', 2],
    ['4 lb/gal', '0.0625 %', '100 gal', 'pt', 1],
    ['1 lb/gal', '1 %', '100 gal', 'gal', 8],
    ['1 lb/gal', '0.03125 %', '100 gal', 'pt', 2],
    ['4 lb/gal', '0.5 %', '1 gal', 'tsp', 8],
  ])('%s to %s, %s', (strength, target, make, unit, published) => {
    within(5, published, inUnit(mixed(toStrength(strength, target, make, water)).product, unit))
  })
})

// Tables and calculations page of the noxious weed programme of Cowlitz County, Washington: pints an acre.
describe('table of a county weed programme', () => {
  it.each<[string, string, number]>([
    ['1 lb', '4 lb/gal', 2],
    ['1.5 lb', '3 lb/gal', 4],
    ['0.5 lb', '6.7 lb/gal', 0.6],
  ])('%s of active ingredient an acre with %s', (rate, strength, pints) => {
    within(1, pints, inUnit(mixed(atRate(rate, '1 acre', '1 acre', { strength })).product, 'pt'))
  })

  it('1 lb with 2.64 lb/gal: the table rounds 3.0303 pints to 3', () => {
    // 8 pt/gal × 1 lb ÷ 2.64 lb/gal = 3.0303 pt: the table's figure is that number to the nearest pint.
    const pints = inUnit(mixed(atRate('1 lb', '1 acre', '1 acre', { strength: '2.64 lb/gal' })).product, 'pt')
    expect(Math.round(pints)).toBe(3)
    expect(pints).toBeCloseTo(8 / 2.64, 10)
  })
})

describe('strengths of different kinds', () => {
  it.each<[string, string, string, Unit, number]>([
    // 10 gal × 0.1 lb/gal = 1 lb of active ingredient; ÷ 80 % = 1.25 lb.
    ['80 %', '0.1 lb/gal', '10 gal', 'lb', 1.25],
    // 100 lb × 1 % = 1 lb; ÷ 4 lb/gal = 0.25 gal.
    ['4 lb/gal', '1 %', '100 lb', 'gal', 0.25],
    // 100 L × 4.8 g/L = 480 g; ÷ 480 g/L = 1 L.
    ['480 g/L', '4.8 g/L', '100 L', 'L', 1],
  ])('%s to %s, %s', (strength, target, make, unit, byHand) => {
    const { product } = mixed(toStrength(strength, target, make))
    expect([product.unit, quantityOf(product).value]).toEqual([unit, byHand])
  })
})

describe('active ingredient', () => {
  it('30 lb of a 50 % wettable powder hold 15 lb (a common extension example, from memory)', () => {
    const mix = mixed(atRate('30 lb', '1 acre', '1 acre'))
    expect(activeIn(mix, q('50 %'))?.result.unit).toBe('lb')
    expect(inUnit(activeIn(mix, q('50 %'))?.result, 'lb')).toBe(15)
  })

  it('is volume × weight per volume, and takes a density across', () => {
    const pint = mixed(atRate('1 pt', '1 acre', '1 acre'))
    // 1/8 gal × 4 lb/gal = 0.5 lb.
    expect(inUnit(activeIn(pint, q('4 lb/gal'))?.result, 'lb')).toBe(0.5)
    expect(activeIn(pint, q('48 %'))).toBeUndefined()
    const weighed = mixed(atRate('1 pt', '1 acre', '1 acre', { density: '8 lb/gal' }))
    // 1/8 gal × 8 lb/gal × 48 % = 0.48 lb.
    expect(inUnit(activeIn(weighed, q('48 %'))?.result, 'lb')).toBe(0.48)
  })

  it('1 oz in 1 gal is 7,490 mg/L (an extension table, from memory)', () => {
    const { size } = amountOf(q('1 oz'))
    const milligrams = quantityOf({ size, unit: 'mg' }).value
    const litres = quantityOf(amountOf(q('1 gal')), 'L').value
    within(0.5, 7490, milligrams / litres)
  })
})

describe('units are exact, as NIST Handbook 44 Appendix C defines them', () => {
  it('1 fl oz per 1000 ft2 is 43.56 fl oz an acre, and 0.3403125 gal', () => {
    // 43,560 ft² an acre; 43.56 / 128 = 0.3403125.
    const mix = mixed(atRate('1 fl oz', '1000 ft2', '1 acre'))
    expect(quantityOf(mix.product).value).toBe(43.56)
    expect(inUnit(mix.product, 'gal')).toBe(0.3403125)
  })

  it('1 oz per 1000 ft2 is 2.7225 lb an acre', () => {
    // 43.56 / 16 = 2.7225.
    expect(inUnit(mixed(atRate('1 oz', '1000 ft2', '1 acre')).product, 'lb')).toBe(2.7225)
  })

  it('a third of a limit, three times, is at the limit and not above it', () => {
    const mix = mixed(atRate('5 fl oz', '3 acre', '1 acre'))
    const limit = { most: q('5 fl oz'), per: q('3 acre') }
    expect(againstLimit(mix, q('1 acre'), limit)).toBe(0)
    expect(againstLimit(mix, q('0.999999 acre'), limit)).toBe(1)
    expect(againstLimit(mix, q('1.000001 acre'), limit)).toBe(-1)
  })
})

describe('weight and volume never meet without a density', () => {
  it('an ounce rate is not held against a fluid ounce limit', () => {
    const limit = { most: q('1 fl oz'), per: q('1000 ft2') }
    expect(againstLimit(mixed(atRate('1 oz', '1000 ft2', '1000 ft2')), q('1000 ft2'), limit)).toBeNull()
    // 1 oz at 8 lb/gal: 1/16 lb ÷ 8 lb/gal = 1/128 gal = 1 fl oz.
    const weighed = mixed(atRate('1 oz', '1000 ft2', '1000 ft2', { density: '8 lb/gal' }))
    expect(againstLimit(weighed, q('1000 ft2'), limit)).toBe(0)
  })

  it('a percent of a mix made by volume from a weight per volume takes the density of the diluent', () => {
    expect(toStrength('4 lb/gal', '1 %', '100 gal')).toBe('density of the diluent needed')
    expect(toStrength('80 %', '0.1 lb/gal', '100 lb')).toBe('density of the diluent needed')
  })

  it('powder in a tank leaves the water untold', () => {
    const mix = mixed(atRate('2 lb', '100 gal', '300 gal', { inMix: true }))
    expect([mix.diluent, mix.productOtherwise]).toEqual([undefined, undefined])
  })
})

describe('what cannot be', () => {
  it('a target stronger than the product; the same strength is the product itself', () => {
    expect(toStrength('1 %', '2 %', '1 gal')).toBe('target stronger than product')
    expect(toStrength('4 lb/gal', '480 g/L', '1 gal')).toBe('target stronger than product')
    const same = mixed(toStrength('2 %', '2 %', '1 gal'))
    expect([inUnit(same.product, 'gal'), inUnit(same.diluent, 'gal')]).toEqual([1, 0])
  })

  it('more product than mix', () => {
    expect(atRate('2 gal', '1 gal', '5 gal', { inMix: true })).toBe('more product than mix')
    // 60 % of 8.34 lb is 5.004 lb, which takes 1.251 gal of 4 lb/gal: more than the gallon.
    expect(toStrength('4 lb/gal', '60 %', '1 gal', water)).toBe('more product than mix')
  })
})

it('product and diluent make up the mix, and the mix has the strength asked for', () => {
  const hundredths = fc.integer({ min: 1, max: 10_000 })
  fc.assert(
    fc.property(hundredths, hundredths, fc.integer({ min: 1, max: 500 }), (one, other, gallons) => {
      const [weak, strong] = one < other ? [one, other] : [other, one]
      const mix = mixed(toStrength(`${strong / 100} %`, `${weak / 100} %`, `${gallons} gal`))
      const product = inUnit(mix.product, 'gal')
      expect(product + inUnit(mix.diluent, 'gal')).toBeCloseTo(gallons, 9)
      expect((product * strong) / gallons).toBeCloseTo(weak, 7)
    }),
  )
})

it('the steps end in what is told, each by its own arithmetic', () => {
  const { steps, product } = mixed(toStrength('80 %', '2 %', '5 gal', water))
  expect(steps.map(({ what }) => what)).toEqual([
    'weight of the mix',
    'undiluted product',
    'diluent by weight',
    'diluent by volume',
  ])
  expect(steps[1]?.result).toBe(product)
  // 5 gal × 8.34 lb/gal = 41.7 lb.
  expect(inUnit(steps[0]?.result, 'lb')).toBe(41.7)
})
