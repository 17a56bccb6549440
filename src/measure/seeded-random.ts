/**
 * Seeded chance for invented ledgers and for tests by simulation: the same seed gives the same numbers on every
 * machine. Nothing here is fit for secrets.
 */
export interface Random {
  /** A number above 0 and below 1. */
  readonly next: () => number
  /** A stream of its own, told apart by its label, so that one part of a ledger does not disturb another. */
  readonly fork: (label: string) => Random
}

/** FNV-1a over the characters of a label, started from a seed. */
function hashLabel(label: string, seed: number): number {
  let hash = (0x811c9dc5 ^ seed) >>> 0
  for (let position = 0; position < label.length; position++) {
    hash = Math.imul(hash ^ label.charCodeAt(position), 0x01000193) >>> 0
  }
  return hash
}

/** Spreads one 32-bit seed into several: splitmix32, after Steele GL, Lea D, Flood CH (2014) OOPSLA 453–472. */
function spreadSeed(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x9e3779b9) >>> 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return (mixed ^ (mixed >>> 16)) >>> 0
  }
}

/** A stream from a whole-number seed: the small fast counting generator sfc32 (Doty-Humphrey C, PractRand, 2010). */
export function seededRandom(seed: number): Random {
  const whole = Math.trunc(seed) >>> 0
  const spread = spreadSeed(whole)
  let a = spread()
  let b = spread()
  let c = spread()
  let counter = 1
  const step = () => {
    const sum = (a + b + counter) >>> 0
    counter = (counter + 1) >>> 0
    a = (b ^ (b >>> 9)) >>> 0
    b = (c + (c << 3)) >>> 0
    c = (((c << 21) | (c >>> 11)) + sum) >>> 0
    return sum
  }
  for (let round = 0; round < 12; round++) step()
  return {
    next: () => (step() + 0.5) / 4294967296,
    fork: (label) => seededRandom(hashLabel(label, whole)),
  }
}

/** True with the given probability. */
export function chance(random: Random, probability: number): boolean {
  return random.next() < probability
}

/** A whole number from `lowest` to `highest`, both included. */
export function wholeBetween(random: Random, lowest: number, highest: number): number {
  return lowest + Math.floor(random.next() * (highest - lowest + 1))
}

export function pick<T>(random: Random, choices: readonly T[]): T {
  const chosen = choices[Math.floor(random.next() * choices.length)]
  if (chosen === undefined) throw new RangeError('nothing to pick from')
  return chosen
}

/** Standard normal: Box GEP, Muller ME (1958) Ann Math Stat 29:610–611, one of the pair. */
export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(random.next())) * Math.cos(2 * Math.PI * random.next())
}

/** Gamma of the given shape and scale, mean shape × scale: Marsaglia G, Tsang WW (2000) ACM TOMS 26:363–372. */
export function gamma(random: Random, shape: number, scale: number): number {
  if (shape < 1) {
    return gamma(random, shape + 1, scale) * random.next() ** (1 / shape)
  }
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  for (;;) {
    const x = normal(random)
    const v = (1 + c * x) ** 3
    if (v <= 0) continue
    if (Math.log(random.next()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v * scale
  }
}

/** Poisson: by multiplication while the mean is small, by halving it through a gamma (Ahrens & Dieter 1974) above. */
export function poisson(random: Random, mean: number): number {
  let left = mean
  let counted = 0
  while (left > 16) {
    const part = Math.floor(left * 0.875)
    const reached = gamma(random, part, 1)
    if (reached >= left) return counted + binomial(random, part - 1, left / reached)
    counted += part
    left -= reached
  }
  if (left <= 0) return counted
  const limit = Math.exp(-left)
  let product = random.next()
  while (product > limit) {
    counted++
    product *= random.next()
  }
  return counted
}

/** How many of `trials` succeed, tried one by one; `binomialOfMany` is quicker where there are many. */
export function binomial(random: Random, trials: number, probability: number): number {
  let successes = 0
  for (let trial = 0; trial < trials; trial++) if (random.next() < probability) successes++
  return successes
}

/**
 * Negative binomial as a Poisson whose mean is gamma: mean `mean`, variance mean + mean²/k. The smaller k, the more
 * the catch clumps.
 */
export function negativeBinomial(random: Random, mean: number, k: number): number {
  if (mean <= 0) return 0
  return poisson(random, gamma(random, k, mean / k))
}
