import { expect, test } from 'vitest'
import { benjaminiHochberg, holm } from '../../src/measure/false-discovery.js'
import { fitLogLinear } from '../../src/measure/log-linear.js'
import { rateRatio } from '../../src/measure/rate-ratio.js'
import { expectAgrees, referenceKind } from './stats-reference.js'

interface Limits {
  lower: number
  upper: number
}

interface Pair {
  group: string
  ratio: number
  p_minlik: number
  p_central: number
  ci95: Limits
  ci90: Limits
}

const sprays = referenceKind<
  { analysis: string; reference: string; group: string[]; count: number[] },
  { pairs: Pair[]; p_bh: number[]; p_holm: number[] }
>('open_data')

// Beall G (1942) The transformation of data from entomological field experiments, Biometrika 32:243–262.
test('insects left after five sprays, each compared with a sixth', () => {
  const versus = sprays.cases.find(({ input }) => input.analysis === 'pairwise_rate_ratios')
  if (versus === undefined) throw new Error('the case is missing')
  const { input, expected } = versus
  const of = (group: string) => input.count.filter((_, i) => input.group[i] === group)
  const sum = (counts: number[]) => counts.reduce((total, count) => total + count, 0)
  const other = of(input.reference)
  const p: number[] = []
  expect(expected.pairs).toHaveLength(5)
  for (const pair of expected.pairs) {
    const one = of(pair.group)
    const compared = (confidence: number) =>
      rateRatio(sum(one), one.length, sum(other), other.length, confidence)
    const at95 = compared(0.95)
    expectAgrees(at95?.ratio, pair.ratio, sprays, `ratio ${pair.group}`)
    expectAgrees(at95?.lower, pair.ci95.lower, sprays, `lower ${pair.group}`)
    expectAgrees(at95?.upper, pair.ci95.upper, sprays, `upper ${pair.group}`)
    expectAgrees(compared(0.9)?.lower, pair.ci90.lower, sprays, `lower 90 ${pair.group}`)
    expectAgrees(compared(0.9)?.upper, pair.ci90.upper, sprays, `upper 90 ${pair.group}`)
    // Such small p values would hide in an absolute tolerance.
    const relative = { ...sprays, absolute_tolerance: 0 }
    expectAgrees(at95?.pCentral, pair.p_central, relative, `central p ${pair.group}`)
    expectAgrees(at95?.pMinlik, pair.p_minlik, relative, `p ${pair.group}`)
    p.push(at95?.pMinlik ?? Number.NaN)
  }
  benjaminiHochberg(p).forEach((one, i) => {
    expectAgrees(one, expected.p_bh[i], sprays, `false discovery ${i}`)
  })
  holm(p).forEach((one, i) => {
    expectAgrees(one, expected.p_holm[i], sprays, `Holm ${i}`)
  })
})

const lynx = referenceKind<
  { analysis: string; time_days: number[]; exposure: number[]; count: number[] },
  {
    poisson: { slope_per_30d: number; se: number; ci95: Limits; pearson_chi2: number; dispersion: number }
    quasi: { se: number; t: number; ci95: Limits; p: number }
  }
>('open_data')

// Annual Canadian lynx trappings: Campbell MJ, Walker AM (1977) J. R. Statist. Soc. A 140:411–431.
test('lynx trapped from 1821 to 1850, very clumped in time', () => {
  const one = lynx.cases.find(({ input }) => input.analysis === 'loglinear_trend')
  if (one === undefined) throw new Error('the case is missing')
  const { input, expected } = one
  const fit = fitLogLinear(
    input.count.map((count, i) => ({
      count,
      day: input.time_days[i] ?? Number.NaN,
      exposure: input.exposure[i] ?? Number.NaN,
    })),
  )
  if (!fit.estimable) throw new Error('a fit was expected')
  expectAgrees(fit.slope, expected.poisson.slope_per_30d, lynx, 'slope')
  expectAgrees(fit.poisson.standardError, expected.poisson.se, lynx, 'standard error')
  expectAgrees(fit.poisson.lower, expected.poisson.ci95.lower, lynx, 'lower')
  expectAgrees(fit.pearsonChiSquare, expected.poisson.pearson_chi2, lynx, 'chi-square')
  expectAgrees(fit.dispersion, expected.poisson.dispersion, lynx, 'dispersion')
  expectAgrees(fit.quasi?.standardError, expected.quasi.se, lynx, 'quasi standard error')
  expectAgrees(fit.quasi?.lower, expected.quasi.ci95.lower, lynx, 'quasi lower')
  expectAgrees(fit.quasi?.upper, expected.quasi.ci95.upper, lynx, 'quasi upper')
  expectAgrees(fit.quasi?.p, expected.quasi.p, lynx, 'quasi p')
})
