/**
 * A p value for each series tested; null where nothing could be tested, which then counts as no test at all.
 */
export type PValues = readonly (number | null)[]

interface Ranked {
  at: number
  p: number
}

/** Tested p values, smallest first; ties keep their order. */
function ranked(pValues: PValues): Ranked[] {
  const tested: Ranked[] = []
  pValues.forEach((p, at) => {
    if (p !== null) tested.push({ at, p })
  })
  return tested.sort((a, b) => a.p - b.p || a.at - b.at)
}

/**
 * Adjusted p values that hold the false discovery rate: Benjamini Y, Hochberg Y (1995) J. R. Statist. Soc. B
 * 57:289–300. Of the series with an adjusted p of at most q, a share of at most q is expected to be false
 * (for independent or positively dependent tests). Same length and order as given; null stays null.
 */
export function benjaminiHochberg(pValues: PValues): (number | null)[] {
  const order = ranked(pValues)
  const adjusted: (number | null)[] = pValues.map(() => null)
  let smallest = 1
  for (let rank = order.length; rank >= 1; rank -= 1) {
    const one = order[rank - 1]
    if (one === undefined) continue
    smallest = Math.min(smallest, (order.length / rank) * one.p)
    adjusted[one.at] = smallest
  }
  return adjusted
}

/**
 * Adjusted p values that hold the chance of even one false claim: Holm S (1979) Scand. J. Statist. 6:65–70.
 * Stricter than Benjamini and Hochberg. Same length and order as given; null stays null.
 */
export function holm(pValues: PValues): (number | null)[] {
  const order = ranked(pValues)
  const adjusted: (number | null)[] = pValues.map(() => null)
  let largest = 0
  order.forEach(({ at, p }, i) => {
    largest = Math.max(largest, Math.min(1, (order.length - i) * p))
    adjusted[at] = largest
  })
  return adjusted
}

/**
 * Bonferroni's adjusted p values (Dunn 1961, JASA 56:52–64): p times the number of tests, at most 1. Null
 * stays null.
 */
export function bonferroni(pValues: PValues): (number | null)[] {
  const tests = ranked(pValues).length
  return pValues.map((p) => (p === null ? null : Math.min(1, tests * p)))
}

/**
 * Adjusted p values that hold the false discovery rate however the tests depend on each other: Benjamini Y,
 * Yekutieli D (2001) Ann. Statist. 29:1165–1188. Benjamini and Hochberg's times 1 + 1/2 + … + 1/tests, at most
 * 1. Same length and order as given; null stays null.
 */
export function benjaminiYekutieli(pValues: PValues): (number | null)[] {
  const order = ranked(pValues)
  const harmonic = order.reduce((sum, _, i) => sum + 1 / (i + 1), 0)
  const adjusted: (number | null)[] = pValues.map(() => null)
  let smallest = 1
  for (let rank = order.length; rank >= 1; rank -= 1) {
    const one = order[rank - 1]
    if (one === undefined) continue
    smallest = Math.min(smallest, harmonic * (order.length / rank) * one.p)
    adjusted[one.at] = smallest
  }
  return adjusted
}
