import { divisorOf } from './effective-counts.js'
import { isConfidence, isCount } from './poisson-rate.js'
import type { ProportionInterval } from './proportion.js'
import { scoreInterval } from './proportion.js'

/** Trials that go together, such as the devices one visit should have read. */
export interface TrialCluster {
  readonly successes: number
  readonly trials: number
}

export interface ClusteredShare extends ProportionInterval {
  readonly successes: number
  readonly trials: number
  /** Clusters that had trials. */
  readonly clusters: number
  /**
   * Variance of the share over that of as many trials each by itself, never below 1. Null where nothing is known of
   * it: with one cluster, or where all trials ended alike. The interval is then that of trials by themselves.
   */
  readonly designEffect: number | null
}

/**
 * Interval of a share of trials that come in clusters: Wilson's (1927) with successes and trials divided by the design
 * effect (Rao JNK, Scott AJ 1992, Biometrics 48:577–585, from memory; the variance is that of a ratio over clusters,
 * m/(m − 1) · Σ(xᵢ − p·nᵢ)²/n²), and by (t/z)² because that is only estimated (Korn EL, Graubard BI 1998, Survey
 * Methodology 24:193–201). The design effect is never taken below 1.
 *
 * Null without trials, when a count is not a whole number from zero up, successes exceed trials, or the confidence is
 * not between 0 and 1.
 */
export function clusteredShare(given: readonly TrialCluster[], confidence = 0.95): ClusteredShare | null {
  const isSound = given.every(
    ({ successes, trials }) => isCount(successes) && isCount(trials) && successes <= trials,
  )
  if (!isSound || !isConfidence(confidence)) return null
  const clusters = given.filter(({ trials }) => trials > 0)
  let successes = 0
  let trials = 0
  for (const cluster of clusters) {
    successes += cluster.successes
    trials += cluster.trials
  }
  if (trials === 0) return null
  const found = { successes, trials, clusters: clusters.length }
  const isAlike = successes === 0 || successes === trials
  if (clusters.length < 2 || isAlike)
    return { ...found, ...scoreInterval(successes, trials, confidence), designEffect: null }
  const designEffect = Math.max(1, designEffectOf(clusters, successes, trials))
  const divisor = divisorOf(designEffect, clusters.length - 1, confidence)
  return {
    ...found,
    ...scoreInterval(successes / divisor, trials / divisor, confidence),
    proportion: successes / trials,
    designEffect,
  }
}

function designEffectOf(clusters: readonly TrialCluster[], successes: number, trials: number): number {
  const share = successes / trials
  let squares = 0
  for (const cluster of clusters) squares += (cluster.successes - share * cluster.trials) ** 2
  const variance = ((clusters.length / (clusters.length - 1)) * squares) / trials ** 2
  return variance / ((share * (1 - share)) / trials)
}
