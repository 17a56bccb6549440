import type { Source } from '../files/source.js'
import type { ReadOptions, SiteFiles } from '../ledger/read-ledger.js'
import type { WatchedDistrict } from '../ledger/watched-district.js'
import type { SiteResult } from './site-result.js'
import { siteResult } from './site-result.js'
import type { Spots } from './spots.js'
import { spotsOf } from './spots.js'
import { standsOn } from './stands-on.js'

/** A result with the spots of its problems, as it goes between threads and into files. */
export interface LocatedResult {
  readonly result: SiteResult
  readonly spots: readonly Spots[]
}

/**
 * What was found at a site that stands on the as-of day. Nine in ten of what rules find has ended, or lies ahead: a check shows none
 * of it.
 */
export function locatedResult(
  source: Source,
  watched: WatchedDistrict,
  site: SiteFiles,
  options: ReadOptions,
): LocatedResult {
  const { problems, ...rest } = siteResult(source, watched, site, options)
  const result = { ...rest, problems: problems.filter((problem) => standsOn(problem, options.asOf)) }
  return { result, spots: spotsOf(result.problems, source, site.id) }
}
