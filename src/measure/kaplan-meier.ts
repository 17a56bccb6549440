import { isConfidence } from './poisson-rate.js'
import { normalCriticalValue } from './special-functions.js'

/** One problem followed from its beginning until it was mended, or until it was last seen unmended. */
export interface FollowedTime {
  /** From beginning to mending or to the last look, in days or any other unit that all share. 0 or more. */
  time: number
  /** True when it was mended then; false when it was still open when last seen (censored). */
  mended: boolean
}

/** The curve from one mending on, until the next. */
export interface SurvivalStep {
  time: number
  /** Still open and followed just before. */
  atRisk: number
  mended: number
  /** Share still open from this time on, 0 to 1. */
  stillOpen: number
  /** Greenwood's; null when the curve has reached 0. */
  standardError: number | null
  lower: number | null
  upper: number | null
}

export interface SurvivalCurve {
  followed: number
  mended: number
  /** One for each time at which something was mended, in order of time. */
  steps: SurvivalStep[]
  /** Time by which half were mended; null when the curve does not come down to a half. */
  median: number | null
  /** Limits of the median; null when the curve's own limit does not come down to a half. */
  medianLower: number | null
  medianUpper: number | null
}

/** R takes a curve for one half when it is within the square root of a double's precision of it. */
const AS_GOOD_AS_EQUAL = Math.sqrt(Number.EPSILON)

/**
 * The time at which a falling curve comes down to one half. When it stays at exactly one half for a while: the
 * middle of that while, as R has it; when it stays there to the end: its beginning.
 */
function timeOfHalf(times: readonly number[], heights: readonly (number | null)[]): number | null {
  const low = times.flatMap((time, i) => {
    const height = heights[i] ?? null
    return height !== null && height < 0.5 + AS_GOOD_AS_EQUAL ? [{ time, height }] : []
  })
  const [first] = low
  if (first === undefined) return null
  const next = low.find(({ height }) => height < first.height)
  const atHalf = Math.abs(first.height - 0.5) < AS_GOOD_AS_EQUAL
  return atHalf && next !== undefined ? (first.time + next.time) / 2 : first.time
}

/**
 * How long things stay open, counting those that are still open for as long as they were followed: Kaplan EL,
 * Meier P (1958) JASA 53:457–481. Standard errors by Greenwood M (1926) (his reference from memory); limits of
 * the curve on the log(−log) scale, R: `survfit(conf.type = "log-log")`; limits of the median are the times
 * at which the curve's limits come down to a half (Brookmeyer R, Crowley J 1982, Biometrics 38:29–41).
 *
 * On a tied time mendings come before censorings. Whoever stops being followed is taken to be like those who
 * go on: a problem that is no longer looked at because it was given up is not. Limits of the curve hold at one
 * time, not for the whole curve.
 *
 * Nothing followed gives an empty curve without median. Null when a time is negative or not a finite number,
 * or the confidence is not between 0 and 1.
 */
export function kaplanMeier(followed: readonly FollowedTime[], confidence = 0.95): SurvivalCurve | null {
  if (!isConfidence(confidence)) return null
  if (!followed.every(({ time }) => Number.isFinite(time) && time >= 0)) return null
  const critical = normalCriticalValue(confidence)
  const ends = new Map<number, { mended: number; all: number }>()
  for (const { time, mended } of followed) {
    const at = ends.get(time) ?? { mended: 0, all: 0 }
    ends.set(time, at)
    at.all += 1
    if (mended) at.mended += 1
  }
  const steps: SurvivalStep[] = []
  let atRisk = followed.length
  let stillOpen = 1
  let greenwood = 0
  for (const [time, { mended, all }] of [...ends].sort(([a], [b]) => a - b)) {
    if (mended > 0) {
      stillOpen *= (atRisk - mended) / atRisk
      greenwood += mended / (atRisk * (atRisk - mended))
      steps.push({ time, atRisk, mended, stillOpen, ...limits(stillOpen, greenwood, critical) })
    }
    atRisk -= all
  }
  const times = steps.map((step) => step.time)
  const halfOf = (height: (step: SurvivalStep) => number | null) => timeOfHalf(times, steps.map(height))
  return {
    followed: followed.length,
    mended: steps.reduce((sum, step) => sum + step.mended, 0),
    steps,
    median: halfOf((step) => step.stillOpen),
    medianLower: halfOf((step) => step.lower),
    medianUpper: halfOf((step) => step.upper),
  }
}

/** Greenwood's standard error and the limits S^exp(±z·√V/|ln S|). V is the variance of ln S. */
function limits(survival: number, variance: number, critical: number) {
  if (survival === 0) return { standardError: null, lower: null, upper: null }
  const spread = (critical * Math.sqrt(variance)) / Math.abs(Math.log(survival))
  return {
    standardError: survival * Math.sqrt(variance),
    lower: survival ** Math.exp(spread),
    upper: survival ** Math.exp(-spread),
  }
}
