import { describe, expect, it } from 'vitest'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const nowhere = newFolder()
const mix = (...args: string[]) => run(nowhere, ['mix', '--as-of', '2026-03-20', ...args])

const lawn = `
=== products/lawn/product.yaml
name: Invented Lawn Liquid
kind: pesticide
registration: 99999-21
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {inventathrin: {strength: 4 lb/gal}}
density: 9 lb/gal
formulation: emulsifiable-concentrate
signal-word: caution
restricted-use: no
labels:
  - from: 2026-01-05
    file: label.txt
    says: {rates: {lawns: {at-most: 1 fl oz, per: 1000 ft2}}}
=== products/silent/product.yaml
name: Invented Silent Dust
kind: pesticide
labels: [{from: 2026-01-05, file: label.txt}]
=== products/pair/product.yaml
name: Invented Pair
kind: pesticide
active-ingredients: {inventone: {strength: 2 %}, inventwo: {strength: 8 %}}
=== products/block/product.yaml
name: Invented Rat Block
kind: pesticide
active-ingredients: {inventacoum: {strength: 0.005 %}}
weight-per: {block: 20 g}
labels:
  - from: 2026-01-05
    file: label.txt
    says: {rates: {stations: {at-most: 80 g, per: station}, pieces: {at-most: 4 block, per: station}}}
=== products/broken/product.yaml
nam: Invented Broken
`
const ledger = ledgerFolder(lawn)
const ofProduct = (...args: string[]) => run(ledger, ['mix', '--as-of', '2026-03-20', ...args])

const target = ['--strength', '48 %', '--target', '1 %', '--make', '55 gal']
const rate = (amount: string, per: string, ...more: string[]) => ['--rate', amount, '--per', per, ...more]

describe('what it works out', () => {
  it.each<[string, readonly string[], RegExp]>([
    // US Army MD0173.
    ['a strength', target, /undiluted product +1\.146 gal .*\n +water +53\.85 gal/],
    // 0.5 acre × 1 lb/acre ÷ 4 lb/gal = 0.125 gal = 16 fl oz.
    [
      'active ingredient per extent',
      ['--strength', '4 lb/gal', ...rate('1 lb', '1 acre', '--area', '0.5 acre')],
      /undiluted product +0\.125 gal +16 fl oz/,
    ],
    // 2.5 × 1 fl oz and 2.5 × 1 gal.
    [
      'product per extent, with water',
      [...rate('1 fl oz', '1000 ft2', '--area', '2500 ft2'), '--water', '1 gal', '--water-per', '1000 ft2'],
      /undiluted product +2\.5 fl oz .*\n +water +2\.5 gal/,
    ],
    // 3 × 2 lb.
    ['product per volume of mix', rate('2 lb', '100 gal', '--make', '300 gal'), /undiluted product +6 lb/],
    // 12 × 0.5 g.
    ['bait per placement', rate('0.5 g', 'placement', '--area', '12 placements'), /undiluted product +6 g/],
    // 5000 ft3 × 1 fl oz per 1000 ft3.
    ['a room', rate('1 fl oz', '1000 ft3', '--area', '5000 ft3'), /undiluted product +5 fl oz/],
    // 9 lb an acre × 0.5 acre = 4.5 lb; ÷ 9 lb/gal = 0.5 gal; × 4 lb/gal = 2 lb.
    [
      'product by weight of a liquid whose density is given',
      [
        '--strength',
        '4 lb/gal',
        '--density',
        '9 lb/gal',
        '--of',
        'product',
        ...rate('9 lb', 'acre', '--area', '0.5 acre'),
      ],
      /undiluted product +4\.5 lb .*\n +the same product, measured otherwise +0\.5 gal .*\n +active ingredient +2 lb/,
    ],
  ])('%s', async (_, args, shows) => {
    const ran = await mix(...args)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(shows)
    expect(ran.out).toContain('It authorises no application.')
  })

  it.each([
    ['text', /^Mixing arithmetic\nas of 2026-03-20\n/],
    ['markdown', /^# Mixing arithmetic\n/],
    ['json', /^\{\n {2}"format-version": 1,\n {2}"report": "mix"/],
    ['csv', /^what,to measure out,metric,value,unit,records\n/],
  ])('is written as %s, and nothing else', async (format, begins) => {
    const ran = await mix(...target, '--format', format)
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(begins)
  })

  it('needs no ledger and no clock but for the day it is written', async () => {
    const ran = await run(nowhere, ['mix', ...target], { DOORSWEEP_TODAY: '2026-03-21' })
    expect(ran.out).toContain('as of 2026-03-21')
  })

  it('says how an ounce was read', async () => {
    const ran = await mix(...rate('2 oz', '1000 ft2', '--area', '1000 ft2'))
    expect(ran.out).toContain('`oz` was read as weight')
  })
})

it('bait that is counted has no density', async () => {
  const ran = await mix('--strength', '0.005 %', ...rate('2 block', 'station', '--area', '6 stations'))
  expect(ran.out).toMatch(/undiluted product +12 block/)
  expect(ran.out).toContain('what one piece weighs is on the label')
  expect(ran.out).not.toContain('--density')
})

describe('a product of the ledger', () => {
  const onLawn = (amount: string, ...more: string[]) =>
    ofProduct('--product', 'lawn', ...rate(amount, '1000 ft2', '--area', '2500 ft2', ...more))

  it('lends its strength and density, and the rate of its label is held against it', async () => {
    const ran = await onLawn('1 fl oz')
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(ran.out).toMatch(/lawns +1 fl oz +1000 ft2 +all methods +exactly at it/)
    // 2.5 fl oz ÷ 128 × 4 lb/gal = 0.078125 lb; to four digits 0.07813.
    expect(ran.out).toMatch(/active ingredient inventathrin +0\.07813 lb/)
  })

  it('above the rate in force is told first, and the exit code says so', async () => {
    const ran = await onLawn('1.1 fl oz')
    expect(ran.code).toBe(1)
    expect(ran.out).toContain('THAT IS ABOVE A RATE OF THE LABEL OF INVENTED LAWN LIQUID IN FORCE')
  })

  it('a rate of active ingredient comes to product before it is held against the label', async () => {
    // 4 lb/gal is 0.5 oz a fluid ounce: 0.5 oz of active ingredient is 1 fl oz, at the limit.
    expect((await onLawn('0.5 oz', '--of', 'active')).code).toBe(0)
    expect((await onLawn('0.500001 oz', '--of', 'active')).code).toBe(1)
  })

  it('what was given by hand is used, and the difference told', async () => {
    const ran = await onLawn('1 fl oz', '--strength', '2 lb/gal', '--density', '8 lb/gal')
    expect(ran.out).toContain(
      'The register has 4 lb/gal as the strength of Invented Lawn Liquid; 2 lb/gal was given',
    )
    expect(ran.out).toContain(
      'The register has 9 lb/gal as the density of Invented Lawn Liquid; 8 lb/gal was given',
    )
  })

  it('without a rate in the register it is worked out, said plainly, and exits 2', async () => {
    const ran = await ofProduct('--product', 'silent', ...rate('2 oz', '1000 ft2', '--area', '1000 ft2'))
    expect(ran.code).toBe(2)
    expect(ran.out).toMatch(/undiluted product +2 oz/)
    expect(ran.out).toContain('not examined: The register tells no rate of Invented Silent Dust')
  })

  it('that is counted is told by weight where the register has what one piece weighs', async () => {
    const blocks = (amount: string) =>
      ofProduct('--product', 'block', ...rate(amount, 'station', '--area', '6 stations'))
    const atIt = await blocks('4 block')
    expect([atIt.code, atIt.err]).toEqual([0, ''])
    // 6 × 4 = 24 blocks of 20 g: 480 g; 0.005 % of it is 0.024 g. Of both limits it is exactly the most.
    expect(atIt.out).toContain(
      'By the figures given, 4 blocks per station, in 6 stations takes 24 blocks of undiluted product.',
    )
    expect(atIt.out).toMatch(/undiluted product +24 block/)
    expect(atIt.out).toMatch(/the same product, measured otherwise +480 g/)
    expect(atIt.out).toMatch(/active ingredient inventacoum +0\.024 g/)
    expect(atIt.out).toMatch(/24 block × 20 g/)
    expect(atIt.out.match(/exactly at it/g)).toHaveLength(2)
    const above = await blocks('81 g')
    // 6 × 81 g = 486 g; ÷ 20 g = 24.3 blocks.
    expect(above.code).toBe(1)
    expect(above.out).toMatch(/the same product, measured otherwise +24\.3 block/)
    expect(above.out.match(/ABOVE it/g)).toHaveLength(2)
  })

  it('of several active ingredients each is told, and one is chosen where it matters', async () => {
    const ran = await ofProduct('--product', 'pair', ...rate('10 lb', '1 acre', '--area', '1 acre'))
    // 10 lb × 2 % and × 8 %.
    expect(ran.out).toMatch(/inventone +0\.2 lb .*\n +active ingredient inventwo +0\.8 lb/)
    const chosen = await ofProduct(
      '--product',
      'pair',
      '--active',
      'inventwo',
      '--target',
      '1 %',
      '--make',
      '8 lb',
    )
    // 8 lb × 1 % ÷ 8 %.
    expect(chosen.out).toMatch(/undiluted product +1 lb/)
  })

  it.each<[string, readonly string[], RegExp]>([
    [
      'no such product',
      ['--product', 'lown', ...target],
      /no product lown in the register; did you mean lawn\?/,
    ],
    [
      'a record that cannot be used',
      ['--product', 'broken', ...target],
      /broken cannot be used; `doorsweep check/,
    ],
    [
      'no rate asked for',
      ['--product', 'silent'],
      /The register tells no rate of Invented Silent Dust; read its/,
    ],
    [
      'no rate asked for, and limits known',
      ['--product', 'lawn'],
      /tells limits of Invented Lawn Liquid \(lawns at most 1 fl oz per 1000 ft2\), not which rate to use/,
    ],
    [
      'no strength known',
      ['--product', 'silent', '--target', '1 %', '--make', '1 gal'],
      /tells no strength of Invented/,
    ],
    [
      'several active ingredients',
      ['--product', 'pair', '--target', '1 %', '--make', '1 gal'],
      /say which one is meant: --active inventone or --active inventwo/,
    ],
    [
      'no such active ingredient',
      ['--product', 'pair', '--active', 'x', ...target],
      /it tells inventone, inventwo\./,
    ],
    [
      'no such method',
      ['--product', 'lawn', '--method', 'spott', ...rate('1 fl oz', '1000 ft2', '--area', '1000 ft2')],
      /--method spott: there is no such method; did you mean spot\?/,
    ],
    [
      'a weight of product or of active ingredient',
      ['--product', 'lawn', ...rate('1 lb', 'acre', '--area', '1 acre')],
      /add --of product or --of active/,
    ],
  ])('%s is refused', async (_, args, says) => {
    const ran = await ofProduct(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(says)
    expect(ran.err.trim().split('\n')).toHaveLength(1)
  })
})
