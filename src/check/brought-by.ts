import { overlaid } from '../files/overlaid.js'
import type { Source } from '../files/source.js'
import { onlySite } from '../ledger/one-site.js'
import type { ReadOptions } from '../ledger/read-ledger.js'
import type { LocatedProblem } from './locate-problems.js'
import { locateProblems } from './locate-problems.js'
import { newAmong } from './new-since.js'
import type { CheckResult } from './run-check.js'
import { runCheck, standsOn } from './run-check.js'

/** What files that are about to be written would bring to a site, before anything is. */
export interface Brought {
  /** Problems that stand with them and did not stand without, in order of place. */
  readonly problems: readonly LocatedProblem[]
  /** Whether the site could be judged with them; a record that cannot be read makes it not. */
  readonly isJudged: boolean
  readonly source: Source
}

/**
 * Two checks of one site, without the files and with them; what stands only in the second. Compared as multisets of
 * fingerprints, so that the same problem a second time is told.
 */
export function broughtBy(
  source: Source,
  site: string,
  files: ReadonlyMap<string, Uint8Array>,
  options: ReadOptions,
): Brought {
  const without = onlySite(source, site)
  const withThem = overlaid(without, files)
  const before = runCheck(without, options)
  const after = runCheck(withThem, options)
  const stands = (result: CheckResult) => result.problems.filter((problem) => standsOn(problem, options.asOf))
  return {
    problems: locateProblems(newAmong(stands(after), stands(before)), withThem),
    isJudged: after.notChecked.length <= before.notChecked.length,
    source: withThem,
  }
}
