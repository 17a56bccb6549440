import type { Rule } from '../rule.js'

export const productsRules: readonly Rule[] = []
