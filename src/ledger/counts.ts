import type { LifeStage } from '../records/fields.js'
import { readingFieldNames } from '../records/reading.js'
import type { Reading } from './device-history.js'

export type Count = number | Partial<Record<LifeStage, number>>

/** Keys of a reading that name a pest. */
export function pestsIn(reading: Reading): string[] {
  return Object.keys(reading).filter((key) => !readingFieldNames.has(key))
}

export function countIn(reading: Reading, pest: string): Count | undefined {
  return (reading as Record<string, Count | undefined>)[pest]
}

/** Animals in a count. Eggs and egg cases are evidence of breeding, not animals caught. */
export function animalsIn(count: Count): number {
  if (typeof count === 'number') return count
  let sum = 0
  for (const [stage, number] of Object.entries(count))
    if (stage !== 'eggs' && stage !== 'egg-cases') sum += number ?? 0
  return sum
}
