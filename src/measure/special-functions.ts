/**
 * The few distribution functions the other files need: incomplete gamma and beta functions with both tails,
 * and their inverses. Each tail is computed directly where it is the small one, never as one minus the large
 * one.
 */

/** The two tails of a distribution; they add up to one, and the smaller keeps full relative precision. */
export interface Tails {
  lower: number
  upper: number
}

const RELATIVE_STEP = 1e-16
const CLOSE_ENOUGH = 1e-15
const MOST_TERMS = 2_000_000
/** Keeps Lentz's continued fractions away from division by zero. */
const TINY = 1e-300

/**
 * Stirling's error, ln Γ(n+1) − [½ ln(2πn) + n ln n − n], for real n > 0. The series (Abramowitz & Stegun
 * 1964, 6.1.40) serves from 15 up; below, the exact recurrence in n leads up to it.
 */
function stirlingError(n: number): number {
  let steps = 0
  let m = n
  while (m < 15) {
    steps += (m + 0.5) * Math.log1p(1 / m) - 1
    m += 1
  }
  const s = 1 / (m * m)
  return steps + (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - s / 1188) * s) * s) * s) / m
}

/** x ln(x/m) + m − x without cancellation when x is near m (Loader 2000). x > 0, m > 0. */
function devianceTerm(x: number, m: number): number {
  if (Math.abs(x - m) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x
  const v = (x - m) / (x + m)
  let sum = (x - m) * v
  let term = 2 * x * v
  for (let j = 1; j < 1000; j += 1) {
    term *= v * v
    const next = sum + term / (2 * j + 1)
    if (next === sum) break
    sum = next
  }
  return sum
}

/** mˣ e⁻ᵐ / Γ(x+1) for real x > 0, m > 0: Loader C (2000), saddle-point form. */
export function poissonDensity(x: number, m: number): number {
  return Math.exp(-stirlingError(x) - devianceTerm(x, m)) / Math.sqrt(2 * Math.PI * x)
}

/** xᵃ yᵇ / B(a, b) with y = 1 − x: Loader C (2000), saddle-point form. */
export function betaKernel(x: number, y: number, a: number, b: number): number {
  const n = a + b
  const exponent =
    stirlingError(n) - stirlingError(a) - stirlingError(b) - devianceTerm(a, n * x) - devianceTerm(b, n * y)
  return Math.exp(exponent) * Math.sqrt((a * b) / (2 * Math.PI * n))
}

/**
 * Probability of exactly `successes` in `trials`, by Loader's (2000) saddle-point form. Whole numbers,
 * 0 <= successes <= trials; `chance` strictly between 0 and 1, `otherwise` = 1 − chance.
 */
export function binomialProbability(
  successes: number,
  trials: number,
  chance: number,
  otherwise: number,
): number {
  const failures = trials - successes
  if (successes === 0) return Math.exp(trials * Math.log1p(-chance))
  if (failures === 0) return Math.exp(trials * Math.log1p(-otherwise))
  return (betaKernel(chance, otherwise, successes, failures) * trials) / (successes * failures)
}

/**
 * Modified Lentz evaluation (Lentz 1976; Thompson & Barnett 1986) of 1 / (b1 + a2/(b2 + …)), term by term.
 */
function lentz(
  firstDenominator: number,
  numeratorAt: (i: number) => number,
  denominatorAt: (i: number) => number,
) {
  let c = 1 / TINY
  let d = 1 / (Math.abs(firstDenominator) < TINY ? TINY : firstDenominator)
  let value = d
  for (let i = 1; i <= MOST_TERMS; i += 1) {
    const numerator = numeratorAt(i)
    const denominator = denominatorAt(i)
    d = numerator * d + denominator
    c = denominator + numerator / c
    d = 1 / (Math.abs(d) < TINY ? TINY : d)
    if (Math.abs(c) < TINY) c = TINY
    const factor = c * d
    value *= factor
    if (Math.abs(factor - 1) < CLOSE_ENOUGH) break
  }
  return value
}

/**
 * Both tails of the gamma distribution of the given shape (scale 1) at x: lower P(a, x), upper Q(a, x).
 * Power series below shape + 1, continued fraction above (Abramowitz & Stegun 1964, 6.5.29 and 6.5.31).
 * shape > 0, x >= 0.
 */
export function gammaTails(shape: number, x: number): Tails {
  if (x === 0) return { lower: 0, upper: 1 }
  const density = poissonDensity(shape, x)
  if (x < shape + 1) {
    let term = 1
    let sum = 1
    for (let n = 1; n <= MOST_TERMS && term > sum * RELATIVE_STEP; n += 1) {
      term *= x / (shape + n)
      sum += term
    }
    const lower = Math.min(1, density * sum)
    return { lower, upper: 1 - lower }
  }
  const fraction = lentz(
    x + 1 - shape,
    (i) => -i * (i - shape),
    (i) => x + 1 - shape + 2 * i,
  )
  const upper = Math.min(1, density * shape * fraction)
  return { lower: 1 - upper, upper }
}

/** The continued fraction of Abramowitz & Stegun 1964, 26.5.8. */
function betaFraction(x: number, a: number, b: number): number {
  return lentz(
    1,
    (i) => {
      if (i % 2 === 1) {
        const m = (i - 1) / 2
        return (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
      }
      const m = i / 2
      return (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    },
    () => 1,
  )
}

/**
 * Both tails of the beta distribution at x: lower I_x(a, b), upper 1 − I_x(a, b). `y` is 1 − x, given apart
 * so that neither loses digits near an end. a, b > 0.
 */
export function betaTails(x: number, y: number, a: number, b: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 }
  if (y <= 0) return { lower: 1, upper: 0 }
  const kernel = betaKernel(x, y, a, b)
  if (x < (a + 1) / (a + b + 2)) {
    const lower = Math.min(1, (kernel * betaFraction(x, a, b)) / a)
    return { lower, upper: 1 - lower }
  }
  const upper = Math.min(1, (kernel * betaFraction(y, b, a)) / b)
  return { lower: 1 - upper, upper }
}

/**
 * Newton's method on the logarithm of a tail. On the scales used here (log x, logit x) both tails are
 * log-concave, so after at most one overshoot the steps approach the root from one side; a longest step keeps
 * that one overshoot within what a double can hold.
 */
function newtonOnLogTail(
  start: number,
  longestStep: number,
  target: number,
  at: (u: number) => { tail: number; slope: number },
): number {
  let u = start
  for (let i = 0; i < 500; i += 1) {
    const { tail, slope } = at(u)
    const newton = (Math.log(tail / target) * tail) / slope
    const step = Math.max(-longestStep, Math.min(longestStep, newton))
    u -= step
    // The error left is about the square of the last step.
    if (Math.abs(step) <= 1e-10) break
  }
  return u
}

function gammaQuantile(shape: number, probability: number, tail: 'lower' | 'upper'): number {
  const sign = tail === 'lower' ? 1 : -1
  const u = newtonOnLogTail(Math.log(shape), Math.min(1, 4 / Math.sqrt(shape)), probability, (v) => {
    const x = Math.exp(v)
    return { tail: gammaTails(shape, x)[tail], slope: sign * shape * poissonDensity(shape, x) }
  })
  return Math.exp(u)
}

/** The x below which the gamma distribution (scale 1) has the given probability, 1e-16 <= probability < 1. */
export function gammaQuantileLower(shape: number, probability: number): number {
  return gammaQuantile(shape, probability, 'lower')
}

/** The x above which the gamma distribution (scale 1) has the given probability, 1e-16 <= probability < 1. */
export function gammaQuantileUpper(shape: number, probability: number): number {
  return gammaQuantile(shape, probability, 'upper')
}

/**
 * The odds x / (1 − x) of the x below which the beta distribution has the given probability. Odds, because
 * neither x nor 1 − x alone holds its digits at both ends. 1e-16 <= probability < 1.
 */
export function betaQuantileOdds(a: number, b: number, probability: number): number {
  const longestStep = Math.min(1, 4 * Math.sqrt(1 / a + 1 / b))
  const u = newtonOnLogTail(Math.log(a / b), longestStep, probability, (v) => {
    const x = 1 / (1 + Math.exp(-v))
    const y = 1 / (1 + Math.exp(v))
    return { tail: betaTails(x, y, a, b).lower, slope: betaKernel(x, y, a, b) }
  })
  return Math.exp(u)
}

/** Chance that a standard normal lies at least |z| from zero, on either side. */
export function normalTwoSidedP(z: number): number {
  return gammaTails(0.5, (z * z) / 2).upper
}

/** The z that a standard normal stays within, on either side, with the given confidence (0.95 gives 1.96). */
export function normalCriticalValue(confidence: number): number {
  return Math.sqrt(2 * gammaQuantileUpper(0.5, 1 - confidence))
}

/** Chance that Student's t (Student 1908) lies at least |t| from zero. degreesOfFreedom > 0. */
export function studentTwoSidedP(t: number, degreesOfFreedom: number): number {
  const square = t * t
  const total = degreesOfFreedom + square
  return betaTails(degreesOfFreedom / total, square / total, degreesOfFreedom / 2, 0.5).lower
}

/** The t that Student's t stays within, on either side, with the given confidence. degreesOfFreedom > 0. */
export function studentCriticalValue(confidence: number, degreesOfFreedom: number): number {
  return Math.sqrt(degreesOfFreedom / betaQuantileOdds(degreesOfFreedom / 2, 0.5, 1 - confidence))
}
