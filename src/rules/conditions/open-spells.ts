import type { ConditionEvent, ConditionHistory } from '../../ledger/condition-history.js'

/** A condition from the entry that opened it, or opened it again, to whatever was said before it opened next. */
export interface OpenSpell {
  /** The entry that found it: `new`, or `still` after it had been put right. */
  readonly opened: ConditionEvent
  /** Entries of visits that saw it open, the opening one first. */
  readonly seenOpen: readonly ConditionEvent[]
  /** The entry that first put it right; none while it is open. */
  readonly closed?: ConditionEvent
  /** What was said after that: holding, found closed, mended once more. */
  readonly afterwards: readonly ConditionEvent[]
}

/** The spells in which a condition was open, in order. */
export function openSpells(condition: ConditionHistory): OpenSpell[] {
  const spells: OpenSpell[] = []
  let seenOpen: ConditionEvent[] = []
  let closed: ConditionEvent | undefined
  let afterwards: ConditionEvent[] = []
  const keep = () => {
    const opened = seenOpen[0]
    if (opened) spells.push({ opened, seenOpen, ...(closed ? { closed } : {}), afterwards })
  }
  for (const event of condition.events) {
    if (event.kind === 'still' && closed) {
      keep()
      seenOpen = [event]
      closed = undefined
      afterwards = []
    } else if (closed) afterwards.push(event)
    else if (event.kind === 'repaired' || event.kind === 'fixed' || event.kind === 'closed') closed = event
    else seenOpen.push(event)
  }
  keep()
  return spells
}
