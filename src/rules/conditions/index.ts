import type { Rule } from '../rule.js'
import { conditionNotRechecked } from './condition-not-rechecked.js'
import { conditionOverdue } from './condition-overdue.js'
import { conditionReopened } from './condition-reopened.js'
import { conditionWithoutOwner } from './condition-without-owner.js'
import { plantReturnedWet } from './plant-returned-wet.js'

export const conditionsRules: readonly Rule[] = [
  conditionWithoutOwner,
  conditionOverdue,
  conditionNotRechecked,
  conditionReopened,
  plantReturnedWet,
]
