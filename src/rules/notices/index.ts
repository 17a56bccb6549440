import type { Rule } from '../rule.js'
import { emergencyNoticeLate } from './emergency-notice-late.js'
import { emergencyWithoutStatement } from './emergency-without-statement.js'
import { noticeIncomplete } from './notice-incomplete.js'
import { noticeLate } from './notice-late.js'
import { noticeMissing } from './notice-missing.js'
import { noticeToTooFew } from './notice-to-too-few.js'
import { noticeTooEarly } from './notice-too-early.js'
import { postingIncomplete } from './posting-incomplete.js'
import { postingLate } from './posting-late.js'
import { postingMissing } from './posting-missing.js'
import { postingNotEverywhere } from './posting-not-everywhere.js'
import { postingRemovedEarly } from './posting-removed-early.js'
import { postingTooSmall } from './posting-too-small.js'
import { wordingBlankUnknown } from './wording-blank-unknown.js'
import { wordingGivenTwice } from './wording-given-twice.js'
import { wordingWithoutItsBlank } from './wording-without-its-blank.js'

export const noticesRules: readonly Rule[] = [
  noticeMissing,
  noticeToTooFew,
  noticeLate,
  noticeTooEarly,
  noticeIncomplete,
  postingMissing,
  postingLate,
  postingTooSmall,
  postingNotEverywhere,
  postingIncomplete,
  postingRemovedEarly,
  emergencyWithoutStatement,
  emergencyNoticeLate,
  wordingBlankUnknown,
  wordingWithoutItsBlank,
  wordingGivenTwice,
]
