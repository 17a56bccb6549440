import { createHash } from 'node:crypto'
import type { Problem } from '../types.js'

/**
 * What stays the same of a problem while lines move and sentences are reworded: rule, record, key path and the
 * arguments that tell it apart. 20 hex digits of SHA-256; two equal problems have equal fingerprints.
 */
export function fingerprintOf(problem: Problem): string {
  const parts = [problem.rule, problem.at.file, problem.at.path.join('\u0001'), ...problem.identity]
  return createHash('sha256').update(parts.join('\u0000')).digest('hex').slice(0, 20)
}
