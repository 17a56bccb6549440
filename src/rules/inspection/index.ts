import type { Rule } from '../rule.js'
import { areaNeverInspected } from './area-never-inspected.js'
import { areaNotInspectedLately } from './area-not-inspected-lately.js'
import { cockroachByDayNoFollowUp } from './cockroach-by-day-no-follow-up.js'
import { complaintLogNotRead } from './complaint-log-not-read.js'
import { complaintNotAnswered } from './complaint-not-answered.js'
import { deviceNotRead } from './device-not-read.js'
import { deviceOverdue } from './device-overdue.js'
import { lostDeviceNotRenewed } from './lost-device-not-renewed.js'
import { noEntryRunning } from './no-entry-running.js'
import { repeatComplaintNoDevice } from './repeat-complaint-no-device.js'
import { reviewNotHeld } from './review-not-held.js'
import { sightingUnidentified } from './sighting-unidentified.js'
import { siteManagerNotTold } from './site-manager-not-told.js'
import { socialNestNoAction } from './social-nest-no-action.js'
import { termiteSignNoAction } from './termite-sign-no-action.js'
import { trapLeftOverClosure } from './trap-left-over-closure.js'
import { visitOverdue } from './visit-overdue.js'

export const inspectionRules: readonly Rule[] = [
  visitOverdue,
  siteManagerNotTold,
  complaintLogNotRead,
  complaintNotAnswered,
  repeatComplaintNoDevice,
  deviceNotRead,
  deviceOverdue,
  trapLeftOverClosure,
  lostDeviceNotRenewed,
  noEntryRunning,
  areaNeverInspected,
  areaNotInspectedLately,
  sightingUnidentified,
  termiteSignNoAction,
  socialNestNoAction,
  cockroachByDayNoFollowUp,
  reviewNotHeld,
]
