import type { Rule } from '../rule.js'
import { danglingReference } from './dangling-reference.js'
import { unknownPest } from './unknown-pest.js'

export const linksRules: readonly Rule[] = [danglingReference, unknownPest]
