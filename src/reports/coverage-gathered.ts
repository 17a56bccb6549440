import type { CatchSeries } from '../ledger/catch-series.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Day } from '../types.js'
import type { ChanceToNotice } from './coverage-chance.js'
import { chanceToNotice, clumpingByPest } from './coverage-chance.js'
import type { AreaWatch, SiteWatch, Watch } from './coverage-collect.js'
import { siteWatchOf } from './coverage-collect.js'
import type { Period } from './period.js'

/** How all sites of a ledger are watched, thin. */
export interface Watched {
  readonly watches: Watch[]
  readonly areas: AreaWatch[]
  readonly series: CatchSeries[]
  readonly pestsOfDevices: Set<string>
}

export function emptyWatched(): Watched {
  return { watches: [], areas: [], series: [], pestsOfDevices: new Set() }
}

/** Adds one site. */
export function watch(all: Watched, view: SiteView, period: Period): SiteWatch {
  const found = siteWatchOf(view, period)
  all.watches.push(...found.watches)
  all.areas.push(...found.areas)
  all.series.push(...found.series)
  for (const pest of found.pestsOfDevices) all.pestsOfDevices.add(pest)
  return found
}

/** Each watch with its chance to notice; how catches clump is judged over the whole ledger. */
export function judgedWatches(
  all: Watched,
  from: Day,
): { readonly watch: Watch; readonly chance: ChanceToNotice | null }[] {
  const clumping = clumpingByPest(all.series, from)
  return all.watches.map((one) => ({ watch: one, chance: chanceToNotice(one, clumping.get(one.pest)) }))
}
