import type { Source } from '../files/source.js'
import type { Stamps } from '../files/stamps.js'
import type { ReadOptions, SiteFiles } from '../ledger/read-ledger.js'
import { readDistrict, siteFilesOf } from '../ledger/read-ledger.js'
import { watchedDistrict } from '../ledger/watched-district.js'
import { siteOfPath } from '../records/paths.js'
import type { KnownSpots } from './locate-problems.js'
import type { LocatedResult } from './located-result.js'
import type { Means } from './means.js'
import type { CheckResult } from './run-check.js'
import { together } from './run-check.js'
import { siteMemory } from './site-memory.js'
import type { SiteResult } from './site-result.js'
import { judgeSites } from './site-threads.js'
import { rememberSpots } from './spots.js'
import { standsOn } from './stands-on.js'

/** Its problems are those that stand on the as-of day. */
export interface QuickResult extends CheckResult {
  readonly spots: KnownSpots
  /** Of all its files, before any was read; there are none without memory. */
  readonly stamps: Stamps | undefined
  /** How many sites were read and judged, rather than recalled. */
  readonly judged: number
}

/** The list of all files is let go at once: it is the largest thing there is. */
function stampedDistrict(source: Source, options: ReadOptions, now: number | undefined) {
  const entries = source.list()
  const stamps = now === undefined ? undefined : source.stamps?.(entries, siteOfPath, now)
  return { stamps, read: readDistrict(source, options, entries) }
}

/** The same as `runCheck` for what stands on the as-of day, with memory and threads: only what changed is read again. */
export async function checkLedger(source: Source, options: ReadOptions, means: Means): Promise<QuickResult> {
  const { memory: keeping } = means
  const { stamps, read } = stampedDistrict(source, options, keeping?.now)
  const spots: KnownSpots = new WeakMap()
  if (!read.district) return { ...standing(together(read, [], options), options), spots, stamps, judged: 0 }
  const memory =
    keeping &&
    stamps &&
    siteMemory(
      keeping.folderFor(source),
      stamps,
      { inventory: read.inventory, district: read.district },
      { ...options, program: keeping.program },
    )
  const sites = siteFilesOf(read.inventory)
  const results = new Array<SiteResult>(sites.length)
  const take = (at: number, found: LocatedResult) => {
    results[at] = found.result
    rememberSpots(spots, found.result.problems, found.spots)
  }
  const toJudge: SiteFiles[] = []
  const places: number[] = []
  for (const [at, site] of sites.entries()) {
    const recalled = memory?.recall(site.id)
    if (recalled) take(at, recalled)
    else {
      toJudge.push(site)
      places.push(at)
    }
  }
  let judged = 0
  await judgeSites(
    source,
    { watched: watchedDistrict(read.district), inventory: read.inventory },
    toJudge,
    options,
    means,
    (n, found) => {
      take(places[n] ?? 0, found)
      memory?.keep(toJudge[n]?.id ?? '', found)
      judged++
      means.progress?.(judged, toJudge.length)
    },
  )
  return { ...standing(together(read, results, options), options), spots, stamps, judged }
}

/** What has ended or lies ahead in the records of the district is left out like that of the sites. */
function standing<R extends CheckResult>(result: R, { asOf }: ReadOptions): R {
  return {
    ...result,
    problems: result.problems.filter((problem) => standsOn(problem, asOf)),
    excepted: result.excepted.filter(({ problem }) => standsOn(problem, asOf)),
  }
}
