import { inForce } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { RecordOf } from '../../records/kinds.js'
import type { Citation } from '../../types.js'

type LabelFacts = NonNullable<NonNullable<RecordOf<'product'>['labels']>[number]['says']>

/** What the label in force on the day of a treatment says, as far as the register has it in data. */
export function labelOnDay({ product, day }: Treatment): LabelFacts {
  return inForce(product?.data.labels, day)?.says ?? {}
}

/** The label is law wherever the product is used, whatever rulebooks a district lists. */
export const labelIsLaw: Citation = {
  kind: 'law',
  text: 'FIFRA, 7 U.S.C. 136j(a)(2)(G), from memory: use only as the labeling says',
}
