import type { DutySection } from '../../records/rulebook-duties.js'
import type { Citation } from '../../types.js'

/** Where a rule of this family rests on nothing of its own: each finding names what asked for it. */
export function askedByRulebooks(section: DutySection): Citation {
  return { kind: 'program', text: `the section \`${section}\` of the rulebooks in force` }
}
