import { expect, it } from 'vitest'
import { areasAtOneRate } from '../../src/measure/areas-at-one-rate.js'
import { type CatchReading, totalOf } from '../../src/measure/effective-counts.js'
import { ratioOfRatios } from '../../src/measure/ratio-of-ratios.js'
import {
  normal,
  pick,
  poisson,
  type Random,
  seededRandom,
  wholeBetween,
} from '../../src/measure/seeded-random.js'

const reading = (count: number, effort: number) => ({ count, effort })

/** Rate after over rate before, all areas added up. */
function factorOf(areas: Parameters<typeof areasAtOneRate>[0]) {
  const { before, after } = areasAtOneRate(areas)
  const [a, b] = [totalOf(after), totalOf(before)]
  return a.count / a.effort / (b.count / b.effort)
}

it('leaves the change of one area as it is', () => {
  // (6/30)/(4/10) = 0.5.
  expect(factorOf([{ before: [reading(4, 10)], after: [reading(1, 10), reading(5, 20)] }])).toBeCloseTo(
    0.5,
    12,
  )
})

it('takes no change for one where only the effort moved between areas', () => {
  // 10 a night in one area, 1 in the other, before and after alike. Added up as they are, 101/20 before and 20/20 after.
  const alike = [
    { before: [reading(100, 10)], after: [reading(10, 1)] },
    { before: [reading(1, 1)], after: [reading(10, 10)] },
  ]
  expect(factorOf(alike)).toBeCloseTo(1, 12)
  // Efforts are in proportion to the animals expected, which are those caught: 100 and 1 before, 10 and 10 after.
  const { before, after } = areasAtOneRate(alike)
  const [first = Number.NaN, ...others] = [...before, ...after].map(({ effort }) => effort)
  expect(others.map((effort) => effort / first)).toEqual(
    [0.01, 0.1, 0.1].map((share) => expect.closeTo(share, 12)),
  )
})

it('finds the one factor that explains what was seen', () => {
  // Halved in both: 10 to 5 a night, and 2 to 1, over efforts that differ.
  expect(
    factorOf([
      { before: [reading(20, 2), reading(10, 1)], after: [reading(5, 1)] },
      { before: [reading(2, 1)], after: [reading(8, 8)] },
    ]),
  ).toBeCloseTo(0.5, 12)
  // Two areas that disagree, 4 and 1 before, 2 and 2 after, effort 1 and 1, 1 and 2. With x = f: 6x/(1 + x) + 3·2x/(1 + 2x) = 4
  // gives 6x(1 + 2x) + 6x(1 + x) = 4(1 + x)(1 + 2x), so 10x² = 4 and x = √0.4.
  expect(
    factorOf([
      { before: [reading(4, 1)], after: [reading(2, 1)] },
      { before: [reading(1, 1)], after: [reading(2, 2)] },
    ]),
  ).toBeCloseTo(Math.sqrt(0.4), 12)
})

it('also with nothing caught on a side', () => {
  const nothingAfter = areasAtOneRate([{ before: [reading(4, 2)], after: [reading(0, 10)] }])
  // Two a night, as before.
  expect(nothingAfter).toEqual({ before: [reading(4, 4)], after: [reading(0, 20)] })
  const nothingBefore = areasAtOneRate([{ before: [reading(0, 5)], after: [reading(3, 1)] }])
  expect(nothingBefore).toEqual({ before: [reading(0, 15)], after: [reading(3, 3)] })
})

it('leaves out areas that tell nothing', () => {
  const none = [
    { before: [reading(0, 5)], after: [reading(0, 5)] },
    { before: [], after: [reading(3, 1)] },
    { before: [reading(3, 0)], after: [reading(3, 1)] },
  ]
  expect(areasAtOneRate(none)).toEqual({ before: [], after: [] })
})

it('such readings give the comparison with untreated areas their factor', () => {
  const { before, after } = areasAtOneRate([
    { before: [reading(100, 10)], after: [reading(10, 1)] },
    { before: [reading(1, 1)], after: [reading(10, 10)] },
  ])
  const compared = ratioOfRatios(
    {
      'treated before': [reading(12, 10)],
      'treated after': [reading(3, 10)],
      'untreated before': before,
      'untreated after': after,
    },
    { clumping: { perMean: 0, degreesOfFreedom: 1e6 } },
  )
  if (!compared.estimable) throw new Error('a comparison was expected')
  // 3/12 over 1.
  expect(compared.ratio).toBeCloseTo(0.25, 9)
})

/** One to three readings of 10 to 30 trap-nights at a rate. */
function readAt(rate: number, random: Random): CatchReading[] {
  return Array.from({ length: wholeBetween(random, 1, 3) }, () => {
    const effort = pick(random, [10, 20, 30])
    return reading(poisson(random, rate * effort), effort)
  })
}

// Six untreated areas whose rates differ (log-normal, σ 1.2), nothing changes anywhere, no clumping: the 95 % interval should
// hold 1 in 95 of 100 trials. 1,000 trials have a standard error of 0.7 points. Added up as they are it does not.
it('keeps the interval of a comparison where areas differ and efforts move', () => {
  const random = seededRandom(20260331)
  let [holds, holdsAsTheyAre] = [0, 0]
  const trials = 1000
  for (let trial = 0; trial < trials; trial += 1) {
    const treated = { before: readAt(2, random), after: readAt(2, random) }
    const areas = Array.from({ length: 6 }, () => {
      const rate = 2 * Math.exp(1.2 * normal(random))
      return { before: readAt(rate, random), after: readAt(rate, random) }
    })
    const isHeld = (before: CatchReading[], after: CatchReading[]) => {
      const compared = ratioOfRatios(
        {
          'treated before': treated.before,
          'treated after': treated.after,
          'untreated before': before,
          'untreated after': after,
        },
        { clumping: { perMean: 0, degreesOfFreedom: 1e6 } },
      )
      return compared.estimable && compared.lower <= 1 && (compared.upper ?? Infinity) >= 1
    }
    const { before, after } = areasAtOneRate(areas)
    if (isHeld(before, after)) holds += 1
    if (
      isHeld(
        areas.flatMap((one) => one.before),
        areas.flatMap((one) => one.after),
      )
    )
      holdsAsTheyAre += 1
  }
  expect(holds / trials).toBeGreaterThan(0.935)
  expect(holdsAsTheyAre / trials).toBeLessThan(0.85)
})
