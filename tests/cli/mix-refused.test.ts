import { describe, expect, it } from 'vitest'
import { newFolder, run } from './run-doorsweep.js'

const nowhere = newFolder()
const mix = (...args: string[]) => run(nowhere, ['mix', '--as-of', '2026-03-20', ...args])
const target = ['--strength', '48 %', '--target', '1 %', '--make', '55 gal']
const rate = (amount: string, per: string, ...more: string[]) => ['--rate', amount, '--per', per, ...more]

describe('what is refused, each in one line with what to do', () => {
  const area = ['--area', '2500 ft2']
  it.each<[string, readonly string[], RegExp]>([
    ['nothing at all', [], /Say what the label asks for: --target "1 %", or --rate/],
    ['both ways at once', [...target, ...rate('1 lb', 'acre')], /either --target .* or --rate .*, not both/],
    [
      'a target of nought',
      ['--strength', '48 %', '--target', '0 %', '--make', '1 gal'],
      /--target "0 %": it has to be above zero/,
    ],
    [
      'a target stronger than the product',
      ['--strength', '1 %', '--target', '2 %', '--make', '1 gal'],
      /The target is stronger than the product.*\(2 % from 1 %\)/,
    ],
    [
      'more than all',
      ['--strength', '101 %', '--target', '2 %', '--make', '1 gal'],
      /nothing is stronger than 100 %/,
    ],
    [
      'no strength',
      ['--target', '1 %', '--make', '1 gal'],
      /a target takes the strength of the product: give --strength/,
    ],
    [
      'neither make nor area',
      ['--strength', '48 %', '--target', '1 %'],
      /says how strong, not how much: add --make/,
    ],
    [
      'a target on an area',
      ['--strength', '48 %', '--target', '1 %', ...area],
      /an area alone does not tell it/,
    ],
    ['no area', rate('1 fl oz', '1000 ft2'), /add how much is treated, such as --area "2500 ft2"/],
    ['no mix', rate('2 lb', '100 gal'), /add how much mix to make, such as --make "300 gal"/],
    ['no per', ['--rate', '1 fl oz', ...area], /A rate is per something: add --per/],
    [
      'an area without a unit',
      rate('1 fl oz', '1000 ft2', '--area', '2500'),
      /--area "2500": it has no unit/,
    ],
    [
      'below zero',
      rate('-1 fl oz', '1000 ft2', ...area),
      /--rate "-1 fl oz": an amount cannot be below zero/,
    ],
    [
      'an unknown unit',
      rate('1 fl ozz', '1000 ft2', ...area),
      /fl ozz is no unit known here; did you mean fl oz\?/,
    ],
    ['another word for a unit', rate('1 pounds', '1000 ft2', ...area), /did you mean lb\?/],
    [
      'ounces of what',
      rate('1 ounce', '1000 ft2', ...area),
      /fl oz for a fluid ounce \(volume\), oz for an ounce of weight/,
    ],
    [
      'no space',
      ['--strength', '48%', '--target', '1 %', '--make', '1 gal'],
      /put one space between number and unit: "48 %"/,
    ],
    ['a common fraction', rate('1/2 oz', '1000 ft2', ...area), /write the number as a plain decimal/],
    [
      'no number',
      ['--strength', 'strong', '--target', '1 %', '--make', '1 gal'],
      /it needs a number and a unit/,
    ],
    [
      'another kind of unit',
      rate('1 fl oz', '1000 ft2', '--area', '3 lb'),
      /lb measures a weight, and this has to be an area/,
    ],
    [
      'a fluid ounce that is written as an ounce',
      [...rate('1 fl oz', '1000 ft2', ...area), '--water', '9 oz', '--water-per', '1000 ft2'],
      /oz measures a weight, and this has to be a volume.*A fluid ounce is written fl oz/,
    ],
    [
      'an extent and a length',
      rate('1 fl oz', '100 ft', ...area),
      /--per "100 ft" and --area "2500 ft2" do not measure the same/,
    ],
    [
      'stations and placements',
      rate('1 g', 'station', '--area', '3 placement'),
      /do not measure the same thing/,
    ],
    [
      'water per nothing',
      [...rate('1 fl oz', '1000 ft2', ...area), '--water', '1 gal'],
      /--water and --water-per go together/,
    ],
    [
      'an option that would be passed over',
      [...target, '--water', '1 gal'],
      /--water does not go with --target/,
    ],
    [
      'make with a rate per extent',
      rate('1 fl oz', '1000 ft2', ...area, '--make', '1 gal'),
      /--make does not go with a rate per extent/,
    ],
    [
      'an ounce of a liquid',
      ['--strength', '4 lb/gal', ...rate('4 oz', 'acre', '--area', '1 acre')],
      /--of product or --of active.*If it means fluid ounces, write fl oz/,
    ],
    [
      'an ounce of a liquid as product',
      ['--strength', '4 lb/gal', '--of', 'product', ...rate('4 oz', 'acre', '--area', '1 acre')],
      /takes the weight of a volume of the undiluted product, --density/,
    ],
    [
      'active ingredient by volume',
      ['--strength', '4 lb/gal', '--of', 'active', ...rate('4 fl oz', 'acre', '--area', '1 acre')],
      /Active ingredient is told by weight/,
    ],
    [
      'active ingredient of an unknown strength',
      ['--of', 'active', ...rate('1 lb', 'acre', '--area', '1 acre')],
      /takes the strength of the product/,
    ],
    [
      'a percent of weight from a weight per volume',
      ['--strength', '4 lb/gal', '--target', '1 %', '--make', '100 gal'],
      /write --diluent-density "8\.34 lb\/gal"/,
    ],
    [
      'heavier than itself',
      ['--strength', '9 lb/gal', '--density', '8 lb/gal', '--target', '1 lb/gal', '--make', '1 gal'],
      /is more than the product weighs/,
    ],
    [
      'more product than mix',
      rate('2 gal', '1 gal', '--make', '5 gal'),
      /More undiluted product would go in than there is mix/,
    ],
    [
      'an active ingredient of no product',
      ['--active', 'x', ...target],
      /--active chooses among those of a --product/,
    ],
    [
      'a method of no product',
      ['--method', 'spot', ...target],
      /chooses among the label rates of a --product/,
    ],
    ['a ledger without a product', ['--ledger', '.', ...target], /say where a --product is looked up/],
  ])('%s', async (_, args, says) => {
    const ran = await mix(...args)
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(says)
    expect(ran.err.trim().split('\n')).toHaveLength(1)
  })

  it('a day that is none', async () => {
    const ran = await run(nowhere, ['mix', ...target, '--as-of', '2026-02-30'])
    expect([ran.code, ran.err]).toEqual([
      2,
      'doorsweep: --as-of 2026-02-30: write a day as year-month-day, such as 2026-03-12.\n',
    ])
  })
})
