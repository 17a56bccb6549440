import type { FaultKind } from './fault.js'
import { applicationRecordFaults } from './faults/application-records.js'
import { conditionFaults } from './faults/conditions.js'
import { contradictionFaults } from './faults/contradictions.js'
import { countFaults } from './faults/counts.js'
import { deviceFaults } from './faults/devices.js'
import { endedFaults } from './faults/ended.js'
import { exceptionFaults } from './faults/exceptions.js'
import { inspectionFaults } from './faults/inspection.js'
import { labelUseFaults } from './faults/label-use.js'
import { licenceFaults } from './faults/licences.js'
import { linkFaults } from './faults/links.js'
import { needFaults } from './faults/need.js'
import { noticeFaults } from './faults/notices.js'
import { placementFaults } from './faults/placement.js'
import { productNumberFaults } from './faults/product-numbers.js'
import { productFaults } from './faults/products.js'
import { readingFaults } from './faults/reading.js'
import { reentryFaults } from './faults/reentry.js'
import { rulebookFaults } from './faults/rulebooks.js'
import { signFaults } from './faults/signs.js'
import { textFaults } from './faults/text.js'
import { timeFaults } from './faults/times.js'
import { unreadFaults } from './faults/unread.js'
import { wordingFaults } from './faults/wordings.js'
import { yearlyFaults } from './faults/yearly.js'

/** Every way in which a ledger is made to go wrong, in the order of the table in README.md. */
export const faultKinds: readonly FaultKind[] = [
  ...textFaults,
  ...readingFaults,
  ...linkFaults,
  ...contradictionFaults,
  ...timeFaults,
  ...exceptionFaults,
  ...deviceFaults,
  ...countFaults,
  ...inspectionFaults,
  ...unreadFaults,
  ...signFaults,
  ...placementFaults,
  ...conditionFaults,
  ...productFaults,
  ...productNumberFaults,
  ...licenceFaults,
  ...labelUseFaults,
  ...needFaults,
  ...applicationRecordFaults,
  ...noticeFaults,
  ...wordingFaults,
  ...reentryFaults,
  ...yearlyFaults,
  ...rulebookFaults,
  ...endedFaults,
]
