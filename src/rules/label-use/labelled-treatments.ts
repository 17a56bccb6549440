import type { LabelInForce } from '../../ledger/labels.js'
import { labelInForce } from '../../ledger/labels.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import type { Citation, Level } from '../../types.js'
import { labelIsLaw } from '../label-is-law.js'

/** A use of a pesticide, with the label that was in force on its day. */
export interface LabelledTreatment {
  readonly treatment: Treatment
  readonly label: LabelInForce
}

/** Every use of a pesticide at a site whose label in force is told in data, by day. */
export function* labelledTreatments(view: SiteView): Iterable<LabelledTreatment> {
  for (const treatment of view.treatments) {
    if (treatment.day < view.begins || !isPesticide(treatment)) continue
    const label = labelInForce(treatment)
    if (label) yield { treatment, label }
  }
}

/**
 * The same, but a device that stands where it stood, with the same product under the same label, only once: what is
 * wrong with that is not wrong anew at every filling.
 */
export function* firstUses(view: SiteView): Iterable<LabelledTreatment> {
  const seen = new Set<string>()
  for (const use of labelledTreatments(view)) {
    const { treatment, label } = use
    if (treatment.device) {
      const { id, set } = treatment.device
      const key = `${id} ${set.day} ${treatment.areas[0]?.id} ${treatment.productId} ${label.number}`
      if (seen.has(key)) continue
      seen.add(key)
    }
    yield use
  }
}

const exemptProduct: Citation = {
  kind: 'practice',
  text: 'common practice, no source: minimum-risk products are exempt from the federal act (40 CFR 152.25(f), from memory); their labels are followed all the same, and a state may ask it',
}

/**
 * What a broken label rests on: the federal act for what is registered under it; for minimum-risk products, which are
 * exempt from the whole of it, custom, and then it is a warning at most.
 */
export function restsOn({ product }: Treatment): {
  readonly level?: Level
  readonly sources: readonly Citation[]
} {
  return product?.data.kind === 'minimum-risk'
    ? { level: 'warning', sources: [exemptProduct] }
    : { sources: [labelIsLaw] }
}

/** Federal law leaves open what a state may ask, so it is no broken law by itself. */
export const leftOpenByFederalLaw: Citation = {
  kind: 'practice',
  text: 'common practice, no source; federal law leaves it open (FIFRA, 7 U.S.C. 136(ee), from memory) and some states do not',
}

/** `name of product` for sentences. */
export function productName({ product, productId }: Treatment): string {
  return product?.data.name ?? productId
}
