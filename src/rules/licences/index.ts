import type { Rule } from '../rule.js'
import { applicatorNotSupervised } from './applicator-not-supervised.js'
import { applicatorWithoutLicence } from './applicator-without-licence.js'
import { approvalMissing } from './approval-missing.js'
import { firmWithoutLicence } from './firm-without-licence.js'
import { licenceNotInForce } from './licence-not-in-force.js'
import { licenceOfAnotherState } from './licence-of-another-state.js'
import { licenceWithoutCategory } from './licence-without-category.js'
import { noCoordinator } from './no-coordinator.js'
import { recordsDiscardedTooEarly } from './records-discarded-too-early.js'
import { trainingMissing } from './training-missing.js'

export const licencesRules: readonly Rule[] = [
  applicatorWithoutLicence,
  licenceNotInForce,
  licenceOfAnotherState,
  licenceWithoutCategory,
  applicatorNotSupervised,
  firmWithoutLicence,
  approvalMissing,
  trainingMissing,
  noCoordinator,
  recordsDiscardedTooEarly,
]
