import { type CountObservation, DAYS_PER_MONTH, fitLogLinear } from './log-linear.js'

/** A log-linear fit whose variance is μ + clumping · μ²; slope and standard error per 30 days. */
export interface ClumpedFit {
  slope: number
  standardError: number
  /** 0 for catches that do not clump; the reciprocal of the negative binomial's k. */
  clumping: number
  /** Σ(count − μ)² / (μ + clumping · μ²). */
  pearsonChiSquare: number
}

interface Series {
  months: Float64Array
  counts: Float64Array
  logExposures: Float64Array
}

interface Line {
  level: number
  slope: number
}

/** A line with what it expects at each reading, which likelihood, step and spread all need: exponentials are dear. */
interface Fitted extends Line {
  means: Float64Array
}

function fittedTo({ months, logExposures }: Series, { level, slope }: Line): Fitted {
  const means = new Float64Array(months.length)
  for (let i = 0; i < means.length; i += 1)
    means[i] = Math.exp((logExposures[i] ?? 0) + level + slope * (months[i] ?? 0))
  return { level, slope, means }
}

/**
 * Part of the negative binomial log-likelihood that depends on the line; concave in it for a given clumping.
 */
function logLikelihood({ counts }: Series, { means }: Fitted, clumping: number): number {
  let sum = 0
  for (let i = 0; i < means.length; i += 1) {
    const [count, mu] = [counts[i] ?? 0, means[i] ?? 0]
    if (count > 0) sum += count * Math.log(mu)
    sum -= (count + 1 / clumping) * Math.log1p(clumping * mu)
  }
  return sum
}

/** Newton's step from a line at a given clumping. */
function newtonStep({ counts, months }: Series, { means }: Fitted, clumping: number): Line {
  let score = 0
  let scoreTime = 0
  let curve = 0
  let curveTime = 0
  let curveTime2 = 0
  for (let i = 0; i < means.length; i += 1) {
    const [count, mu, t] = [counts[i] ?? 0, means[i] ?? 0, months[i] ?? 0]
    const spread = 1 + clumping * mu
    const excess = (count - mu) / spread
    const bend = (mu * (1 + clumping * count)) / (spread * spread)
    score += excess
    scoreTime += t * excess
    curve += bend
    curveTime += t * bend
    curveTime2 += t * t * bend
  }
  const determinant = curve * curveTime2 - curveTime * curveTime
  return {
    level: (curveTime2 * score - curveTime * scoreTime) / determinant,
    slope: (curve * scoreTime - curveTime * score) / determinant,
  }
}

/** Standard error of the slope by the expected information at a line, and Pearson's χ² there. */
function spreadAbout({ counts, months }: Series, { means }: Fitted, clumping: number) {
  let weight = 0
  let weightTime = 0
  let weightTime2 = 0
  let chiSquare = 0
  for (let i = 0; i < means.length; i += 1) {
    const [count, mu, t] = [counts[i] ?? 0, means[i] ?? 0, months[i] ?? 0]
    const spread = 1 + clumping * mu
    weight += mu / spread
    weightTime += (t * mu) / spread
    weightTime2 += (t * t * mu) / spread
    if (mu > 0) chiSquare += (count - mu) ** 2 / (mu * spread)
  }
  const determinant = weight * weightTime2 - weightTime * weightTime
  return { standardError: Math.sqrt(weight / determinant), chiSquare }
}

/** Newton's method, each step halved until the likelihood does not fall: the maximum is unique (concave). */
function bestLine(series: Series, start: Fitted, clumping: number): Fitted {
  let line = start
  let height = logLikelihood(series, line, clumping)
  for (let i = 0; i < 100; i += 1) {
    const step = newtonStep(series, line, clumping)
    let share = 1
    let next = line
    let nextHeight = Number.NEGATIVE_INFINITY
    for (let halvings = 0; halvings < 40; halvings += 1) {
      next = fittedTo(series, {
        level: line.level + share * step.level,
        slope: line.slope + share * step.slope,
      })
      nextHeight = logLikelihood(series, next, clumping)
      if (nextHeight >= height - 1e-12 * Math.abs(height)) break
      share /= 2
    }
    const settled = Math.abs(share * step.level) + Math.abs(share * step.slope) < 1e-10
    line = next
    height = nextHeight
    if (settled) break
  }
  return line
}

function lineUp(observations: readonly CountObservation[]): Series & { middle: number } {
  const middle = observations.reduce((sum, o) => sum + o.day, 0) / observations.length
  return {
    middle,
    months: Float64Array.from(observations, (o) => (o.day - middle) / DAYS_PER_MONTH),
    counts: Float64Array.from(observations, (o) => o.count),
    logExposures: Float64Array.from(observations, (o) => Math.log(o.exposure)),
  }
}

function poissonStart(
  observations: readonly CountObservation[],
  series: Series & { middle: number },
): Fitted | null {
  const fit = fitLogLinear(observations)
  if (!fit.estimable) return null
  return fittedTo(series, {
    level: fit.intercept + (fit.slope * series.middle) / DAYS_PER_MONTH,
    slope: fit.slope,
  })
}

/**
 * Log-linear fit with the negative binomial variance μ + clumping · μ² for a clumping that is given (above
 * 0): maximum likelihood, standard error from the expected information, as in Venables WN, Ripley BD (2002)
 * Modern Applied Statistics with S, sec. 7.4. All observations must have effort. Null where `fitLogLinear` is
 * not estimable.
 */
export function fitWithClumping(
  observations: readonly CountObservation[],
  clumping: number,
): ClumpedFit | null {
  const series = lineUp(observations)
  const start = poissonStart(observations, series)
  if (start === null) return null
  const line = bestLine(series, start, clumping)
  const { standardError, chiSquare } = spreadAbout(series, line, clumping)
  return { slope: line.slope, standardError, clumping, pearsonChiSquare: chiSquare }
}

/**
 * The same fit with the clumping that the counts themselves show: the one at which Pearson's χ² equals its n
 * − 2 degrees of freedom (Breslow NE 1984, Extra-Poisson variation in log-linear models, Appl. Statist.
 * 33:38–44), and none (the Poisson fit) when χ² does not exceed them to begin with. All observations must
 * have effort. Null where `fitLogLinear` is not estimable or with fewer than three observations.
 */
export function fitWithOwnClumping(observations: readonly CountObservation[]): ClumpedFit | null {
  const series = lineUp(observations)
  const start = poissonStart(observations, series)
  const degreesOfFreedom = observations.length - 2
  if (start === null || degreesOfFreedom < 1) return null
  const none = spreadAbout(series, start, 0)
  if (none.chiSquare <= degreesOfFreedom) {
    return {
      slope: start.slope,
      standardError: none.standardError,
      clumping: 0,
      pearsonChiSquare: none.chiSquare,
    }
  }
  let line = start
  const excess = (clumping: number) => {
    line = bestLine(series, line, clumping)
    return spreadAbout(series, line, clumping).chiSquare - degreesOfFreedom
  }
  const clumping = fallingRoot(excess, none.chiSquare - degreesOfFreedom)
  line = bestLine(series, line, clumping)
  const { standardError, chiSquare } = spreadAbout(series, line, clumping)
  return { slope: line.slope, standardError, clumping, pearsonChiSquare: chiSquare }
}

/**
 * Where a function that is positive at 0 and negative far out crosses zero: doubling until it is bracketed,
 * then false position with the Illinois change (Dowell & Jarratt 1971).
 */
function fallingRoot(f: (x: number) => number, atZero: number): number {
  let low = 0
  let atLow = atZero
  let high = 0.125
  let atHigh = f(high)
  for (let i = 0; i < 1000 && atHigh > 0; i += 1) {
    low = high
    atLow = atHigh
    high *= 2
    atHigh = f(high)
  }
  let side = 0
  for (let i = 0; i < 200; i += 1) {
    const x = (low * atHigh - high * atLow) / (atHigh - atLow)
    if (!(x > low && x < high)) break
    const atX = f(x)
    if (Math.abs(atX) < 1e-9) return x
    if (atX > 0) {
      low = x
      atLow = atX
      if (side === 1) atHigh /= 2
      side = 1
    } else {
      high = x
      atHigh = atX
      if (side === -1) atLow /= 2
      side = -1
    }
  }
  return high
}
