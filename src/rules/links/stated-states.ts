import type { RecordOf } from '../../records/kinds.js'

type ConditionEntry = NonNullable<RecordOf<'visit'>['conditions']>[string]

const states = ['new', 'still', 'fixed', 'closed', 'holds'] as const

/** How a visit says a condition stands: one word, if it is as it should be. */
export function statesIn(condition: ConditionEntry): readonly (typeof states)[number][] {
  return states.filter((state) => condition[state] !== undefined)
}
