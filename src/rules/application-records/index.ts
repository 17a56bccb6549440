import type { Rule } from '../rule.js'
import { amountsDoNotAddUp } from './amounts-do-not-add-up.js'
import { applicationRecordIncomplete } from './application-record-incomplete.js'
import { applicationRecordLate } from './application-record-late.js'
import { plannedDayPassed } from './planned-day-passed.js'
import { treatedMoreThanArea } from './treated-more-than-area.js'
import { treatmentNotRecorded } from './treatment-not-recorded.js'
import { weatherNotRecorded } from './weather-not-recorded.js'
import { wetGroundNotClosed } from './wet-ground-not-closed.js'

export const applicationRecordsRules: readonly Rule[] = [
  applicationRecordIncomplete,
  applicationRecordLate,
  amountsDoNotAddUp,
  treatedMoreThanArea,
  plannedDayPassed,
  treatmentNotRecorded,
  weatherNotRecorded,
  wetGroundNotClosed,
]
