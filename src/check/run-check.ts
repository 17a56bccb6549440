import type { Source } from '../files/source.js'
import type { ReadDistrict, ReadLedger, ReadOptions } from '../ledger/read-ledger.js'
import { readDistrict, siteFilesOf } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import { watchedDistrict } from '../ledger/watched-district.js'
import type { ExceptedProblem, Problem } from '../types.js'
import { blamedIn } from './blame.js'
import { applyExceptions } from './exceptions.js'
import { districtProblems, faultProblems } from './judge.js'
import type { KnownSpots } from './locate-problems.js'
import type { SiteResult } from './site-result.js'
import { siteResult } from './site-result.js'

export { districtProblems, siteProblems } from './judge.js'
export { standsOn } from './stands-on.js'

export interface CheckResult extends ReadLedger {
  /** Everything any rule found and no exception covers: standing, ended, or true only after the as-of day. */
  readonly problems: readonly Problem[]
  readonly excepted: readonly ExceptedProblem[]
  /** Where problems are in their files, as far as that is known already. */
  readonly spots?: KnownSpots
}

/** Reads a ledger and runs every rule, a site at a time; `eachSite` may look at what is read on the same walk. */
export function runCheck(
  source: Source,
  options: ReadOptions,
  eachSite: (view: SiteView) => void = () => {},
): CheckResult {
  const read = readDistrict(source, options)
  if (!read.district) return together(read, [], options)
  const watched = watchedDistrict(read.district)
  const results = siteFilesOf(read.inventory).map((site) =>
    siteResult(source, watched, site, options, eachSite),
  )
  return together(read, results, options)
}

/** The check of a ledger from what was found at each of its sites, in order of their ids. */
export function together(
  { inventory, district, ...read }: ReadDistrict,
  results: readonly SiteResult[],
  options: ReadOptions,
): CheckResult {
  const faults = [...read.faults, ...results.flatMap((result) => result.faults)]
  const ofReading = faults.flatMap(faultProblems)
  const counts = {
    district,
    faults,
    notChecked: [...read.notChecked, ...results.flatMap((result) => result.notChecked)],
    records: results.reduce((sum, result) => sum + result.records, inventory.district.length),
    sites: inventory.sites.size,
    later: results.reduce((sum, result) => sum + result.later, 0),
  }
  if (!district) return { ...counts, problems: ofReading, excepted: [] }
  const digests = results.flatMap(({ digest }) => (digest ? [digest] : []))
  const found = [...results.flatMap((result) => result.problems), ...districtProblems(district, digests)]
  const fromReading = applyExceptions(ofReading, district, options.asOf)
  const isBlamed = blamedIn(faults, fromReading.standing)
  const fromRules = applyExceptions(
    found.filter((problem) => !isBlamed(problem)),
    district,
    options.asOf,
  )
  return {
    ...counts,
    problems: [...fromReading.standing, ...fromRules.standing],
    excepted: [...fromReading.excepted, ...fromRules.excepted],
  }
}
