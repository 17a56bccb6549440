import type { DeviceHistory } from '../../ledger/device-history.js'
import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { isoOf } from '../../measure/calendar.js'
import { pestTable } from '../../records/tables.js'
import type { Day } from '../../types.js'
import { levelFrom } from '../adopted.js'
import { baitApplication, sprayApplication } from '../example-applications.js'
import { sprayLabel } from '../label-use/example-ledgers.js'
import { productName } from '../label-use/labelled-treatments.js'
import { commonPractice, siteRule } from '../rule.js'
import { isBait, isOnSurfaces, isRepellent } from './sprays.js'

const parameter = 'repellent.bait-days'

export const repellentNearBait = siteRule<{
  product: string
  bait: string
  area: string
  sprayed: string
  baited: string
}>({
  id: 'repellent-near-bait',
  title: 'a product that drives insects away was used where bait lies',
  level: 'warning',
  judgedOn: 'the day of the spray, or the day bait was placed after it',
  why: 'Ants and cockroaches keep away from bait beside what repels them, or that smells of it; then neither works and the bait is wasted.',
  remedy:
    'Choose one: where bait is the plan, leave repellent products out of that area until it has done its work, and put fresh bait in a clean place; say under `where` how far apart they were, if they were.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  parameters: [parameter],
  says: ({ product, bait, area, sprayed, baited }) =>
    `${product}, which drives insects away, was applied in \`${area}\` on ${sprayed}; ${bait} was placed there ${
      baited === sprayed ? 'the same day' : `on ${baited}`
    }.`,
  *check(view) {
    const baits = view.treatments.filter(isInsectBait)
    for (const spray of view.treatments) {
      if (!isRepellentSpray(spray, view)) continue
      const advice = view.district.parameters(parameter, spray.day, 'most')
      const days = advice && daysOf(advice.value)
      const near = typeof days === 'number' ? firstNear(spray, baits, days) : undefined
      if (!near || !advice) continue
      const { bait, area } = near
      const later = bait.day > spray.day ? bait : spray
      const earlier = later === spray ? bait : spray
      yield {
        args: {
          product: productName(spray),
          bait: productName(bait),
          area,
          sprayed: isoOf(spray.day),
          baited: isoOf(bait.day),
        },
        at: later.at('product'),
        related: [
          { place: earlier.at('product'), says: earlier === spray ? 'applied here' : 'bait placed here' },
        ],
        from: later.day,
        level: levelFrom(advice.sources, 'warning'),
        sources: advice.sources,
        identity: [spray.id],
      }
    }
  },
  failing: `${sprayLabel('')}${baitApplication('2026-03-12')}${sprayApplication('2026-03-19', 'product: spray-a # expect: repellent-near-bait')}`,
  passing: `${sprayLabel('')}${baitApplication('2026-03-12')}${sprayApplication(
    '2026-03-19',
    'areas: {room-1: {amount: 0.04 fl oz, extent: 3 ft2, placements: 1, where: window sill}}',
  )}`,
})

const fed: ReadonlySet<string | undefined> = new Set(['ant', 'cockroach'])

/** Bait for ants or cockroaches. */
function isInsectBait(treatment: Treatment): boolean {
  return (
    isPesticide(treatment) &&
    isBait(treatment) &&
    treatment.pests.some((pest) => fed.has(pestTable().get(pest)?.group))
  )
}

/** A nest of stinging insects is treated where it hangs, not where ants and cockroaches walk to bait. */
function isRepellentSpray(treatment: Treatment, view: SiteView): boolean {
  const { application, product, day, pests } = treatment
  if (!application || !product || day < view.begins || !isPesticide(treatment)) return false
  if (pests.every((pest) => pestTable().get(pest)?.group === 'stinging')) return false
  return isOnSurfaces(treatment) && isRepellent(product.data)
}

interface Near {
  readonly bait: Treatment
  readonly area: string
}

/** The bait a spray met: what was placed before it, last first, else what was placed soonest after it. */
function firstNear(spray: Treatment, baits: readonly Treatment[], days: number): Near | undefined {
  const inAreas = (bait: Treatment, day: Day) =>
    spray.areas.find(({ id }) => areasOn(bait, day).includes(id))?.id
  for (const bait of baits.toReversed()) {
    if (bait.day > spray.day) continue
    const old = spray.day - bait.day > days
    if (old && !(bait.device && stoodOn(bait.device, spray.day))) continue
    const area = inAreas(bait, spray.day)
    if (area !== undefined) return { bait, area }
  }
  for (const bait of baits) {
    if (bait.day <= spray.day || bait.day - spray.day > days) continue
    const area = inAreas(bait, bait.day)
    if (area !== undefined) return { bait, area }
  }
  return undefined
}

/** Where bait lay on a day: where it was applied, or where its device stood then. */
function areasOn({ device, areas }: Treatment, day: Day): readonly string[] {
  if (!device) return areas.map(({ id }) => id)
  const stand = device.stands.findLast(({ from }) => from.day <= day)
  return stand ? [stand.area] : []
}

function stoodOn(device: DeviceHistory, day: Day): boolean {
  return device.out.some(({ from, until }) => from <= day && (until === undefined || day < until))
}
