import type { Day } from '../types.js'
import type { Period } from './period.js'

/** What the records show of something that was due. `no record`: the last day has gone by and nothing is recorded. */
export type DueOutcome = 'in time' | 'late' | 'no record' | 'not yet due' | 'cannot be told'

export const dueOutcomes: readonly DueOutcome[] = [
  'in time',
  'late',
  'no record',
  'not yet due',
  'cannot be told',
]

export interface Settled {
  readonly outcome: DueOutcome
  /** Days after the last day in time; 0 unless late. */
  readonly daysLate: number
}

/** How something stands that was to be done by `lastDay` and was done on `done`. */
export function settled(done: Day | undefined, lastDay: Day, asOf: Day): Settled {
  if (done === undefined) return { outcome: lastDay < asOf ? 'no record' : 'not yet due', daysLate: 0 }
  return done <= lastDay ? { outcome: 'in time', daysLate: 0 } : { outcome: 'late', daysLate: done - lastDay }
}

/**
 * Whether it belongs to a period: by the day it was done in time, or else by the first day on which it was late. What
 * is still to come belongs to a period that ends on the as-of day.
 */
export function isSettledIn(
  outcome: DueOutcome,
  done: Day | undefined,
  lastDay: Day,
  { from, to }: Period,
  asOf: Day,
): boolean {
  if (outcome === 'not yet due') return to === asOf
  const day = outcome === 'in time' && done !== undefined ? done : lastDay + 1
  return from <= day && day <= to
}

export function countOf(facts: readonly { readonly outcome: DueOutcome }[], outcome: DueOutcome): number {
  return facts.filter((fact) => fact.outcome === outcome).length
}
