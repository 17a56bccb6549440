import { isoOf } from '../../../src/measure/calendar.js'
import { addVisit } from '../added.js'
import type { AddedApplication } from '../added-applications.js'
import { addSpray } from '../added-applications.js'
import { policy } from '../added-filings.js'
import { inLabel } from '../added-uses.js'
import type { Data, Draft } from '../draft.js'
import { copyOf, put, take } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey } from '../fault.js'
import { siteFile, sitesOf } from '../site-records.js'

const inApplications = /^sites\/[^/]+\/applications\//

/** Sprays outdoors: the wind, and ground that children use. */
export const outdoorApplicationFaults: readonly FaultKind[] = [
  {
    name: 'the wind is left out of the weather of a spray outdoors',
    expect: 'weather-not-recorded',
    at: inApplications,
    make(draft, random) {
      const { application } = sprayOnYard(draft, random)
      const before = copyOf(draft)
      take(draft, application, ['weather', 'wind'])
      return { ...reportedAtKey(application, 'weather'), before }
    },
  },
  {
    name: 'the weather of a spray outdoors is left out',
    expect: 'weather-not-recorded',
    at: inApplications,
    make(draft, random) {
      const { application } = sprayOnYard(draft, random)
      const before = copyOf(draft)
      take(draft, application, ['weather'])
      return { ...reportedAt(application, 'method'), before }
    },
  },
  {
    name: 'what was spread on the ground without a look at the wind was a liquid',
    expect: 'weather-not-recorded',
    at: inApplications,
    make(draft, random) {
      const { application, product } = sprayOnYard(draft, random)
      put(draft, product, ['formulation'], 'granule')
      take(draft, application, ['weather'])
      const before = copyOf(draft)
      put(draft, product, ['formulation'], 'ready-to-use-liquid')
      return { ...reportedAt(application, 'method'), before }
    },
  },
  {
    name: 'what kept children off the ground is left out',
    expect: 'wet-ground-not-closed',
    at: inApplications,
    make(draft, random) {
      const { application } = sprayOnYard(draft, random)
      withoutWaitingUntilDry(draft)
      take(draft, application, ['dry'])
      const before = copyOf(draft)
      take(draft, application, ['kept-out'])
      return { ...reportedAtKey(application, 'areas', yard), before }
    },
  },
  {
    name: 'who saw the ground dry is left out, and nobody closed it',
    expect: 'wet-ground-not-closed',
    at: inApplications,
    make(draft, random) {
      const { application } = sprayOnYard(draft, random)
      withoutWaitingUntilDry(draft)
      take(draft, application, ['kept-out'])
      const before = copyOf(draft)
      take(draft, application, ['dry'])
      return { ...reportedAtKey(application, 'areas', yard), before }
    },
  },
  {
    name: 'children use the ground that nobody closed',
    expect: 'wet-ground-not-closed',
    at: inApplications,
    make(draft, random) {
      const { site, application } = sprayOnYard(draft, random, { kind: 'planting', children: 'no' })
      withoutWaitingUntilDry(draft)
      take(draft, application, ['kept-out'])
      take(draft, application, ['dry'])
      const before = copyOf(draft)
      put(draft, siteFile(site), ['areas', yard, 'children'], 'yes')
      return { ...reportedAtKey(application, 'areas', yard), before }
    },
  },
  {
    name: 'the granules on ground that nobody closed were no bait',
    expect: 'wet-ground-not-closed',
    at: inApplications,
    make(draft, random) {
      const { application, product } = sprayOnYard(draft, random)
      put(draft, product, ['formulation'], 'granular-bait')
      withoutWaitingUntilDry(draft)
      take(draft, application, ['kept-out'])
      take(draft, application, ['dry'])
      const before = copyOf(draft)
      put(draft, product, ['formulation'], 'granule')
      return { ...reportedAtKey(application, 'areas', yard), before }
    },
  },
]

const yard = 'added-yard'

/** A spot sprayed on ground of its own outdoors, with the weather, and closed until it was opened again. */
function sprayOnYard(
  draft: Draft,
  random: Random,
  facts: Readonly<Record<string, Data>> = { kind: 'turf' },
): AddedApplication & { readonly site: string } {
  const site = random.pick(sitesOf(draft)) ?? ''
  const ground = { name: 'Added yard', extent: '2000 ft2', ...facts, from: isoOf(draft.lastDay - 170) }
  put(draft, siteFile(site), ['areas', yard], ground)
  addVisit(draft, site, draft.lastDay - 92, 'follow-up', { inspected: [yard] }, 'in-yard')
  const application = {
    weather: { wind: '4 mph', 'wind-from': 'SW', temperature: '58 F', sky: 'dry' },
    'kept-out': { how: 'fence', until: 'reopened' },
  }
  return { site, ...addSpray(draft, site, { area: yard, application }) }
}

/** Neither the label nor the policy has people wait until it is dry, which would be told as that. */
function withoutWaitingUntilDry(draft: Draft): void {
  take(draft, 'products/added-spray/product.yaml', [...inLabel, 'keep-out-until-dry'])
  take(draft, policy, ['reentry', 'next-morning', 0, 'dry'])
}
