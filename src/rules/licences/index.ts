import type { Rule } from '../rule.js'

export const licencesRules: readonly Rule[] = []
