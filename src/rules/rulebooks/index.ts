import type { Rule } from '../rule.js'
import { rulebookClassUndefined } from './rulebook-class-undefined.js'
import { rulebookDatesOverlap } from './rulebook-dates-overlap.js'
import { rulebookParameterUnread } from './rulebook-parameter-unread.js'

/** Whether a parameter is read is asked of all rules, so the whole list is handed in by whoever makes it. */
export const rulebooksRules = (rules: () => readonly Rule[]): readonly Rule[] => [
  rulebookDatesOverlap,
  rulebookClassUndefined,
  rulebookParameterUnread(rules),
]
