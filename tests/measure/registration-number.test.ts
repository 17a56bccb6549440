import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { NumberKind } from '../../src/measure/registration-number.js'
import {
  kindOfNumber,
  normalRegistration,
  registrationAppliedFor,
} from '../../src/measure/registration-number.js'

/** Published forms, with their source; invented ones are of company 99999 and say what they follow. */
const published: readonly (readonly [string, NumberKind, string])[] = [
  ['6767-230', 'registration', 'EPA Label Review Manual, chapter 14: what 6767-EGN becomes'],
  ['6767-EGN', 'file-symbol', 'EPA Label Review Manual, chapter 14'],
  ['99999-R', 'file-symbol', 'EPA Label Review Manual, chapter 14: the first product of a company is -R'],
  ['99999-NY-002', 'establishment', 'EPA, questions on establishments: second establishment in New York'],
  ['99999-OR-1', 'establishment', '40 CFR 156.10(f), layout from memory'],
  ['99999-CHN-001', 'establishment', 'EPA, questions on establishments: three letters for a country'],
  ['99999-1', 'registration', '40 CFR 156.10(e)'],
  ['99999-1-99998', 'registration', '40 CFR 152.132, from memory: the distributor comes third'],
  ['99999-EUP-1', 'experimental-use-permit', 'Label Review Manual, chapter 14, from memory'],
  ['99999-EUP-12', 'experimental-use-permit', 'Label Review Manual, chapter 14, from memory'],
  ['OR-240001', 'special-local-need', '40 CFR 162.150 to 162.156, from memory: state, year, sequence'],
  ['OR240001', 'special-local-need', 'the same without its hyphen'],
  ['DC-240001', 'special-local-need', 'the District of Columbia counts as a state, 7 U.S.C. 136(aa)'],
  ['99999-1-AA', 'california-register', 'California DPR: firm, product, revision code of two letters'],
  ['99999-1-AA-99998', 'california-register', 'California DPR: and the subregistrant'],
]

describe('kinds of numbers', () => {
  it.each(published)('%s is %s (%s)', (text, kind) => {
    expect(kindOfNumber(text)).toBe(kind)
    expect(kindOfNumber(` ${text.toLowerCase()} `)).toBe(kind)
  })

  it.each<[string, NumberKind]>([
    // California DPR, "What's in a Registration Number?": firm up to 7 digits, product up to 5, distributor up to 7.
    ['1-1', 'registration'],
    ['9999999-99999-9999999', 'registration'],
    ['99999999-1', 'something-else'],
    ['1-999999', 'something-else'],
    ['1-1-99999999', 'something-else'],
    ['1-1-1-1', 'something-else'],
    // Zeros in front are not digits of the number, and a number of nothing but zeros is none.
    ['00099999-00000001', 'registration'],
    ['0-1', 'something-else'],
    ['99999-0', 'something-else'],
    ['99999-1-0', 'something-else'],
    ['99999-N', 'something-else'],
    // Letters outside REGULATION make no file symbol.
    ['99999-BC', 'something-else'],
    ['99999-RR', 'file-symbol'],
    // No such state.
    ['ZZ-240001', 'something-else'],
    ['OR-24001', 'something-else'],
    // Three letters that are EUP are a permit and no country.
    ['99999-EUR-1', 'establishment'],
    ['99999-OR-1000', 'something-else'],
    ['99999', 'something-else'],
    ['99999-', 'something-else'],
    ['25b-exempt', 'something-else'],
    ['', 'something-else'],
  ])('%s is %s', (text, kind) => {
    expect(kindOfNumber(text)).toBe(kind)
  })

  // 40 CFR 156.10(e): the number follows "EPA Registration No." or "EPA Reg. No."; (f), from memory: "EPA Est."
  it.each<[string, NumberKind]>([
    ['EPA Registration No. 99999-1', 'registration'],
    ['EPA Reg. No. 99999-1-99998', 'registration'],
    ['EPA Reg. No.: 99999-1', 'registration'],
    ['EPA Est. 99999-OR-1', 'establishment'],
    ['EPA Est. No. 99999-OR-1', 'establishment'],
    ['EPA SLN No. OR-240001', 'special-local-need'],
  ])('the words before it are not part of it: %s', (text, kind) => {
    expect(kindOfNumber(text)).toBe(kind)
  })
})

describe('registration numbers that compare', () => {
  it.each([
    ['000279-03206', '279-3206'],
    ['279-3206', '279-3206'],
    ['EPA Reg. No. 99999-01', '99999-1'],
    ['099999-00001-099998', '99999-1-99998'],
    ['99999-100', '99999-100'],
  ])('%s is %s', (text, normal) => {
    expect(normalRegistration(text)).toBe(normal)
  })

  it('a number of three parts names another label than one of two', () => {
    expect(normalRegistration('99999-1-99998')).not.toBe(normalRegistration('99999-1'))
  })

  it.each(published.filter(([, kind]) => kind !== 'registration'))('%s is none', (text) => {
    expect(normalRegistration(text)).toBeNull()
  })

  it('keeps its parts, whatever zeros stand before them', () => {
    const part = (most: number) => fc.integer({ min: 1, max: most })
    const zeros = fc.integer({ min: 0, max: 4 }).map((count) => '0'.repeat(count))
    fc.assert(
      fc.property(
        fc.tuple(part(9_999_999), part(99_999), fc.option(part(9_999_999), { nil: undefined })),
        fc.tuple(zeros, zeros, zeros),
        (parts, padding) => {
          const stated = parts.filter((number) => number !== undefined)
          const padded = stated.map((number, at) => `${padding[at]}${number}`).join('-')
          expect(normalRegistration(padded)).toBe(stated.join('-'))
        },
      ),
    )
  })
})

describe('what a file symbol would become', () => {
  // Label Review Manual, chapter 14: R E G U L A T I O N stand for 1 2 3 4 5 6 7 8 9 0.
  it.each([
    ['6767-EGN', '6767-230'],
    ['99999-R', '99999-1'],
    ['99999-REGUL', '99999-12345'],
    ['99999-ATION', '99999-67890'],
    ['99999-RN', '99999-10'],
    ['99999-NR', '99999-1'],
  ])('%s becomes %s', (symbol, number) => {
    expect(registrationAppliedFor(symbol)).toBe(number)
  })

  it('only a file symbol becomes anything', () => {
    expect(registrationAppliedFor('99999-1')).toBeNull()
    expect(registrationAppliedFor('99999-N')).toBeNull()
  })
})
