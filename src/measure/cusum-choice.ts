import { averageRunLength, cusumMoves, greatestCommonDivisor } from './cusum-run-length.js'
import { type CusumDirection, cusumReference } from './poisson-cusum.js'
import { isExposure } from './poisson-rate.js'
import { MOST_STATES, runLengthChain } from './run-length-chain.js'

export interface CusumWish {
  /** In-control mean count of a reading. */
  mean: number
  /** The change to be seen soon, as a factor of the mean: 2 for a doubling, 0.5 for a halving. */
  factor: number
  /** Average number of in-control readings from one false signal to the next; more than 1, at most a million. */
  runLength: number
  /** 0 for catches that do not clump; else variance = mean + clumping · mean². */
  clumping?: number
}

export interface ChosenCusum {
  chosen: true
  direction: CusumDirection
  /** The in-control mean that was reckoned with: the one wished for, rounded to three digits. */
  mean: number
  /** The clumping that was reckoned with, rounded to two digits. */
  clumping: number
  /** Events a reading, whole tenths. */
  k: number
  /** Events, whole tenths. */
  h: number
  /** Average in-control run at that mean, at least the one wished for. */
  runLength: number
  /** Average run from zero once the mean has changed by the factor. */
  runLengthOnceChanged: number
}

export type CusumChoice =
  | ChosenCusum
  | {
      chosen: false
      reason:
        | 'mean-out-of-range'
        | 'factor-too-close'
        | 'wish-out-of-range'
        | 'mean-too-small'
        | 'not-reached'
        | 'one-reading-tells'
    }

/** Nearer to 1 than this, and the sum would need more states than are worth while. */
const NEAREST_FACTOR = 1.2
const LONGEST_RUN = 1e6
const LARGEST_MEAN = 1e6
const SMALLEST_MEAN = 1e-6
const MOST_REMEMBERED = 5000
const remembered = new Map<string, CusumChoice>()

/** Three digits, towards the side on which false signals are more frequent. */
function roundedMean(mean: number, direction: CusumDirection): number {
  const near = Number(mean.toPrecision(3))
  const safe = direction === 'up' ? near >= mean : near <= mean
  if (safe) return near
  const unit = 10 ** (Math.floor(Math.log10(mean)) - 2)
  return Number((near + (direction === 'up' ? unit : -unit)).toPrecision(3))
}

/**
 * k in tenths: in whole events or halves where that is near enough, because the chain then has a tenth or a
 * fifth as many states; otherwise the nearest tenth beyond the mean. Near enough is a tenth of its distance
 * from the mean, or three tenths with clumping, for which this k is not the best one anyway.
 */
function roundedReference(k: number, mean: number, clumping: number): number {
  const nearEnough = (clumping > 0 ? 0.3 : 0.1) * Math.abs(k - mean)
  for (const step of [10, 5]) {
    const near = Math.round((k * 10) / step) * step
    if (Math.abs(near / 10 - k) <= nearEnough) return near
  }
  const near = Math.round(k * 10)
  if (k > mean) return near / 10 > mean ? near : Math.floor(mean * 10) + 1
  return near / 10 < mean ? near : Math.ceil(mean * 10) - 1
}

function choose(direction: CusumDirection, k: number, mean: number, wish: Required<CusumWish>): CusumChoice {
  const { factor, runLength, clumping } = wish
  const tenthsOfK = roundedReference(k, mean, clumping)
  if (tenthsOfK <= 0) return { chosen: false, reason: 'mean-too-small' }
  const step = greatestCommonDivisor(10, tenthsOfK)
  const chain = runLengthChain(cusumMoves(direction, mean, clumping, tenthsOfK / step, 10 / step))
  while (chain.fromZero() < runLength) {
    if (chain.states() === MOST_STATES) return { chosen: false, reason: 'not-reached' }
    chain.grow()
  }
  const plan = { direction, k: tenthsOfK / 10, h: (chain.states() * step) / 10 }
  const runLengthOnceChanged = averageRunLength({ ...plan, mean: mean * factor, clumping })
  if (!Number.isFinite(chain.fromZero())) return { chosen: false, reason: 'one-reading-tells' }
  if (runLengthOnceChanged === null) return { chosen: false, reason: 'not-reached' }
  return { chosen: true, ...plan, mean, clumping, runLength: chain.fromZero(), runLengthOnceChanged }
}

/**
 * The cumulative sum (k and the smallest h, both in tenths) that signals falsely no more often than wished: k by
 * Lucas (1985) for the change to be seen, h by the exact chain (Brook & Evans 1972), which grows by one state
 * until the average in-control run is long enough. Readings of equal effort; k · (effort / usual effort) and
 * the same h serve for others, within the bounds of `cusum-varied-effort.ts`.
 *
 * The h between two states all give the same chart at equal effort; the largest of them is given. k is optimal
 * for a Poisson law; with clumping the run lengths are still exact, only another k might see the change sooner.
 * Below a mean of about 0.07 k is 0.1, meant for a larger change than wished for.
 *
 * **An in-control mean estimated from few readings makes the true run length quite another one**; this knows
 * nothing of that. Not chosen, with the reason, when the mean is outside 1e-6 to 1e6, the factor within 1/1.2
 * to 1.2, the run length outside 1 to a million, a mean of 0.1 or less is to be watched for a fall, `MOST_STATES`
 * states do not reach the run length (clumping with a large mean), or the mean is so large that no in-control
 * reading could be taken for a changed one.
 *
 * Answers are remembered by mean (three digits, rounded to the safe side), factor, run length and clumping, so
 * thousands of series ask for a few hundred chains of mostly under a hundred states. Same question, same
 * answer, whatever was asked before.
 */
export function chooseCusum(wish: CusumWish): CusumChoice {
  const { mean, factor, runLength } = wish
  const clumping = Number((wish.clumping ?? 0).toPrecision(2))
  if (!(mean >= SMALLEST_MEAN && mean <= LARGEST_MEAN)) return { chosen: false, reason: 'mean-out-of-range' }
  if (!isExposure(factor) || !(runLength > 1 && runLength <= LONGEST_RUN)) {
    return { chosen: false, reason: 'wish-out-of-range' }
  }
  if (!(clumping >= 0 && clumping < Infinity)) return { chosen: false, reason: 'wish-out-of-range' }
  if (Math.max(factor, 1 / factor) < NEAREST_FACTOR) return { chosen: false, reason: 'factor-too-close' }
  const direction = factor > 1 ? 'up' : 'down'
  const rounded = roundedMean(mean, direction)
  const reference = cusumReference(rounded, rounded * factor)
  if (reference === null) return { chosen: false, reason: 'wish-out-of-range' }
  const key = `${rounded} ${factor} ${runLength} ${clumping}`
  const before = remembered.get(key)
  if (before !== undefined) return before
  const choice = choose(direction, reference.k, rounded, { mean, factor, runLength, clumping })
  if (remembered.size >= MOST_REMEMBERED) remembered.clear()
  remembered.set(key, choice)
  return choice
}
