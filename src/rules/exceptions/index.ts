import type { Rule } from '../rule.js'
import { exceptionCannotExcuseLaw } from './exception-cannot-excuse-law.js'
import { exceptionNamesNoRule } from './exception-names-no-rule.js'
import { exceptionTooLong } from './exception-too-long.js'

/** Rules about exceptions ask which rules there are, so the whole list is handed in by whoever makes it. */
export const exceptionRules = (rules: () => readonly Rule[]): readonly Rule[] => [
  exceptionNamesNoRule(rules),
  exceptionCannotExcuseLaw(rules),
  exceptionTooLong,
]
