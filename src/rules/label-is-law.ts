import type { Citation } from '../types.js'

/** The label is law wherever the product is used, whatever rulebooks a district lists. */
export const labelIsLaw: Citation = {
  kind: 'law',
  text: 'FIFRA, 7 U.S.C. 136j(a)(2)(G), from memory: use only as the labeling says',
}
