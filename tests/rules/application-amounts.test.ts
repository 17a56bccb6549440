import { describe, expect, it } from 'vitest'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { bait, product, sentences, siteWith, told } from './application-checks.js'

const spray = sprayApplication

describe('amounts-do-not-add-up', () => {
  const rule = 'amounts-do-not-add-up'
  const two = (a: string, b: string, ...lines: string[]) =>
    bait('2026-03-12', `areas: {kitchen: {${a}}, room-1: {${b}}}`, 'amount:', ...lines)

  it.each<[string, string, string, boolean]>([
    ['0.1 g', '0.2 g', '0.3 g', false],
    ['0.1 g', '0.2 g', '0.300001 g', true],
    // 1 gal = 231 in3 = 128 fl oz; 1 pt = 16 fl oz.
    ['1 pt', '112 fl oz', '1 gal', false],
    ['1 pt', '111 fl oz', '1 gal', true],
    // 1 lb = 16 oz.
    ['8 oz', '0.5 lb', '1 lb', false],
    ['2 placement', '3 placement', '5 placement', false],
    ['2 placement', '3 placement', '5 block', true],
    ['1 fl oz', '1 oz', '2 oz', true],
    ['1 fl oz', '1 oz', '2 fl oz', true],
  ])('%s and %s as %s is told: %s', (a, b, whole, expected) => {
    const ledger = two(`amount: ${a}`, `amount: ${b}`, `amount: ${whole}`)
    expect(told(rule, ledger)).toEqual(expected ? ['amount warning 2026-03-12'] : [])
  })

  it('says what they come to, or that they cannot be compared', () => {
    expect(sentences(rule, two('amount: 1 pt', 'amount: 111 fl oz', 'amount: 1 gal'))[0]).toBe(
      // 127 / 128 = 0.9921875.
      'The amounts of the areas (1 pt, 111 fl oz) come to 0.992188 gal; in all it is recorded as 1 gal.',
    )
    expect(sentences(rule, two('amount: 1 oz', 'amount: 1 oz', 'amount: 2 fl oz'))[0]).toContain(
      'do not measure the same thing',
    )
  })

  it('what is not recorded in one area, or in all, is not held against anything', () => {
    expect(told(rule, two('amount: 1 g', 'where: sink', 'amount: 5 g'))).toEqual([])
    expect(told(rule, two('amount: 1 g', 'amount: 1 g'))).toEqual([])
  })

  it('extents in the same way: 1 yd2 = 9 ft2, 0.1 acre = 4356 ft2', () => {
    const extents = (a: string, b: string, whole: string) =>
      told(rule, two(`extent: ${a}`, `extent: ${b}`, `treated-extent: ${whole}`))
    expect(extents('1 yd2', '3 ft2', '12 ft2')).toEqual([])
    expect(extents('4000 ft2', '356 ft2', '0.1 acre')).toEqual([])
    expect(extents('1 yd2', '3 ft2', '11 ft2')).toEqual(['treated-extent warning 2026-03-12'])
  })

  it('one area too, and whatever the product is', () => {
    const released = bait('2026-03-12', 'areas: {kitchen: {amount: 1 packet}}', 'amount: 2 packet')
    expect(told(rule, product('bait-a', 'kind: living-agent') + released)).toHaveLength(1)
  })
})

describe('treated-more-than-area', () => {
  const rule = 'treated-more-than-area'
  const kitchen = (extent: string, more = '') =>
    siteWith([]).replace('kitchen: {kind: kitchen}', `kitchen: {kind: kitchen, extent: ${extent}}${more}`)
  const treated = (...lines: string[]) =>
    spray('2026-03-12', 'method: broadcast', 'treated-extent:', ...lines)
  const inKitchen = (extent: string) => treated(`areas: {kitchen: {extent: ${extent}}}`)

  it.each<[string, string, boolean]>([
    ['900 ft2', '900 ft2', false],
    ['900 ft2', '900.1 ft2', true],
    // 100 yd2 = 900 ft2; 900 ft2 = 83.612736 m2.
    ['900 ft2', '100 yd2', false],
    ['83.6127 m2', '900 ft2', true],
    ['83.6128 m2', '900 ft2', false],
  ])('a kitchen of %s, of which %s was treated: %s', (extent, part, expected) => {
    expect(told(rule, kitchen(extent) + inKitchen(part))).toEqual(
      expected ? ['areas.kitchen.extent warning 2026-03-12'] : [],
    )
  })

  it.each(['broadcast', 'spot', 'drench', 'baseboard', 'crack-and-crevice', 'void', 'space', 'perimeter'])(
    'by %s',
    (method) => {
      const ledger = kitchen('900 ft2') + inKitchen('1000 ft2').replace('broadcast', method)
      expect(told(rule, ledger).length > 0).toBe(['broadcast', 'spot', 'drench'].includes(method))
    },
  )

  it('the whole is held against all the areas, where not every one tells its part', () => {
    const site = kitchen('100 ft2', '\n  store: {kind: storage, extent: 50 ft2}')
    const whole = (extent: string) =>
      told(
        rule,
        site +
          treated('areas: {kitchen: {where: floor}, store: {where: floor}}', `treated-extent: ${extent}`),
      )
    expect(whole('150 ft2')).toEqual([])
    expect(whole('151 ft2')).toEqual(['treated-extent warning 2026-03-12'])
  })

  it('an area whose extent is not known is not judged', () => {
    expect(told(rule, siteWith([]) + inKitchen('1000 ft2'))).toEqual([])
    const both = treated(
      'areas: {kitchen: {where: floor}, room-1: {where: floor}}',
      'treated-extent: 5000 ft2',
    )
    expect(told(rule, kitchen('100 ft2') + both)).toEqual([])
  })
})
