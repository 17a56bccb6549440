import type { Rule } from '../rule.js'

export const needRules: readonly Rule[] = []
