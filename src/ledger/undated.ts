import type { Day } from '../types.js'
import type { DistrictView } from './district-view.js'
import type { SiteView } from './site-view.js'

/**
 * The day from which what is wrong with an undated record counts: the first the ledger answers for. Nothing is due
 * before that day, but a record that contradicts itself or names nothing is wrong at once, so never after the as-of day.
 */
export function dayOfUndated(view: SiteView | DistrictView): Day {
  return Math.min('begins' in view ? view.begins : view.recordsBegin, view.asOf)
}
