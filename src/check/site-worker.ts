import { parentPort, workerData } from 'node:worker_threads'
import { openSource } from '../files/open-source.js'
import { districtView } from '../ledger/district-view.js'
import { watchedDistrict } from '../ledger/watched-district.js'
import { heapBound } from './heap-bound.js'
import { locatedResult } from './located-result.js'
import { SiteOrder } from './site-order.js'
import type { Handout } from './site-threads.js'

/** A thread that judges sites as long as there are any left. The district was found usable before it was started. */
const handout = workerData as Handout
const source = openSource(handout.opening)
const { options } = handout
const district = source && districtView(source, handout.inventory, options.asOf, [])
if (source && district) {
  const watched = watchedDistrict(district)
  const order = new SiteOrder(handout.order, handout.sites.length)
  const clear = heapBound()
  for (let n = order.take(); n !== undefined; n = order.take()) {
    const site = handout.sites[n]
    if (!site) continue
    const files = site.files.split('\n')
    parentPort?.postMessage({ n, found: locatedResult(source, watched, { ...site, files }, options) })
    clear()
  }
}
