import type { ReadFault } from '../ledger/loaded.js'
import { unknownKey } from '../rules/reading/unknown-key.js'
import type { Problem } from '../types.js'
import { isLaw } from './exceptions.js'

/**
 * A record that was blamed while reading is not blamed again for what follows from it. Where only a key is not
 * known, that is what seems to be missing; what the record does say still counts, and so does law. A key that an
 * exception lets stand explains nothing.
 */
export function blamedIn(
  faults: readonly ReadFault[],
  standing: readonly Problem[],
): (problem: Problem) => boolean {
  const isUnknownKey = (fault: ReadFault) => fault.kind === 'shape' && fault.fault.fault === 'unknown-key'
  const wholly = new Set(faults.filter((fault) => !isUnknownKey(fault)).map((fault) => fault.file))
  const partly = new Set(standing.filter(({ rule }) => rule === unknownKey.id).map(({ at }) => at.file))
  return (problem) =>
    wholly.has(problem.at.file) || (problem.gap && !isLaw(problem) && partly.has(problem.at.file))
}
