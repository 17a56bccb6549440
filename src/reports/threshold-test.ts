import type { Look } from '../ledger/evidence.js'
import type { Area } from '../ledger/site-view.js'
import { convert, parseQuantity } from '../measure/quantities.js'
import type { RecordOf } from '../records/kinds.js'

export type PlanSpan = RecordOf<'plan'>['spans'][number]
type Threshold = NonNullable<NonNullable<PlanSpan['thresholds']>['elsewhere']>

/** The looks, up to the latest, that are at or above a threshold without one below between them. */
export interface CrossingRun {
  readonly looks: readonly Look[]
  readonly because: string
  readonly onOne: boolean
}

export interface ThresholdTest {
  crossingRun(history: readonly Look[]): CrossingRun | undefined
  /** Why the numeric threshold cannot be judged, such as an extent that is not recorded. */
  readonly cannotTell?: string
}

/** How a plan judges one area: one animal or fresh sign, a number, or both. */
export function testOf(span: PlanSpan, area: Area): ThresholdTest {
  const kind = area.facts.kind
  const onOne = (span['act-on-one'] ?? []).some((place) => place === kind || place === 'everywhere')
  const threshold = span.thresholds?.[kind] ?? span.thresholds?.elsewhere
  const measure = threshold && measureOf(threshold, area)
  return {
    crossingRun(history) {
      if (onOne) {
        const looks = lastRun(history, (look) => look.animals >= 1 || look.signs.length > 0)
        if (looks.length > 0) return { looks, because: 'one is enough', onOne: true }
      }
      if (!threshold || typeof measure !== 'function') return undefined
      const looks = lastRun(history, (look) => (measure(look) ?? 0) >= threshold['act-at'])
      if (looks.length < (threshold.checks ?? 1)) return undefined
      return { looks, because: wordsOf(threshold), onOne: false }
    },
    ...(typeof measure === 'string' ? { cannotTell: measure } : {}),
  }
}

function lastRun(history: readonly Look[], crosses: (look: Look) => boolean): Look[] {
  let start = history.length
  while (start > 0) {
    const look = history[start - 1]
    if (!look || !crosses(look)) break
    start--
  }
  return history.slice(start)
}

/** What a threshold counts at one look; a sentence instead when it cannot be counted in this area. */
function measureOf(threshold: Threshold, area: Area): ((look: Look) => number | null) | string {
  switch (threshold.per) {
    case 'room':
    case 'place':
    case 'tree':
      return (look) => look.animals
    case 'trap-night':
      return (look) => (look.trapNights > 0 ? look.caught / look.trapNights : null)
    case 'trap-week':
      return (look) => (look.trapNights > 0 ? (look.caught / look.trapNights) * 7 : null)
    case '100 ft2':
    case 'yd2': {
      const extent = area.facts.extent === undefined ? null : parseQuantity(area.facts.extent)
      const size = extent && convert(extent, threshold.per === 'yd2' ? 'yd2' : 'ft2')
      if (!size || Number(size.value) <= 0)
        return `the threshold is per ${threshold.per}, and the extent of the area is not recorded`
      const units = Number(size.value) / (threshold.per === 'yd2' ? 1 : 100)
      return (look) => look.animals / units
    }
  }
}

function wordsOf(threshold: Threshold): string {
  const checks =
    threshold.checks !== undefined && threshold.checks > 1 ? `, ${threshold.checks} checks running` : ''
  return `${threshold['act-at']} or more per ${threshold.per}${checks}`
}
