import { betaKernel, betaTails, gammaTails, poissonDensity } from './special-functions.js'

/** How likely each count is. Counts are whole numbers; below zero all answers are those of nothing caught. */
export interface CountLaw {
  probability: (count: number) => number
  atMost: (count: number) => number
  atLeast: (count: number) => number
}

/**
 * Poisson law of the given mean, or with clumping above 0 the negative binomial one with variance mean +
 * clumping · mean² (k = 1/clumping; Fisher 1941, Anscombe 1949, from memory). Both tails keep their relative
 * precision. mean > 0, clumping >= 0.
 */
export function countLaw(mean: number, clumping = 0): CountLaw {
  const law = clumping > 0 ? clumped(mean, 1 / clumping) : poisson(mean)
  return {
    probability: remembered((count) => (count < 0 ? 0 : law.probability(count))),
    atMost: remembered((count) => (count < 0 ? 0 : law.atMost(count))),
    atLeast: remembered((count) => (count <= 0 ? 1 : law.atLeast(count))),
  }
}

function poisson(mean: number): CountLaw {
  return {
    probability: (count) => (count === 0 ? Math.exp(-mean) : poissonDensity(count, mean)),
    atMost: (count) => gammaTails(count + 1, mean).upper,
    atLeast: (count) => gammaTails(count, mean).lower,
  }
}

/** Counts of failures before the k-th success, for a k that need not be whole. */
function clumped(mean: number, k: number): CountLaw {
  const success = k / (k + mean)
  const failure = mean / (k + mean)
  return {
    probability: (count) =>
      count === 0 ? Math.exp(-k * Math.log1p(mean / k)) : betaKernel(success, failure, k, count) / count,
    atMost: (count) => betaTails(success, failure, k, count + 1).lower,
    atLeast: (count) => betaTails(failure, success, count, k).lower,
  }
}

function remembered(answer: (count: number) => number): (count: number) => number {
  const known = new Map<number, number>()
  return (count) => {
    const before = known.get(count)
    if (before !== undefined) return before
    const now = answer(count)
    known.set(count, now)
    return now
  }
}
