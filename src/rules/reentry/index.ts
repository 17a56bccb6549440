import type { Rule } from '../rule.js'

export const reentryRules: readonly Rule[] = []
