import type { ConditionHistory } from '../ledger/condition-history.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'

export interface ClipboardCondition {
  /** What a visit record calls it: its short name, or the full one where the short one could mean another. */
  readonly name: string
  readonly area: string | undefined
  readonly says: string
  readonly since: string
  readonly owner: string | undefined
  readonly due: string | undefined
  /** Day of the repair, where it was put right and nobody looked at it since. */
  readonly repairedOn: string | undefined
}

/** Conditions that are open, or were repaired by someone and not looked at since, in the order they were found. */
export function conditionsToLookAt(view: SiteView): ClipboardCondition[] {
  return view.conditions
    .filter((condition) => condition.open || waitsForALook(condition))
    .map((condition) => ({
      name: nameToWrite(condition, view.conditions),
      area: condition.area,
      says: condition.says,
      since: isoOf(condition.events[0]?.day ?? view.asOf),
      owner: condition.owner,
      due: condition.due === undefined ? undefined : isoOf(condition.due),
      repairedOn: condition.open || !condition.closed ? undefined : isoOf(condition.closed.day),
    }))
}

function waitsForALook({ closed, recheckedOn }: ConditionHistory): boolean {
  return closed?.how === 'repaired' && recheckedOn === undefined
}

/** A short name means the one open condition of that name, or else the latest. */
function nameToWrite(condition: ConditionHistory, all: readonly ConditionHistory[]): string {
  const same = all.filter(({ name }) => name === condition.name)
  const open = same.filter((one) => one.open)
  const meant = open.length > 1 ? undefined : (open[0] ?? same.at(-1))
  return meant === condition ? condition.name : condition.id
}
