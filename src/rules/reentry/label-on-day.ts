import type { LabelSays } from '../../ledger/labels.js'
import { labelInForce } from '../../ledger/labels.js'
import type { Treatment } from '../../ledger/treatments.js'

/** What the label in force on the day of a treatment says, as far as the register has it in data. */
export function labelOnDay(treatment: Treatment): LabelSays {
  return labelInForce(treatment)?.says ?? {}
}
