import type { Rule } from '../rule.js'
import { dryNotSeen } from './dry-not-seen.js'
import { pupilsPresent } from './pupils-present.js'
import { reopenedTooEarly } from './reopened-too-early.js'
import { reopeningNotRecorded } from './reopening-not-recorded.js'

export const reentryRules: readonly Rule[] = [
  pupilsPresent,
  reopenedTooEarly,
  dryNotSeen,
  reopeningNotRecorded,
]
