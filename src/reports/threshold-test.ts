import type { Look } from '../ledger/evidence.js'
import type { Area } from '../ledger/site-view.js'
import { convert, parseQuantity } from '../measure/quantities.js'
import type { RecordOf } from '../records/kinds.js'

export type PlanSpan = RecordOf<'plan'>['spans'][number]
type Threshold = NonNullable<NonNullable<PlanSpan['thresholds']>['elsewhere']>

/** The looks, up to the latest, that are at or above a threshold without one below between them. */
export interface CrossingRun {
  readonly looks: readonly Look[]
  /** The look with which the threshold was crossed: the first, or the last of as many checks running as it asks. */
  readonly crossedAt: Look
  readonly latest: Look
  readonly because: string
  readonly onOne: boolean
}

export interface ThresholdTest {
  crossingRun(history: readonly Look[]): CrossingRun | undefined
  /** Whether a look says that the area is above or below. */
  judges(look: Look): boolean
  /** Why the numeric threshold cannot be judged, such as an extent that is not recorded. */
  readonly cannotTell?: string
}

/** How a plan judges one area: one animal or fresh sign, a number, or both. */
export function testOf(span: PlanSpan, area: Area): ThresholdTest {
  const kind = area.facts.kind
  const onOne = (span['act-on-one'] ?? []).some((place) => place === kind || place === 'everywhere')
  const threshold = span.thresholds?.[kind] ?? span.thresholds?.elsewhere
  const measure = threshold && measureOf(threshold, area)
  const reaches = (look: Look) => {
    const found = typeof measure === 'function' ? measure(look) : null
    if (!threshold || found === null) return undefined
    // Below the number counts only when someone looked: one animal met in passing is no count of a room.
    return found >= threshold['act-at'] || (look.looked ? false : undefined)
  }
  const hasOne = (look: Look) => onOne && (look.animals >= 1 || look.signs.length > 0)
  return {
    judges: (look) => hasOne(look) || reaches(look) !== undefined,
    crossingRun(history) {
      if (onOne) {
        const looks = lastRun(history, hasOne)
        const run = runFrom(looks, 1, 'one is enough', true)
        if (run) return run
      }
      if (!threshold) return undefined
      const looks = lastRun(
        history.filter((look) => reaches(look) !== undefined),
        (look) => reaches(look) === true,
      )
      return runFrom(looks, threshold.checks ?? 1, wordsOf(threshold), false)
    },
    ...(typeof measure === 'string' ? { cannotTell: measure } : {}),
  }
}

function runFrom(
  looks: readonly Look[],
  checks: number,
  because: string,
  onOne: boolean,
): CrossingRun | undefined {
  const crossedAt = looks[checks - 1]
  const latest = looks.at(-1)
  return crossedAt && latest && { looks, crossedAt, latest, because, onOne }
}

function lastRun(history: readonly Look[], crosses: (look: Look) => boolean): Look[] {
  const before = history.findLastIndex((look) => !crosses(look))
  return history.slice(before + 1)
}

/**
 * What a threshold counts at one look; null for a look without effort, which tells nothing of a rate. A sentence
 * instead when it cannot be counted in this area. Multiplied before it is divided, so that a rate that is exactly
 * the number is at it.
 */
function measureOf(threshold: Threshold, area: Area): ((look: Look) => number | null) | string {
  switch (threshold.per) {
    case 'room':
    case 'place':
    case 'tree':
      return (look) => look.animals
    case 'trap-night':
      return (look) => (look.trapNights > 0 ? look.caught / look.trapNights : null)
    case 'trap-week':
      return (look) => (look.trapNights > 0 ? (look.caught * 7) / look.trapNights : null)
    case '100 ft2':
    case 'yd2': {
      const extent = area.facts.extent === undefined ? null : parseQuantity(area.facts.extent)
      const size = extent && convert(extent, threshold.per === 'yd2' ? 'yd2' : 'ft2')
      if (!size || size.value <= 0)
        return `the threshold is per ${threshold.per}, and the extent of the area is not recorded`
      const unit = threshold.per === 'yd2' ? 1 : 100
      return (look) => (look.animals * unit) / size.value
    }
  }
}

function wordsOf(threshold: Threshold): string {
  const checks =
    threshold.checks !== undefined && threshold.checks > 1 ? `, ${threshold.checks} checks running` : ''
  return `${threshold['act-at']} or more per ${threshold.per}${checks}`
}
