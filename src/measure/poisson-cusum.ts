import { isCount, isExposure } from './poisson-rate.js'

/** Which change is watched for. */
export type CusumDirection = 'up' | 'down'

export interface CusumPlan {
  direction: CusumDirection
  /** Reference value k: taken off (up) or credited (down) for each unit of exposure. */
  k: number
  /** Decision value h, in events: the sum signals when it reaches h. Above 0. */
  h: number
  /** The sum before the first reading, in events; 0 unless given. h/2 is the usual head start. */
  headStart?: number
  /** What follows a signal: the sum goes on (the default) or starts again from 0. */
  afterSignal?: 'go-on' | 'start-again'
}

/** What one reading caught, and with how much effort. */
export interface CusumReading {
  count: number
  /** In any unit that all share and that the in-control rate is in: readings, trap-nights. */
  exposure: number
}

export type PoissonCusum =
  | { estimable: false; reason: 'not-a-count' | 'no-effort' | 'plan-out-of-range' }
  | {
      estimable: true
      /** The sum after each reading, in events; as long as the readings. */
      path: number[]
      /** Places in the readings at which the sum is at or above h. */
      signals: number[]
    }

/** A sum that rounding left this little below h, relative to it, has reached it. */
const ROUNDING = 1e-9

/**
 * The best reference value for telling one Poisson rate from another: k = (μ1 − μ0)/(ln μ1 − ln μ0), Lucas JM
 * (1985) Counted data CUSUM's, Technometrics 27:129–144. Per unit of exposure, not rounded, between the two.
 * Null when a rate is not above zero, or both are the same.
 */
export function cusumReference(
  inControl: number,
  outOfControl: number,
): { direction: CusumDirection; k: number } | null {
  if (!isExposure(inControl) || !isExposure(outOfControl)) return null
  const step = outOfControl - inControl
  const ratio = outOfControl / inControl
  // log1p keeps its digits for rates that are close; for the others it would lose them.
  const k = step / (ratio > 0.5 && ratio < 2 ? Math.log1p(step / inControl) : Math.log(ratio))
  if (!isExposure(k)) return null
  return { direction: step > 0 ? 'up' : 'down', k }
}

/**
 * Cumulative sum that picks up a lasting change of a rate sooner than single readings do: Lucas (1985), with
 * exposure e of each reading. Up: S = max(0, S + count − k·e); down: S = max(0, S + k·e − count). **Signals
 * when S >= h.** Head start: Lucas JM, Crosier RB (1982) Technometrics 24:199–205; after a signal the sum
 * starts again from 0, not from the head start.
 *
 * Readings in order of time. A reading without effort says nothing: the sum stays as it is and does not signal.
 * Where one animal is reason to act, act on one; this is for counts that are never zero for long.
 *
 * Not estimable, with the reason, when a count is not a whole number from zero up, no reading has effort, or k,
 * h or the head start is out of range.
 */
export function poissonCusum(readings: readonly CusumReading[], plan: CusumPlan): PoissonCusum {
  const { direction, k, h, headStart = 0, afterSignal = 'go-on' } = plan
  if (!isExposure(k) || !isExposure(h) || !(headStart >= 0 && headStart < h)) {
    return { estimable: false, reason: 'plan-out-of-range' }
  }
  const sign = direction === 'up' ? 1 : -1
  const path: number[] = []
  const signals: number[] = []
  let sum = headStart
  let signalled = false
  let anyEffort = false
  for (const [i, { count, exposure }] of readings.entries()) {
    if (isExposure(exposure)) {
      if (!isCount(count)) return { estimable: false, reason: 'not-a-count' }
      anyEffort = true
      if (signalled && afterSignal === 'start-again') sum = 0
      sum = Math.max(0, sum + sign * (count - k * exposure))
      if (!Number.isFinite(sum)) return { estimable: false, reason: 'plan-out-of-range' }
      signalled = sum >= h * (1 - ROUNDING)
      if (signalled) signals.push(i)
    }
    path.push(sum)
  }
  return anyEffort ? { estimable: true, path, signals } : { estimable: false, reason: 'no-effort' }
}
