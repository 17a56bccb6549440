import type { Random } from './seeded-random.js'
import { binomialProbability } from './special-functions.js'

/** Below this mean counting up from zero is quicker than rejection. */
const FEW = 10

/** Counts up the distribution from zero until the drawn share is used up. 0 < chance <= 1/2. */
function binomialByInversion(random: Random, trials: number, chance: number): number {
  const odds = chance / (1 - chance)
  let probability = Math.exp(trials * Math.log1p(-chance))
  let left = random.next()
  let successes = 0
  while (left > probability && successes < trials) {
    left -= probability
    successes += 1
    probability *= (odds * (trials - successes + 1)) / successes
  }
  return successes
}

/** Hörmann's transformed rejection (BTRS). 0 < chance <= 1/2, trials · chance >= 10. */
function binomialByRejection(random: Random, trials: number, chance: number): number {
  const spread = Math.sqrt(trials * chance * (1 - chance))
  const b = 1.15 + 2.53 * spread
  const a = -0.0873 + 0.0248 * b + 0.01 * chance
  const centre = trials * chance + 0.5
  const surely = 0.92 - 4.2 / b
  const height = (2.83 + 5.1 / b) * spread
  const mode = Math.floor((trials + 1) * chance)
  const atMode = binomialProbability(mode, trials, chance, 1 - chance)
  for (;;) {
    const u = random.next() - 0.5
    const v = random.next()
    const room = 0.5 - Math.abs(u)
    const successes = Math.floor(((2 * a) / room + b) * u + centre)
    if (room >= 0.07 && v <= surely) return successes
    if (successes < 0 || successes > trials) continue
    const accept = binomialProbability(successes, trials, chance, 1 - chance) / atMode
    if ((v * height) / (a / (room * room) + b) <= accept) return successes
  }
}

/**
 * How many of many trials succeed: exact inversion while fewer than ten are expected, else Hörmann W (1993) The
 * generation of binomial random variates, J. Statist. Comput. Simul. 46:101–110. `trials` a whole number from
 * zero up; a chance outside 0 to 1 counts as the nearer end.
 */
export function binomialOfMany(random: Random, trials: number, chance: number): number {
  if (trials <= 0 || !(chance > 0)) return 0
  if (chance >= 1) return trials
  if (chance > 0.5) return trials - binomialOfMany(random, trials, 1 - chance)
  return trials * chance < FEW
    ? binomialByInversion(random, trials, chance)
    : binomialByRejection(random, trials, chance)
}

/**
 * Deals out a total over places in proportion to their weights (multinomial), one conditional binomial a place.
 * Writes into `counts`, one entry a weight; no weight may be negative and not all may be zero.
 */
export function multinomialInto(
  random: Random,
  total: number,
  weights: ArrayLike<number>,
  counts: Float64Array,
): void {
  let weightLeft = 0
  for (let i = 0; i < weights.length; i += 1) weightLeft += weights[i] ?? 0
  let left = total
  for (let i = 0; i < weights.length; i += 1) {
    const weight = weights[i] ?? 0
    const drawn = i === weights.length - 1 ? left : binomialOfMany(random, left, weight / weightLeft)
    counts[i] = drawn
    left -= drawn
    weightLeft -= weight
  }
}

/** Puts the first `length` entries of `order` into chance order: Fisher & Yates, as in Durstenfeld (1964). */
export function shuffle(random: Random, order: Int32Array, length = order.length): void {
  for (let last = length - 1; last > 0; last -= 1) {
    const other = Math.floor(random.next() * (last + 1))
    const kept = order[last] ?? 0
    order[last] = order[other] ?? 0
    order[other] = kept
  }
}
