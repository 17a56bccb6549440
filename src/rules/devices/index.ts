import type { Rule } from '../rule.js'

export const devicesRules: readonly Rule[] = []
