import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import type { Quantity } from '../../measure/quantities.js'
import { parseQuantity } from '../../measure/quantities.js'
import { counted, heldAgainstRate, shown } from '../../measure/rates.js'
import type { Citation, Level, Place } from '../../types.js'
import { levelFrom } from '../adopted.js'
import { sprayApplication } from '../example-applications.js'
import { commonPractice, siteRule } from '../rule.js'
import { sprayLabel } from './example-ledgers.js'
import type { LabelledTreatment } from './labelled-treatments.js'
import { labelledTreatments, productName, restsOn } from './labelled-treatments.js'

const parameter = 'spot.size'

export const spotTooLarge = siteRule<{
  product: string
  extent: string
  where: string
  spots: number
  most: string
  byLabel: boolean
}>({
  id: 'spot-too-large',
  title: 'what is called a spot is larger than one',
  level: 'error',
  judgedOn: 'the day of the application; the label in force then, else the rulebooks',
  why: 'A spot is a small place where insects are or pass, out of the way of hands; a larger surface is another method, with its own rates, notices and exposure.',
  remedy:
    'State how many spots there were: `areas: {kitchen: {extent: 12 ft2, placements: 6}}`. If a spot was larger than the label lets one be, name the method it was, such as `broadcast`, and hold that against the label.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  parameters: [parameter],
  says: ({ product, extent, where, spots, most, byLabel }) => {
    const limit = `${byLabel ? 'the label has a spot' : 'a spot is'} ${most} at most`
    return spots === 0
      ? `${extent} ${where} was treated with ${product} as a spot; ${limit}, and the record does not show how many spots there were.`
      : `${extent} ${where} was treated with ${product} in ${spots} ${spots === 1 ? 'spot' : 'spots'}; ${limit}.`
  },
  *check(view) {
    for (const { treatment, limit } of spotsWithLimit(view)) {
      for (const { text, area, spots, at } of spotsOver(treatment, limit.most)) {
        yield {
          args: {
            product: productName(treatment),
            extent: text,
            where: area === undefined ? 'in all' : `in \`${area}\``,
            spots: spots ?? 0,
            most: shown(limit.most),
            byLabel: limit.byLabel,
          },
          at,
          from: treatment.day,
          sources: limit.sources,
          level: spots === undefined ? lowered(limit.level) : limit.level,
          identity: [area ?? 'in all'],
        }
      }
    }
  },
  failing: `${sprayLabel('spot-at-most: 2 ft2')}${sprayApplication(
    '2026-03-20',
    'areas: {kitchen: {amount: 0.04 fl oz, extent: 3 ft2, placements: 1, where: behind the range}} # expect: spot-too-large',
  )}`,
  passing: `${sprayLabel('spot-at-most: 2 ft2')}${sprayApplication(
    '2026-03-20',
    'areas: {kitchen: {amount: 0.04 fl oz, extent: 3 ft2, placements: 2, where: behind the range and the dish machine}}',
  )}`,
})

interface SpotLimit {
  readonly most: Quantity
  readonly byLabel: boolean
  readonly level: Level
  readonly sources: readonly Citation[]
}

/** Spot treatments, each with the largest spot: the label's own figure, where it has one, and else the rulebooks'. */
function* spotsWithLimit(view: SiteView): Iterable<{ treatment: Treatment; limit: SpotLimit }> {
  const labels = new Map<Treatment, LabelledTreatment>()
  for (const use of labelledTreatments(view)) labels.set(use.treatment, use)
  for (const treatment of view.treatments) {
    if (treatment.method !== 'spot' || treatment.day < view.begins || !isPesticide(treatment)) continue
    const ofLabel = parseQuantity(labels.get(treatment)?.label.says['spot-at-most'] ?? '')
    if (ofLabel) {
      const limit: SpotLimit = { most: ofLabel, byLabel: true, level: 'error', ...restsOn(treatment) }
      yield { treatment, limit }
      continue
    }
    const advice = view.district.parameters(parameter, treatment.day)
    const most = advice && parseQuantity(String(advice.value))
    if (!advice || !most) continue
    const level = levelFrom(advice.sources, 'warning')
    yield { treatment, limit: { most, byLabel: false, level, sources: advice.sources } }
  }
}

/** What a record that does not show the number of spots may be, it is not certain to be. */
function lowered(level: Level): Level {
  return level === 'error' ? 'warning' : level
}

export interface SpotExtent {
  readonly extent: Quantity
  readonly text: string
  readonly area: string | undefined
  /** Spots, where the record tells. */
  readonly spots: number | undefined
  /** The fewest there can have been. */
  readonly least: number
  readonly at: Place
}

/** Extents that, by the spots recorded or the fewest there can have been, are of spots larger than a size. */
export function spotsOver(treatment: Treatment, most: Quantity): SpotExtent[] {
  return extentsOf(treatment).filter(({ extent, spots, least }) => {
    const held = heldAgainstRate([extent], [counted(spots ?? least)], { most, per: counted(1) })
    return held?.compared === 1
  })
}

/** What was treated in each area; where no area tells, in all of them. */
export function extentsOf(treatment: Treatment): SpotExtent[] {
  const { application } = treatment
  if (!application) return []
  const areas = Object.entries(application.areas)
  const found = areas.flatMap(([area, { extent: text, placements }]): SpotExtent[] => {
    const extent = text === undefined ? null : parseQuantity(text)
    if (!extent || text === undefined) return []
    const at = treatment.at('areas', area, 'extent')
    return [{ extent, text, area, spots: placements, least: 1, at }]
  })
  const text = application['treated-extent']
  const extent = text === undefined ? null : parseQuantity(text)
  if (found.length > 0 || !extent || text === undefined) return found
  const spots = areas.reduce<number | undefined>(
    (sum, [, { placements }]) =>
      sum === undefined || placements === undefined ? undefined : sum + placements,
    0,
  )
  return [{ extent, text, area: undefined, spots, least: areas.length, at: treatment.at('treated-extent') }]
}
