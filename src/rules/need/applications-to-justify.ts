import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { pestTable } from '../../records/tables.js'
import type { Citation } from '../../types.js'
import type { Applied } from '../reentry/applications.js'
import { appliedPesticides } from '../reentry/applications.js'

/**
 * Applications whose need is asked about: of pesticides other than disinfectants and sanitizers, and against pests;
 * what is applied to teach, or because a health authority orders it, has its need elsewhere. Bait in devices is left
 * out: what a device is read for stands in its readings.
 */
export function* applicationsToJustify(view: SiteView): Iterable<Applied> {
  for (const applied of appliedPesticides(view)) {
    const { purpose } = applied.application
    if (applied.product?.data.kind === 'antimicrobial') continue
    if (purpose === undefined || purpose === 'pest-control') yield applied
  }
}

/** The days of a parameter up to a treatment, its own day among them; undefined where no rulebook says how many. */
export function daysBefore(
  view: SiteView,
  { day }: Pick<Treatment, 'day'>,
  parameter: string,
):
  | {
      readonly days: { readonly first: number; readonly last: number }
      readonly sources: readonly Citation[]
    }
  | undefined {
  const advice = view.district.parameters(parameter, day)
  const days = advice && daysOf(advice.value)
  return advice && typeof days === 'number'
    ? { days: { first: day - days, last: day }, sources: advice.sources }
    : undefined
}

/** Whether a name is one of a pest; one that is none is told by itself, and nothing can be shown of it. */
export function isKnownPest({ district }: SiteView, pest: string): boolean {
  return pestTable().has(pest) || district.plans.has(pest) || district.broken.has(`plan ${pest}`)
}
