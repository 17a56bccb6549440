import { isConfidence, isCount, isExposure } from './poisson-rate.js'

/** What one device caught, and what the others of its group caught, with their efforts in one unit. */
export interface OneAndOthers {
  count: number
  effort: number
  othersCount: number
  othersEffort: number
  /** Variance over mean of what the device would catch at the rate of the others; 1 when catches do not clump. */
  dispersion: number
}

/** Limits of a device's rate over that of the others; `upper` is null where nothing bounds it. */
export interface RatioLimits {
  lower: number
  upper: number | null
}

/** Dispersion this little above 1 is none. */
const NEARLY_NONE = 1e-12
/** Halvings of the bracket: the ratio is right to twelve digits. */
const HALVINGS = 50
/** Logarithms of weights beyond which nothing changes: no two catches are 10^100 times apart. */
const FARTHEST = 230
/** What is e^−NOTHING of the largest is nothing beside it. */
const NOTHING = 60

/**
 * Logarithms of how likely it is, but for one factor, that 0, 1, … `trials` of the animals fall to the device: those of
 * the beta-binomial, from each to the next.
 */
function logWeights(trials: number, own: number, others: number): Float64Array {
  const weights = new Float64Array(trials + 1)
  for (let x = 0; x < trials; x += 1) {
    const step = ((trials - x) * (x + own)) / ((x + 1) * (trials - x - 1 + others))
    weights[x + 1] = (weights[x] ?? 0) + Math.log(step)
  }
  return weights
}

/** Share of the weights from `first` to `last`, each multiplied by e^tilt as often as its place says. */
function shareOf(weights: Float64Array, tilt: number, first: number, last: number): number {
  let largest = -Infinity
  for (let x = 0; x < weights.length; x += 1) {
    largest = Math.max(largest, (weights[x] as number) + x * tilt)
  }
  let [within, all] = [0, 0]
  for (let x = 0; x < weights.length; x += 1) {
    const below = (weights[x] as number) + x * tilt - largest
    if (below < -NOTHING) continue
    const one = Math.exp(below)
    all += one
    if (x >= first && x <= last) within += one
  }
  return within / all
}

/** The tilt at which `isBelow` ends to hold. */
function crossing(isBelow: (tilt: number) => boolean): number {
  let [from, to] = [-FARTHEST, FARTHEST]
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (from + to) / 2
    if (isBelow(middle)) from = middle
    else to = middle
  }
  return (from + to) / 2
}

/**
 * Interval of a device's rate over the rate of the others, by turning round the comparison of `outlyingDevices`: the
 * ratios at which what it caught, given the total, is in neither tail of (1 − confidence)/2. Catches are taken to be
 * negative binomial with one k whatever the rate (variance = mean + mean²/k), so that a device with a high rate
 * clumps more than the others. Given the total, an animal more for the device then multiplies the beta-binomial
 * chance (Skellam JG 1948, J. R. Statist. Soc. B 10:257–261) by w = ρD/(1 + ρ(D − 1)), for a ratio ρ and the
 * dispersion D at the rate of the others; at ρ = 1 this is their comparison, and without clumping w = ρ and the
 * limits are Clopper and Pearson's (1934), as in `rateRatio`. Because w stays below D/(D − 1), a clumped catch may
 * leave the ratio without an upper limit. How often it holds the truth is in README.md.
 *
 * Nothing caught by the device: lower limit 0. Nothing by the others: no upper limit. Null when nothing was caught
 * at all, a count is no whole number from zero up, an effort is not above zero, the dispersion is below 1, the
 * confidence is not between 0 and 1, or catches clump so much that no ratio makes the catch likely enough. Time and room grow with the total.
 */
export function ratioToOthers(given: OneAndOthers, confidence = 0.95): RatioLimits | null {
  const { count, effort, othersCount, othersEffort, dispersion } = given
  const trials = count + othersCount
  if (!isCount(count) || !isCount(othersCount) || trials === 0) return null
  if (!isExposure(effort) || !isExposure(othersEffort) || !isConfidence(confidence)) return null
  if (!(dispersion >= 1) || !Number.isFinite(dispersion)) return null
  const tail = (1 - confidence) / 2
  const clumping = Math.max(dispersion - 1, NEARLY_NONE)
  // With none among the others, half an animal stands for the rate they may have had.
  const others = Math.max(othersCount, 0.5) / clumping
  const weights = logWeights(trials, (others * effort) / othersEffort, others)
  const asMany = (tilt: number) => shareOf(weights, tilt, count, trials)
  const asFew = (tilt: number) => shareOf(weights, tilt, 0, count)
  /** The ratio that multiplies by w; null where no ratio does. */
  const ratioOf = (tilt: number) => {
    const w = Math.exp(tilt)
    const below = 1 - (w - 1) * clumping
    return below > 0 ? w / below : null
  }
  const lower = count === 0 ? 0 : ratioOf(crossing((tilt) => asMany(tilt) < tail))
  const upper = othersCount === 0 ? null : ratioOf(crossing((tilt) => asFew(tilt) > tail))
  return lower === null ? null : { lower, upper }
}
