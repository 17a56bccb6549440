import type { InstantRange } from '../../ledger/instants.js'

/**
 * What the records show of a duty: that it was met; that it was not, whatever the hours were; or neither, since they
 * leave out what it hangs on.
 */
export type Outcome = 'shown' | 'not shown' | 'not recorded'

/** Whether something happened by a moment, when both are known only so far. */
export function happenedBy(happened: InstantRange, by: InstantRange): Outcome {
  if (happened.latest <= by.earliest) return 'shown'
  return happened.earliest > by.latest ? 'not shown' : 'not recorded'
}

/** Whether something happened at a moment or later. */
export function happenedFrom(happened: InstantRange, from: InstantRange): Outcome {
  return happenedBy(from, happened)
}

/** The outcome of a duty that asks for several things. */
export function worstOf(outcomes: readonly Outcome[]): Outcome {
  if (outcomes.includes('not shown')) return 'not shown'
  return outcomes.includes('not recorded') ? 'not recorded' : 'shown'
}

/** For sorting: the better first. */
export function rankOf(outcome: Outcome): number {
  return ['shown', 'not recorded', 'not shown'].indexOf(outcome)
}

/** The earlier of two ranges, each end by itself. */
export function earlierOf(a: InstantRange, b: InstantRange | undefined): InstantRange {
  if (!b) return a
  return { earliest: Math.min(a.earliest, b.earliest), latest: Math.min(a.latest, b.latest) }
}
