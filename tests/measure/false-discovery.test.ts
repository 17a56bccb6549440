import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { benjaminiHochberg, benjaminiYekutieli, bonferroni, holm } from '../../src/measure/false-discovery.js'
import { expectAgrees, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { p: number[] },
  { bh: number[]; holm: number[]; bonferroni: number[]; by: number[]; bh_rejected_at_05_index0: number[] }
>('p_adjust')

describe('adjusted p values agree with R p.adjust', () => {
  test.each(reference.cases)('$id', ({ input, expected }) => {
    const answers = {
      bh: benjaminiHochberg(input.p),
      holm: holm(input.p),
      bonferroni: bonferroni(input.p),
      by: benjaminiYekutieli(input.p),
    }
    for (const method of ['bh', 'holm', 'bonferroni', 'by'] as const) {
      expect(answers[method]).toHaveLength(input.p.length)
      answers[method].forEach((p, i) => {
        expectAgrees(p, expected[method][i], reference, `${method} ${i}`)
      })
    }
    const rejected = answers.bh.flatMap((p, i) => (p !== null && p <= 0.05 ? [i] : []))
    expect(rejected).toEqual(expected.bh_rejected_at_05_index0)
  })
})

// With two tests the factor of Benjamini and Yekutieli is 1 + 1/2: 1.5 · 2/1 · 0.01 and 1.5 · 2/2 · 0.02 are 0.03.
test('a series that could not be tested is no test: it stays null and adjusts no other', () => {
  expect(benjaminiHochberg([0.01, null, 0.02])).toEqual(benjaminiHochberg([0.01, 0.02]).toSpliced(1, 0, null))
  expect(holm([null, 0.01, 0.02])).toEqual([null, ...holm([0.01, 0.02])])
  expect(bonferroni([null])).toEqual([null])
  expect(benjaminiHochberg([])).toEqual([])
  expect(benjaminiYekutieli([0.01, null, 0.02])).toEqual([0.03, null, 0.03])
  expect(benjaminiYekutieli([])).toEqual([])
})

const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 60 })

test('Benjamini and Hochberg reject exactly what their step-up rule rejects', () => {
  fc.assert(
    fc.property(pValues, fc.constantFrom(0.01, 0.05, 0.2), (p, q) => {
      const sorted = [...p].sort((a, b) => a - b)
      // The 1995 rule: the largest k with p(k) <= k/m · q; reject the k smallest.
      let largest = -1
      sorted.forEach((one, i) => {
        if ((sorted.length / (i + 1)) * one <= q) largest = i
      })
      const byRule = p.map((one) => largest >= 0 && one <= (sorted[largest] ?? -1))
      expect(benjaminiHochberg(p).map((one) => one !== null && one <= q)).toEqual(byRule)
    }),
  )
})

test('p <= Benjamini–Hochberg <= Holm <= Bonferroni <= 1', () => {
  fc.assert(
    fc.property(pValues, (p) => {
      const all = [benjaminiHochberg(p), holm(p), bonferroni(p)]
      p.forEach((one, i) => {
        const [bh, step, single] = all.map((adjusted) => adjusted[i] ?? Number.NaN)
        expect(bh).toBeGreaterThanOrEqual(one)
        expect(step).toBeGreaterThanOrEqual((bh ?? 1) * (1 - 1e-15))
        expect(single).toBeGreaterThanOrEqual(step ?? 1)
        expect(single).toBeLessThanOrEqual(1)
      })
    }),
  )
})
