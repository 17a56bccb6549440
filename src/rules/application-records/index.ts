import type { Rule } from '../rule.js'

export const applicationRecordsRules: readonly Rule[] = []
