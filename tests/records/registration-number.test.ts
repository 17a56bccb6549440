import { expect, it } from 'vitest'
import { product } from '../../src/records/product.js'

/**
 * Forms of numbers on a pesticide label. Company-product: 40 CFR 156.10(e). With the distributor's company number:
 * 40 CFR 152.132 (from memory), its form in California DPR, "What's in a registration number", which also gives the
 * lengths: company 1 to 7 digits, product up to 5, distributor up to 7. File symbols, which are no registration: EPA
 * Label Review Manual, chapter 14. Establishment numbers: 40 CFR 156.10(f) (layout from memory).
 */
const accepts = (registration: string) =>
  product.safeParse({ name: 'Invented Bait A', kind: 'pesticide', registration }).success

it.each([
  ['company and product', '99999-1'],
  ['the longest of each', '9999999-99999-9999999'],
  ['with the distributor', '99999-12-7654321'],
  ['with leading zeros, as some lists print it', '099999-00012'],
])('is a registration number: %s', (_what, number) => {
  expect(accepts(number)).toBe(true)
})

it.each([
  ['a file symbol: applied for, not registered', '99999-EGN'],
  ['an establishment number', '99999-OR-1'],
  ['an experimental use permit', '99999-EUP-1'],
  ['a special local need, which is kept beside the number', 'OR-260001'],
  ['a revision code of one state’s register', '99999-1-AA'],
  ['a company of eight digits', '99999999-1'],
  ['a product of six digits', '99999-123456'],
  ['one part only', '99999'],
  ['four parts', '99999-1-2-3'],
  ['with its prefix', 'EPA Reg. No. 99999-1'],
])('is none: %s', (_what, number) => {
  expect(accepts(number)).toBe(false)
})
