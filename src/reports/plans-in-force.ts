import type { DistrictView } from '../ledger/district-view.js'
import type { Area } from '../ledger/site-view.js'
import { inForce } from '../ledger/spans.js'
import type { Day } from '../types.js'
import type { PlanSpan } from './threshold-test.js'

/** What the plan of each pest says on a day, in order of pest; pests without a plan in force are left out. */
export function plansInForce(district: DistrictView, day: Day): Map<string, PlanSpan> {
  const plans = new Map<string, PlanSpan>()
  for (const [pest, plan] of [...district.plans].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const span = inForce(plan.data.spans, day)
    if (span) plans.set(pest, span)
  }
  return plans
}

/** Whether a plan says when to act in an area of this kind. */
export function governs(span: PlanSpan | undefined, area: Area | undefined): boolean {
  if (!span || !area) return false
  return (
    actsOnOne(span, area) ||
    span.thresholds?.[area.facts.kind] !== undefined ||
    span.thresholds?.elsewhere !== undefined
  )
}

/** Whether one animal or fresh sign is enough in an area of this kind. */
export function actsOnOne(span: PlanSpan, area: Area): boolean {
  return (span['act-on-one'] ?? []).some((place) => place === area.facts.kind || place === 'everywhere')
}

/** Whether a plan names this very kind of area, not merely everywhere or everywhere else. */
export function namesKind(span: PlanSpan, area: Area): boolean {
  const { kind } = area.facts
  return (span['act-on-one'] ?? []).some((place) => place === kind) || span.thresholds?.[kind] !== undefined
}
