import type { Rule } from '../rule.js'

export const yearlyRules: readonly Rule[] = []
