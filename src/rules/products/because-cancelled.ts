import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { dutiesFor, isCancelled } from '../../ledger/use-classes.js'

/** Prohibitions that hold for a use, apart from those that hold only because its registration was cancelled. */
export function otherProhibitions(view: SiteView, use: Treatment): readonly Duty<'prohibitions'>[] {
  return dutiesFor(view, 'prohibitions', isCancelled(use) ? withoutCancellation(use) : use)
}

/** Prohibitions that hold for a use only because its registration was cancelled: that cause is told once. */
export function becauseCancelled(view: SiteView, use: Treatment): readonly Duty<'prohibitions'>[] {
  const others = new Set(otherProhibitions(view, use))
  return dutiesFor(view, 'prohibitions', use).filter((duty) => !others.has(duty))
}

function withoutCancellation(use: Treatment): Treatment {
  if (!use.product) return use
  const { cancelled: _, ...data } = use.product.data
  return { ...use, product: { ...use.product, data } }
}
