import { FEWEST_EFFECTIVE } from './effective-counts.js'
import { normalCriticalValue } from './special-functions.js'

/** Four counts, whole or effective, none negative: the odds ratio is (a · d) / (b · c). */
export interface FourCounts {
  a: number
  b: number
  c: number
  d: number
}

/** Limits of an odds ratio with the two-sided p that agrees with them; null for a limit that nothing sets. */
export interface OddsRatioLimits {
  lower: number
  upper: number | null
  p: number
}

/** Terms below this share of the sum change no digit. */
const NEGLIGIBLE = 1e-17
/** Beyond this one side of the sum has left the other behind altogether. */
const OVERWHELMING = 1e280

/**
 * Sum of the weights of all tables with the margins of the one seen and `gain`ing 1, 2, … in two cells and losing
 * as much in the two others, against a weight of 1 for the table seen. Cells may go down to, but not reach, −1:
 * for whole counts the weight there is 0 (1/Γ(0)), so the sum is Fisher's; for others it varies smoothly.
 */
function weightBeyond(
  gains: readonly [number, number],
  losses: readonly [number, number],
  odds: number,
): number {
  let sum = 0
  let term = 1
  for (let step = 1; ; step += 1) {
    const left1 = losses[0] - step + 1
    const left2 = losses[1] - step + 1
    if (left1 <= 0 || left2 <= 0) return sum
    const ratio = (odds * left1 * left2) / ((gains[0] + step) * (gains[1] + step))
    term *= ratio
    sum += term
    if (sum > OVERWHELMING || (ratio < 1 && term <= NEGLIGIBLE * (1 + sum) * (1 - ratio))) return sum
  }
}

/** P(a or more) and P(a or fewer) given the margins, at the given odds ratio. */
function tailsAt({ a, b, c, d }: FourCounts, odds: number): { atLeast: number; atMost: number } {
  const up = Math.min(OVERWHELMING, weightBeyond([a, d], [b, c], odds))
  const down = Math.min(OVERWHELMING, weightBeyond([b, c], [a, d], 1 / odds))
  const all = 1 + up + down
  return { atLeast: (1 + up) / all, atMost: (1 + down) / all }
}

/** Where a rising function of the log odds crosses zero: bracketed by doubling steps, then halved. */
function crossing(start: number, step: number, rising: (logOdds: number) => number): number {
  let low = start
  let high = start
  for (let reach = step; rising(low) > 0; reach *= 2) low -= reach
  for (let reach = step; rising(high) < 0; reach *= 2) high += reach
  for (let i = 0; i < 200; i += 1) {
    const middle = (low + high) / 2
    if (middle <= low || middle >= high || high - low < 1e-13) break
    if (rising(middle) < 0) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * Exact conditional limits of an odds ratio: Fisher RA (1935) J. R. Statist. Soc. 98:39–82 and Cornfield J (1956)
 * Proc. 3rd Berkeley Symp. 4:135–148, from the noncentral hypergeometric distribution of a count given all
 * margins; each tail holds (1 − confidence)/2, as R's `fisher.test` gives them. Continued to counts that are not
 * whole by writing the factorials as gamma functions.
 *
 * `atNoDifference` is the odds ratio for which `p` (twice the smaller tail) is given. All counts zero or above,
 * all of them finite, odds above zero; `confidence` strictly between 0 and 1.
 */
export function exactOddsRatio(counts: FourCounts, confidence: number, atNoDifference = 1): OddsRatioLimits {
  const { a, b, c, d } = counts
  const tail = (1 - confidence) / 2
  const start = Math.log(((a + 0.5) * (d + 0.5)) / ((b + 0.5) * (c + 0.5)))
  const step =
    normalCriticalValue(confidence) * Math.sqrt(1 / (a + 0.5) + 1 / (b + 0.5) + 1 / (c + 0.5) + 1 / (d + 0.5))
  const noLower = Math.min(a, d) < FEWEST_EFFECTIVE
  const noUpper = Math.min(b, c) < FEWEST_EFFECTIVE
  const lower = noLower
    ? 0
    : Math.exp(crossing(start - step, step, (u) => tailsAt(counts, Math.exp(u)).atLeast - tail))
  const upper = noUpper
    ? null
    : Math.exp(crossing(start + step, step, (u) => tail - tailsAt(counts, Math.exp(u)).atMost))
  const { atLeast, atMost } = tailsAt(counts, atNoDifference)
  const smaller = Math.min(noLower ? 1 : atLeast, noUpper ? 1 : atMost)
  return { lower, upper, p: Math.min(1, 2 * smaller) }
}
