import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  compareQuantities,
  convert,
  parseQuantity,
  type Quantity,
  quantityPattern,
  quantityPatternFor,
} from '../../src/measure/quantities.js'
import { spellings, type Unit, unitFacts, units } from '../../src/measure/unit-table.js'

function quantity(text: string): Quantity {
  const parsed = parseQuantity(text)
  if (parsed === null) throw new Error(`${text} is no quantity`)
  return parsed
}

describe('factors are those of NIST Handbook 44, Appendix C', () => {
  // Volume: 1 gal = 231 in³, 1 in = 2.54 cm. Weight: 1 lb avdp = 453.59237 g. Area: 1 ft = 0.3048 m;
  // international acre.
  test.each([
    ['1 fl oz', 'mL', 29.5735295625],
    ['1 tsp', 'mL', 4.92892159375],
    ['1 tbsp', 'mL', 14.78676478125],
    ['1 cup', 'mL', 236.5882365],
    ['1 pt', 'mL', 473.176473],
    ['1 qt', 'mL', 946.352946],
    ['1 gal', 'L', 3.785411784],
    ['1 oz', 'g', 28.349523125],
    ['1 lb', 'g', 453.59237],
    ['1 in', 'cm', 2.54],
    ['1 ft', 'm', 0.3048],
    ['1 yd', 'm', 0.9144],
    ['1 ft2', 'm2', 0.09290304],
    ['1 yd2', 'm2', 0.83612736],
    ['1 1000 ft2', 'm2', 92.90304],
    ['1 acre', 'm2', 4046.8564224],
    ['1 hectare', 'm2', 10_000],
  ])('%s in %s', (text, unit, value) => {
    expect(convert(quantity(text), unit)?.value).toBe(value)
  })

  // Whole-number relations of the same appendix; weeks, months and metric multiples by definition.
  test.each([
    ['1 gal', '4 qt'],
    ['1 qt', '2 pt'],
    ['1 pt', '2 cup'],
    ['1 cup', '8 fl oz'],
    ['1 fl oz', '2 tbsp'],
    ['1 tbsp', '3 tsp'],
    ['1 gal', '128 fl oz'],
    ['1 lb', '16 oz'],
    ['1 yd', '3 ft'],
    ['1 ft', '12 in'],
    ['1 yd2', '9 ft2'],
    ['1 acre', '43560 ft2'],
    ['1 acre', '4840 yd2'],
    ['1 hectare', '10000 m2'],
    ['1 kg', '1000000 mg'],
    ['1 week', '168 h'],
    ['1 year', '12 months'],
  ])('%s is exactly %s', (one, other) => {
    expect(compareQuantities(quantity(one), quantity(other))).toBe(0)
  })

  // NIST SP 811 App. B prints these rounded figures (its acre is the survey acre, 4 parts in a million
  // larger).
  test('rounded figures of NIST SP 811', () => {
    expect(convert(quantity('1 acre'), 'm2')?.value).toBeCloseTo(4046.873, 1)
    expect(convert(quantity('1 lb/gal'), 'g/L')?.value).toBeCloseTo(119.8264, 4)
    expect(convert(quantity('1 hectare'), 'acre')?.value).toBeCloseTo(2.471_053_8, 7)
  })
})

describe('legal boundaries are met exactly', () => {
  test('4,356 ft2 is one tenth of an acre, no more and no less', () => {
    expect(compareQuantities(quantity('4356 ft2'), quantity('0.1 acre'))).toBe(0)
    expect(compareQuantities(quantity('4355.999999 ft2'), quantity('0.1 acre'))).toBe(-1)
    expect(compareQuantities(quantity('4356.000001 ft2'), quantity('0.1 acre'))).toBe(1)
  })

  test('decimals count as written', () => {
    expect(compareQuantities(quantity('0.3 L'), quantity('300 mL'))).toBe(0)
    expect(compareQuantities(quantity('72 F'), quantity('22.222222 C'))).toBe(1)
    expect(compareQuantities(quantity('212 F'), quantity('100 C'))).toBe(0)
    expect(compareQuantities(quantity('-40 F'), quantity('-40 C'))).toBe(0)
  })
})

describe('what does not measure the same thing does not convert', () => {
  test.each([
    ['1 fl oz', 'oz'],
    ['1 oz', 'fl oz'],
    ['1 block', 'packet'],
    ['1 trap', 'each'],
    ['1 month', 'day'],
    ['1 year', 'week'],
    ['1 %', 'g/L'],
    ['1 ft', 'ft2'],
    ['1 oz', 'ounce'],
  ])('%s in %s', (text, unit) => {
    expect(convert(quantity(text), unit)).toBeNull()
    const other = parseQuantity(`1 ${unit}`)
    if (other !== null) expect(compareQuantities(quantity(text), other)).toBeNull()
  })

  test('a number that is not finite has no place among quantities', () => {
    expect(convert({ value: Number.NaN, unit: 'g', dimension: 'weight' }, 'kg')).toBeNull()
    expect(compareQuantities({ value: Infinity, unit: 'g', dimension: 'weight' }, quantity('1 g'))).toBeNull()
  })
})

describe('parseQuantity', () => {
  test.each([
    ['4.5 fl oz', { value: 4.5, unit: 'fl oz', dimension: 'volume' }],
    ['1 block', { value: 1, unit: 'block', dimension: 'pieces' }],
    ['3 blocks', { value: 3, unit: 'block', dimension: 'pieces' }],
    ['900 ft²', { value: 900, unit: 'ft2', dimension: 'area' }],
    ['2.5 1000 ft2', { value: 2.5, unit: '1000 ft2', dimension: 'area' }],
    ['0.5 %', { value: 0.5, unit: '%', dimension: 'percent' }],
    ['14 days', { value: 14, unit: 'day', dimension: 'time' }],
    ['6 months', { value: 6, unit: 'month', dimension: 'calendar' }],
    ['-5 °C', { value: -5, unit: 'C', dimension: 'temperature' }],
    ['-0 C', { value: 0, unit: 'C', dimension: 'temperature' }],
  ])('reads %s', (text, expected) => {
    expect(parseQuantity(text)).toEqual(expected)
  })

  test.each([
    '4.5',
    'fl oz',
    '4.5fl oz',
    '4.5  fl oz',
    ' 4.5 fl oz',
    '4.5 fl oz\n',
    '4.5 Fl oz',
    '4.5 ml',
    '.5 oz',
    '5. oz',
    '05 oz',
    '1/2 oz',
    '1,000 ft2',
    '-1 oz',
    '+1 oz',
    '1e3 g',
    '1234567890 g',
    '0.1234567 g',
    '1 constructor',
    '',
  ])('refuses %j', (text) => {
    expect(parseQuantity(text)).toBeNull()
  })
})

describe('the pattern', () => {
  test('accepts exactly what parseQuantity reads, also with the unicode flag of JSON Schema tools', () => {
    const samples = fc
      .tuple(
        fc.constantFrom('', '-'),
        fc.stringMatching(/^[0-9]{0,11}\.?[0-9]{0,8}$/),
        fc.constantFrom(...spellings(), 'x', ''),
      )
      .map(([sign, number, unit]) => `${sign}${number} ${unit}`)
    fc.assert(
      fc.property(samples, (text) => {
        expect(new RegExp(quantityPattern, 'u').test(text)).toBe(parseQuantity(text) !== null)
      }),
      { numRuns: 2000 },
    )
  })

  test('of one dimension accepts that dimension alone', () => {
    const volume = new RegExp(quantityPatternFor('volume'), 'u')
    for (const unit of units) expect(volume.test(`1 ${unit}`)).toBe(unitFacts(unit)?.dimension === 'volume')
    expect(new RegExp(quantityPatternFor('temperature'), 'u').test('-3 F')).toBe(true)
    expect(new RegExp(quantityPatternFor('weight', 'temperature'), 'u').test('-3 g')).toBe(false)
  })

  test('every spelling names one unit', () => {
    const all = spellings()
    expect(new Set(all).size).toBe(all.length)
    for (const unit of units) expect(unitFacts(unit)?.unit).toBe(unit)
  })
})

const written = fc
  .tuple(fc.integer({ min: 0, max: 999_999_999 }), fc.integer({ min: 0, max: 999_999 }))
  .map(([whole, fraction]) => Number(`${whole}.${String(fraction).padStart(6, '0')}`))

const anyQuantity = fc.tuple(written, fc.constantFrom(...units)).map(([value, unit]): Quantity => {
  const facts = unitFacts(unit)
  if (facts === undefined) throw new Error(unit)
  return { value, unit, dimension: facts.dimension }
})

test('written out and read again, a quantity is the same', () => {
  fc.assert(
    fc.property(anyQuantity, (one) => {
      fc.pre(!String(one.value).includes('e'))
      expect(parseQuantity(`${one.value} ${one.unit}`)).toEqual(one)
    }),
  )
})

test('there and back again changes nothing beyond the last digit', () => {
  fc.assert(
    fc.property(anyQuantity, fc.constantFrom<Unit>(...units), (one, unit) => {
      const back = convert(convert(one, unit) ?? one, one.unit)
      expect(Math.abs((back?.value ?? Number.NaN) - one.value)).toBeLessThanOrEqual(
        4e-16 * (Math.abs(one.value) + 60),
      )
    }),
  )
})

test('comparison is an order, and agrees with conversion where that can tell', () => {
  fc.assert(
    fc.property(anyQuantity, anyQuantity, (one, other) => {
      const order = compareQuantities(one, other)
      expect(compareQuantities(other, one)).toBe(order === null ? null : 0 - order)
      const converted = convert(one, other.unit)
      expect(converted === null).toBe(order === null)
      if (converted === null) return
      const difference = converted.value - other.value
      if (Math.abs(difference) > 1e-14 * Math.abs(other.value)) expect(Math.sign(difference)).toBe(order)
    }),
    { numRuns: 1000 },
  )
})
