import type { Source } from '../files/source.js'
import type { ReadFault } from '../ledger/loaded.js'
import type { ReadOptions, SiteFiles } from '../ledger/read-ledger.js'
import { readOneSite } from '../ledger/read-ledger.js'
import type { SiteDigest } from '../ledger/site-digest.js'
import { digestOf } from '../ledger/site-digest.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Use, WatchedDistrict } from '../ledger/watched-district.js'
import type { NotChecked, Problem } from '../types.js'
import { siteProblems } from './judge.js'

/** Everything a check needs of one site once it has been read and judged. Plain data: it goes between threads and into files. */
export interface SiteResult {
  /** What the rules find, before exceptions. */
  readonly problems: readonly Problem[]
  /** Null for a site that could not be judged. */
  readonly digest: SiteDigest | null
  readonly faults: readonly ReadFault[]
  readonly notChecked: readonly NotChecked[]
  readonly records: number
  readonly later: number
  readonly uses: readonly Use[]
}

export function siteResult(
  source: Source,
  watched: WatchedDistrict,
  site: SiteFiles,
  options: ReadOptions,
  eachSite: (view: SiteView) => void = () => {},
): SiteResult {
  watched.takeUses()
  const { view, ...reading } = readOneSite(source, watched.district, site, options)
  const problems = view ? siteProblems(view) : []
  const digest = view ? digestOf(view) : null
  const uses = watched.takeUses()
  if (view) eachSite(view)
  return { ...reading, problems, digest, uses }
}
