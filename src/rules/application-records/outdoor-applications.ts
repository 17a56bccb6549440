import type { SiteView } from '../../ledger/site-view.js'
import type { TreatedArea } from '../../ledger/treatments.js'
import { liesOutdoors } from '../../records/area-kinds.js'
import type { Method } from '../../records/use-words.js'
import type { Applied } from '../reentry/applications.js'
import { appliedPesticides } from '../reentry/applications.js'

/** Ways of applying that send something through the air or onto the ground. Bait is placed. */
const throughTheAir: ReadonlySet<Method> = new Set(['spot', 'broadcast', 'perimeter', 'drench', 'space'])

/** Applications that were sprayed, poured or spread in some area outdoors; disinfectants are left out. */
export function* spreadOutdoors(view: SiteView): Iterable<Applied> {
  for (const applied of appliedPesticides(view)) {
    const { areas, method, product } = applied
    if (!throughTheAir.has(method) || product?.data.kind === 'antimicrobial') continue
    if (areas.some(isOutdoors)) yield applied
  }
}

/** Whether an area lies in the open. A dock and a place for waste can lie under a roof, so they do not count. */
export function isOutdoors({ area }: TreatedArea): boolean {
  return area !== undefined && liesOutdoors(area.facts.kind) === true
}
