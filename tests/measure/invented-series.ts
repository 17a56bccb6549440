import type { CountObservation } from '../../src/measure/log-linear.js'

/** Chance from a seed: mulberry32 (Tommy Ettinger, public domain), numbers from 0 up to but not 1. */
export type Chance = () => number

export function mulberry32(seed: number): Chance {
  let state = seed | 0
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
}

/** Box GEP, Muller ME (1958) Ann. Math. Statist. 29:610–611. */
export function normal(chance: Chance): number {
  const radius = Math.sqrt(-2 * Math.log(1 - chance()))
  return radius * Math.cos(2 * Math.PI * chance())
}

/** Marsaglia G, Tsang WW (2000) ACM Trans. Math. Softw. 26:363–372; mean = shape. */
function gamma(shape: number, chance: Chance): number {
  if (shape < 1) return gamma(shape + 1, chance) * (1 - chance()) ** (1 / shape)
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  for (;;) {
    const x = normal(chance)
    const v = (1 + c * x) ** 3
    if (v > 0 && Math.log(1 - chance()) < (x * x) / 2 + d - d * v + d * Math.log(v)) return d * v
  }
}

/** Knuth's multiplication method, in portions that keep e^(−mean) large. */
function poisson(mean: number, chance: Chance): number {
  let left = mean
  let count = 0
  while (left > 0) {
    const floor = Math.exp(-Math.min(left, 30))
    left -= 30
    for (let product = chance(); product > floor; product *= chance()) count += 1
  }
  return count
}

/** Negative binomial with variance mean + mean²/k; Poisson when k is Infinity. */
export function clumpedCount(mean: number, k: number, chance: Chance): number {
  return poisson(k === Infinity ? mean : (gamma(k, chance) * mean) / k, chance)
}

/** How effort changes from reading to reading, by reading number and number of readings. */
export const efforts = {
  'the same': () => 1,
  '1 or 4 at random': (_i: number, _n: number, chance: Chance) => (chance() < 0.5 ? 1 : 4),
  '1, then 4 halfway': (i: number, n: number) => (i < n / 2 ? 1 : 4),
  '1, one in seven 10': (_i: number, _n: number, chance: Chance) => (chance() < 1 / 7 ? 10 : 1),
} as const

export interface SeriesPlan {
  readings: number
  /** Mean catch per unit of effort in the middle of the series. */
  mean: number
  k: number
  effort: keyof typeof efforts
  /** True factor per 30 days. */
  perMonth: number
}

/** One series of monthly readings, 30 days apart. */
export function inventedSeries(plan: SeriesPlan, chance: Chance): CountObservation[] {
  return Array.from({ length: plan.readings }, (_, i) => {
    const exposure = efforts[plan.effort](i, plan.readings, chance)
    const rate = plan.mean * plan.perMonth ** (i - (plan.readings - 1) / 2)
    return { day: 20_000 + 30 * i, count: clumpedCount(rate * exposure, plan.k, chance), exposure }
  })
}

/** A series whose level wanders (first-order autoregression of the log rate) about an unchanging mean. */
export function wanderingSeries(readings: number, mean: number, chance: Chance): CountObservation[] {
  const [persistence, spread] = [0.7, 0.7]
  let level = spread * normal(chance)
  return Array.from({ length: readings }, (_, i) => {
    if (i > 0) level = persistence * level + spread * Math.sqrt(1 - persistence ** 2) * normal(chance)
    return { day: 20_000 + 30 * i, count: poisson(mean * Math.exp(level), chance), exposure: 1 }
  })
}

/**
 * A series with a yearly season, three times the mean at its height and a third at its lowest, from any month
 * on.
 */
export function seasonalSeries(readings: number, mean: number, chance: Chance): CountObservation[] {
  const start = chance() * 12
  return Array.from({ length: readings }, (_, i) => {
    const rate = mean * 3 ** Math.sin((2 * Math.PI * (start + i)) / 12)
    return { day: 20_000 + 30 * i, count: poisson(rate, chance), exposure: 1 }
  })
}

/** Six traps a day that share the day's luck: a common factor of each day, then Poisson in each trap. */
export function sharedDays(readings: number, mean: number, k: number, chance: Chance): CountObservation[] {
  return Array.from({ length: readings }, (_, i) => {
    const today = (gamma(k, chance) * mean) / k
    return Array.from({ length: 6 }, () => ({
      day: 20_000 + 30 * i,
      count: poisson(today, chance),
      exposure: 1,
    }))
  }).flat()
}
