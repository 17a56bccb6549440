import type { Citation, Level } from '../types.js'

/**
 * The level of a finding by what asks for it: what only common practice or a published figure asks is a note;
 * what the district adopted (plan, contract, its own rulebook as a standard) or the law asks has the rule's level.
 */
export function levelFrom(sources: readonly Citation[], adopted: Level): Level {
  return sources.every((source) => source.kind === 'practice' || source.kind === 'published')
    ? 'note'
    : adopted
}

/** The level of a broken duty by what asks for it: law is an error, what the district set itself a warning, custom a note. */
export function levelOfDuty(sources: readonly Citation[]): Level {
  if (sources.some(({ kind }) => kind === 'law')) return 'error'
  return sources.some(({ kind }) => kind === 'standard') ? 'warning' : 'note'
}
