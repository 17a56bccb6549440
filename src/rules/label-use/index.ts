import type { Rule } from '../rule.js'

export const labelUseRules: readonly Rule[] = []
