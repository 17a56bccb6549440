import type { Rule } from '../rule.js'

export const placementRules: readonly Rule[] = []
