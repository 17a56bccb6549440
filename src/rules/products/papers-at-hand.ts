import type { DistrictView } from '../../ledger/district-view.js'
import type { Loaded } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { DatedSpan } from '../../ledger/spans.js'
import { dayIn, holdsOn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { Citation, Day } from '../../types.js'

/** A product was used on days on which the register had no label, sheet or registration of it in force. */
export interface PaperGap {
  readonly product: Loaded<'product'>
  /** The first use in the gap, and how many followed it there. */
  readonly first: Treatment
  readonly more: number
  /** First day on which there is one again. */
  readonly until?: Day
  /** What asked for it on the day of the first use. */
  readonly sources: readonly Citation[]
}

/**
 * Gaps between the dated spans of a product in which a site used it, one for each gap however often it was used.
 * Uses are asked about only where a rulebook in force on their day says `yes` under `parameter`, and only
 * of products for which `spansOf` gives a list, be it empty.
 */
export function paperGaps(
  view: SiteView,
  parameter: string,
  spansOf: (product: Loaded<'product'>) => readonly DatedSpan[] | undefined,
): PaperGap[] {
  return gapsOf(view, spansOf, ({ day }) => askedUnder(view.district, parameter, day))
}

/** What asks for a paper on a day: the sources of a parameter that says `yes`; none where it does not. */
export function askedUnder(district: DistrictView, parameter: string, day: Day): readonly Citation[] {
  const asked = district.parameters(parameter, day, 'most')
  return asked?.value === 'yes' ? asked.sources : []
}

/** The same, where `askedOf` tells what asks for a span in force on the day of a use; an empty list where nothing does. */
export function gapsOf(
  view: SiteView,
  spansOf: (product: Loaded<'product'>) => readonly DatedSpan[] | undefined,
  askedOf: (use: Treatment) => readonly Citation[],
): PaperGap[] {
  const gaps = new Map<string, PaperGap>()
  for (const use of view.treatments) {
    const { product } = use
    if (!product || use.day < view.begins) continue
    const spans = spansOf(product)
    if (!spans || spans.some((span) => holdsOn(span, use.day))) continue
    const sources = askedOf(use)
    if (sources.length === 0) continue
    const key = `${use.productId} ${lastEndBefore(spans, use.day)}`
    const gap = gaps.get(key)
    if (gap) gaps.set(key, { ...gap, more: gap.more + 1 })
    else gaps.set(key, { product, first: use, more: 0, ...untilNext(spans, use.day), sources })
  }
  return [...gaps.values()]
}

/** Two days without a span in force lie in one gap when the same spans ended before them. */
function lastEndBefore(spans: readonly DatedSpan[], day: Day): Day | '' {
  const ends = spans.flatMap(({ until }) => (until !== undefined && dayIn(until) < day ? [dayIn(until)] : []))
  return ends.length === 0 ? '' : Math.max(...ends)
}

function untilNext(spans: readonly DatedSpan[], day: Day): { readonly until?: Day } {
  const begins = spans.map(({ from }) => dayIn(from)).filter((from) => from > day)
  return begins.length === 0 ? {} : { until: Math.min(...begins) }
}

/** Arguments that both rules put into their sentence. */
export type PaperArgs = { readonly product: string; readonly more: number }

export function andMore(more: number): string {
  return more === 0 ? '' : `, nor on ${more} later ${more === 1 ? 'use' : 'uses'}`
}
