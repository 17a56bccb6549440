import { Worker } from 'node:worker_threads'
import type { Opening } from '../files/opening.js'
import type { Source } from '../files/source.js'
import type { ReadOptions, SiteFiles } from '../ledger/read-ledger.js'
import type { Inventory } from '../ledger/read-records.js'
import type { WatchedDistrict } from '../ledger/watched-district.js'
import { heapBound } from './heap-bound.js'
import type { LocatedResult } from './located-result.js'
import { locatedResult } from './located-result.js'
import type { Means } from './means.js'
import { SiteOrder } from './site-order.js'

/** What a thread is given to start with. */
export interface Handout {
  readonly opening: Opening
  readonly inventory: Inventory
  readonly options: ReadOptions
  /** The files of each site in one text with a line for each, which is handed over much quicker than many. */
  readonly sites: readonly {
    readonly id: string
    readonly files: string
    readonly strays: readonly string[]
  }[]
  readonly order: SharedArrayBuffer
}

/**
 * Judges sites in this thread and in `threads` more, each taking the next that no one has; results come in the order in which they are
 * done. `said` is told now and then how many are.
 */
export async function judgeSites(
  source: Source,
  { watched, inventory }: { readonly watched: WatchedDistrict; readonly inventory: Inventory },
  sites: readonly SiteFiles[],
  options: ReadOptions,
  { threads, filesPerThread }: Pick<Means, 'threads' | 'filesPerThread'>,
  done: (n: number, found: LocatedResult) => void,
): Promise<void> {
  const { opening } = source
  const order = SiteOrder.of(sites.length)
  const files = sites.reduce((sum, { files }) => sum + files.length, 0)
  const helpers = opening ? Math.min(threads, Math.floor(files / filesPerThread), sites.length - 1) : 0
  const handout: Handout | undefined = opening && {
    opening,
    inventory: { ...inventory, sites: new Map([...inventory.sites.keys()].map((id) => [id, []])) },
    options: { asOf: options.asOf, asOfIsToday: options.asOfIsToday },
    sites: sites.map(({ id, files, strays }) => ({ id, files: files.join('\n'), strays })),
    order: order.shared,
  }
  const others = Array.from({ length: helpers }, () => helper(handout, done))
  const clear = heapBound()
  for (let n = order.take(); n !== undefined; n = order.take()) {
    const site = sites[n]
    if (site) done(n, locatedResult(source, watched, site, options))
    clear()
  }
  await Promise.all(others)
}

function helper(
  handout: Handout | undefined,
  done: (n: number, found: LocatedResult) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./site-worker.js', import.meta.url), {
      workerData: handout,
      // Records are read, judged and let go: with room for them, hardly any live long enough to be copied.
      resourceLimits: { maxYoungGenerationSizeMb: 32 },
    })
    worker.on('message', ({ n, found }: { n: number; found: LocatedResult }) => done(n, found))
    worker.on('error', reject)
    worker.on('exit', () => resolve())
  })
}
