import type { SiteView } from '../ledger/site-view.js'
import type { Day } from '../types.js'
import type { PlanSpan } from './threshold-test.js'

/**
 * The first tactic of the plan, least hazard first, that no visit has carried out in the area since the threshold
 * was crossed. A tactic is recognised by its kind, so one that names none is always still to do.
 */
export function nextStep(
  view: SiteView,
  span: PlanSpan,
  area: string,
  pest: string,
  since: Day,
  animals: number,
): string {
  const done = tacticsSince(view, area, pest, since)
  const steps = Object.values(span.tactics)
  const open = steps.find(
    (step) => (step['from-count'] ?? 0) <= animals && (step.tactic === undefined || !done.has(step.tactic)),
  )
  if (open) return open.do
  return steps.length === 0
    ? 'the plan names no tactic'
    : 'every tactic of the plan was carried out since; look at what did not work'
}

function tacticsSince(view: SiteView, area: string, pest: string, since: Day): Set<string> {
  const done = new Set<string>()
  for (const visit of view.visits) {
    if (visit.day < since) continue
    for (const action of Object.values(visit.data.actions ?? {})) {
      if (
        action.tactic !== undefined &&
        (action.area === undefined || action.area === area) &&
        (action.pest === undefined || action.pest === pest)
      )
        done.add(action.tactic)
    }
  }
  for (const application of view.applications) {
    if (
      application.day < since ||
      application.data.status !== 'done' ||
      application.data.pest !== pest ||
      !(area in application.data.areas)
    )
      continue
    done.add('pesticide')
    if (application.data.method === 'bait-placement' || application.data.method === 'in-a-station')
      done.add('bait')
  }
  return done
}
