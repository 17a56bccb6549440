import type { Rule } from '../rule.js'

export const conditionsRules: readonly Rule[] = []
