import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { parseQuantity, type Quantity } from '../../src/measure/quantities.js'
import { type MixAsked, type MixRequest, mixReport } from '../../src/reports/mix.js'
import { figure, handier, metric } from '../../src/reports/mix-amounts.js'
import { registerProduct } from '../../src/reports/mix-register.js'
import { day, oakFiles } from '../ledger/small-site.js'

function q(text: string): Quantity {
  const read = parseQuantity(text)
  if (!read) throw new Error(`${text} is no quantity`)
  return read
}

function pageOf(asked: MixAsked, others: Partial<MixRequest> = {}) {
  const mixed = mixReport({
    asOf: day('2026-03-20'),
    asked,
    actives: new Map(asked.strength ? [['', asked.strength]] : []),
    densities: {},
    remarks: [],
    ...others,
  })
  if (typeof mixed === 'string') throw new Error(mixed)
  const { report, isAboveLabel } = mixed
  const rows = (id: string, ...columns: string[]) =>
    report.tables
      .find((table) => table.id === id)
      ?.rows.map(({ cells }) => columns.map((column) => cells[column] ?? '–').join(' | '))
  return {
    ...report,
    isAboveLabel,
    amounts: rows('amounts', 'what', 'amount', 'handier', 'metric'),
    values: rows('amounts', 'value', 'unit'),
    steps: rows('steps', 'step', 'what', 'working', 'result'),
    rates: rows('label-rates', 'rate', 'at-most', 'per', 'methods', 'stands'),
  }
}

const rated = (rate: string, per: string, on: string): MixAsked => ({
  kind: 'rate',
  rate: q(rate),
  per: q(per),
  on: q(on),
  of: 'product',
  ofWasSaid: false,
  inMix: false,
})

const product = (says: string, facts = '') =>
  registerProduct(
    memorySource(
      oakFiles(
        {},
        {
          'products/lawn/product.yaml': `name: Invented Lawn Liquid
kind: pesticide
registration: 99999-21
active-ingredients: {inventathrin: {strength: 4 lb/gal}}
${facts}
labels:
  - {from: 2025-01-01, until: 2026-02-28, file: old.txt, says: {rates: {old: {at-most: 9 fl oz, per: 1000 ft2}}}}
  - {from: 2026-03-01, file: label.txt, revision: rev. 03/26${says}}
`,
        },
      ),
    ),
    'lawn',
    day('2026-03-20'),
  ) ?? undefined
const lawnRate = ', says: {rates: {lawns: {at-most: 1 fl oz, per: 1000 ft2, methods: [broadcast]}}}'

describe('a mix of a given strength', () => {
  const page = pageOf({ kind: 'strength', strength: q('48 %'), target: q('1 %'), make: q('55 gal') })

  it('tells product and water in the unit asked for, in a handier one, and in metric', () => {
    // US Army MD0173: 1.146 gal. 0.145833 gal × 128 = 18.67 fl oz; × 3.785411784 L = 4.337 L.
    // 55 − 1.145833 = 53.854167 gal; 0.854167 × 128 = 109.33 fl oz; × 3.785411784 = 203.86 L.
    expect(page.amounts).toEqual([
      'undiluted product | 1.146 gal | 1 gal 18.7 fl oz | 4.337 L',
      'water | 53.85 gal | 53 gal 109.3 fl oz | 203.9 L',
      'active ingredient | not told | – | –',
    ])
    expect(page.headline).toBe(
      'By the figures given, 55 gal at 1 % takes 1.146 gal of undiluted product and 53.85 gal of water.',
    )
  })

  it('shows every step with its numbers', () => {
    expect(page.steps).toEqual([
      '1 | undiluted product | 55 gal × 1 % ÷ 48 % | 1.146 gal',
      '2 | water | 55 gal − 1.145833 gal | 53.85 gal',
    ])
  })

  it('says that the percents were read as parts of volume, and what the active ingredient would take', () => {
    expect(page.cautions.join(' ')).toMatch(/parts of volume.*density of the undiluted product/)
  })
})

it('gives machines the unrounded number', () => {
  // 55 / 48 by long division.
  const page = pageOf({ kind: 'strength', strength: q('48 %'), target: q('1 %'), make: q('55 gal') })
  expect(page.values?.[0]).toBe('1.1458333333333333 | gal')
})

it('dry mixes have a diluent, not water', () => {
  const page = pageOf({ kind: 'strength', strength: q('80 %'), target: q('5 %'), make: q('10 lb') })
  // US Army MD0173: 10 oz, and 9 lb 6 oz of talc. 0.625 lb = 283.495 g, 9.375 lb = 4.25243 kg, 10 lb × 5 % = 0.5 lb = 226.796 g.
  expect(page.amounts).toEqual([
    'undiluted product | 0.625 lb | 10 oz | 283.5 g',
    'diluent | 9.375 lb | 9 lb 6 oz | 4.252 kg',
    'active ingredient | 0.5 lb | 8 oz | 226.8 g',
  ])
})

it('powder in a tank is made up to the mark, and nothing is guessed of the water', () => {
  const page = pageOf({ ...rated('2 lb', '100 gal', '300 gal'), inMix: true } as MixAsked)
  expect(page.amounts?.[1]).toMatch(/^water to make it up to \| 300 gal \|/)
  expect(page.headline).toContain('takes 6 lb of undiluted product, made up to 300 gal.')
  expect(page.cautions.join('\n')).toContain('finished mix')
})

it('a rate of active ingredient begins with the active ingredient', () => {
  const page = pageOf({
    ...rated('1 lb', '1 acre', '0.5 acre'),
    of: 'active',
    strength: q('4 lb/gal'),
  } as MixAsked)
  expect(page.steps).toEqual([
    '1 | active ingredient | 0.5 acre × 1 lb ÷ 1 acre | 0.5 lb',
    '2 | undiluted product | 0.5 lb ÷ 4 lb/gal | 0.125 gal',
  ])
  expect(page.cautions.join('\n')).toContain('was read as active ingredient')
})

it('every page defers to label, law and licence, and permits nothing', () => {
  const { cautions, headline } = pageOf(rated('1 fl oz', '1000 ft2', '2500 ft2'))
  const text = cautions.join('\n')
  for (const words of [
    'authorises no application',
    'printed label on the container decides',
    'licensed applicator',
    'local code governs',
    'Wear what the label says',
    'no pupils are',
    'product to water',
  ])
    expect(text).toContain(words)
  expect(`${text}\n${headline}`).not.toMatch(/allowed|permitted|you may|safe\b/i)
})

describe('held against the label in force, as the register tells it', () => {
  it('below, at and above, by exact comparison', () => {
    const at = (rate: string) => pageOf(rated(rate, '1000 ft2', '3000 ft2'), { register: product(lawnRate) })
    expect(at('0.999999 fl oz').rates).toEqual(['lawns | 1 fl oz | 1000 ft2 | broadcast | below it'])
    expect(at('1 fl oz').rates?.[0]).toContain('exactly at it')
    expect([at('1 fl oz').isAboveLabel, at('1 fl oz').incomplete]).toEqual([false, false])
    const above = at('1.000001 fl oz')
    expect([above.isAboveLabel, above.rates?.[0]]).toEqual([
      true,
      'lawns | 1 fl oz | 1000 ft2 | broadcast | ABOVE it',
    ])
    expect(above.headline).toContain('THAT IS ABOVE A RATE OF THE LABEL OF INVENTED LAWN LIQUID')
  })

  it('a rate per acre against a label per 1000 ft2', () => {
    // 1 fl oz per 1000 ft² is 43.56 fl oz an acre.
    const at = (rate: string) => pageOf(rated(rate, '1 acre', '0.5 acre'), { register: product(lawnRate) })
    expect([at('43.56 fl oz').isAboveLabel, at('43.560001 fl oz').isAboveLabel]).toEqual([false, true])
  })

  it('a rate per application is held against all that is mixed', () => {
    const register = product(', says: {rates: {once: {at-most: 3 fl oz, per: application}}}')
    const at = (area: string) => pageOf(rated('1 fl oz', '1000 ft2', area), { register })
    expect([at('3000 ft2').isAboveLabel, at('3001 ft2').isAboveLabel]).toEqual([false, true])
  })

  describe('where the label has a rate for each method', () => {
    const register = product(
      ', says: {rates: {cracks: {at-most: 1 fl oz, per: 1000 ft2, methods: [crack-and-crevice]}, lawns: {at-most: 4 fl oz, per: 1000 ft2, methods: [broadcast]}}}',
    )
    const at = (amount: string, method?: string) => {
      const page = pageOf(rated(amount, '1000 ft2', '1000 ft2'), { register, method })
      return [page.isAboveLabel, page.rates?.length, page.cautions.join(' ').includes('--method says')]
    }

    it('is above where the named method is, and where every method is', () => {
      expect(at('3 fl oz', 'crack-and-crevice')).toEqual([true, 1, false])
      expect(at('3 fl oz', 'broadcast')).toEqual([false, 1, false])
      expect(at('5 fl oz')).toEqual([true, 2, false])
    })

    it('asks for the method where it hangs on that', () => {
      expect(at('3 fl oz')).toEqual([false, 2, true])
      expect(at('1 fl oz')).toEqual([false, 2, false])
    })

    it('says where no rate is for the method', () => {
      const page = pageOf(rated('1 fl oz', '1000 ft2', '1000 ft2'), { register, method: 'spot' })
      expect([page.incomplete, page.notExamined[0]]).toEqual([
        true,
        'The register tells no rate of Invented Lawn Liquid for this method: nothing was held against its label; read the printed one.',
      ])
    })
  })

  it('weights against volumes only by the density', () => {
    const rate = rated('1.1 oz', '1000 ft2', '1000 ft2')
    const without = pageOf(rate, { register: product(lawnRate) })
    expect([without.rates?.[0], without.incomplete]).toEqual([
      'lawns | 1 fl oz | 1000 ft2 | broadcast | not compared',
      true,
    ])
    // At 8 lb/gal a fluid ounce weighs an ounce.
    const withIt = pageOf(rate, { register: product(lawnRate), densities: { product: q('8 lb/gal') } })
    expect(withIt.isAboveLabel).toBe(true)
  })

  it('says so where the register tells no rate, and where it has no label', () => {
    const told = (register: ReturnType<typeof product>) => {
      const page = pageOf(rated('1 fl oz', '1000 ft2', '1000 ft2'), { register })
      return [page.incomplete, ...page.notExamined]
    }
    expect(told(product(''))).toEqual([
      true,
      'The register tells no rate of Invented Lawn Liquid: nothing was held against its label; read the printed one.',
    ])
    const register = product('')
    expect(told(register && { ...register, label: undefined })).toEqual([
      true,
      'The register tells of no label of Invented Lawn Liquid in force: nothing was held against a label.',
    ])
  })

  it('a target in percent is not held against a rate per extent, and says so', () => {
    const page = pageOf(
      { kind: 'strength', strength: q('48 %'), target: q('1 %'), make: q('1 gal') },
      { register: product(lawnRate) },
    )
    expect([page.incomplete, page.notExamined.length, page.rates?.[0]]).toEqual([
      true,
      1,
      'lawns | 1 fl oz | 1000 ft2 | broadcast | not compared',
    ])
  })

  it('restricted use and a cancellation that has come are told', () => {
    const cautionsOf = (facts: string) =>
      pageOf(rated('1 fl oz', '1000 ft2', '1000 ft2'), { register: product(lawnRate, facts) }).cautions.join(
        '\n',
      )
    expect(cautionsOf('restricted-use: yes')).toContain('restricted use')
    expect(cautionsOf('cancelled: {on: 2026-03-20}')).toContain('cancelled on 2026-03-20')
    expect(cautionsOf('cancelled: {on: 2026-03-21}')).not.toContain('cancelled')
  })
})

describe('amounts for people', () => {
  it.each([
    // 128 fl oz a gallon, 6 tsp a fluid ounce, 16 oz a pound.
    ['1 gal', '1 gal', '3.785 L'],
    ['0.999999 gal', '1 gal', '3.785 L'],
    ['6 pt', '96 fl oz', '2.839 L'],
    ['0.5 fl oz', '3 tsp', '14.79 mL'],
    ['0.006 gal', '4.61 tsp', '22.71 mL'],
    ['1.99999 lb', '2 lb', '907.2 g'],
    ['0.0001 oz', '0.0001 oz', '2.835 mg'],
  ])('%s is %s or %s', (text, inHand, inMetric) => {
    expect([handier(q(text)), metric(q(text))]).toEqual([inHand, inMetric])
  })

  it('has no exponents, and no digit before the point is lost', () => {
    expect(figure({ ...q('1 gal'), value: 0.00000012348 })).toBe('0.0000001235 gal')
    expect(figure(q('123456.7 gal'))).toBe('123457 gal')
    expect([handier(q('4 block')), metric(q('4 block'))]).toEqual([null, null])
  })
})
