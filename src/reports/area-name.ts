import type { SiteView } from '../ledger/site-view.js'

/** An area as people call it. */
export function areaName(view: SiteView, area: string): string {
  return view.areas.get(area)?.facts.name ?? area
}
