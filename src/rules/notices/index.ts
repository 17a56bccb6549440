import type { Rule } from '../rule.js'

export const noticesRules: readonly Rule[] = []
