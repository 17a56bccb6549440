import type { LabelSays } from '../../ledger/labels.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { combinedWait, longer, minutesIn } from '../../measure/reentry.js'
import type { DutyOf } from '../../records/rulebook-duties.js'
import type { Citation } from '../../types.js'
import { labelIsLaw } from '../label-is-law.js'
import { labelOnDay } from './label-on-day.js'

/** A time that people stay out after a treatment, and what asks for it. */
export interface RequiredWait {
  readonly minutes: number
  readonly citation: Citation
  readonly by: 'label' | 'rulebook'
}

/**
 * Every wait asked after a treatment: the label's own (the longer of keeping out and of ventilating), and that of each
 * re-entry duty as it combines with the re-entry time on the label. `Until dry` is no number and is asked by
 * another rule.
 */
export function requiredWaits(view: SiteView, treatment: Treatment): RequiredWait[] {
  const label = labelOnDay(treatment)
  const waits: RequiredWait[] = []
  const add = (minutes: number | undefined, citation: Citation, by: RequiredWait['by']) => {
    if (minutes !== undefined && minutes > 0) waits.push({ minutes, citation, by })
  }
  add(waitOfLabel(label), labelIsLaw, 'label')
  for (const { says, citation } of dutiesFor(view, 'reentry', treatment))
    add(waitOfDuty(says, label), citation, 'rulebook')
  return waits
}

/** Minutes that the label has people stay out: the longer of keeping out and of ventilating. */
export function waitOfLabel(label: LabelSays): number | undefined {
  return longer(minutesOf(label['keep-out']), minutesOf(label.ventilate))
}

/** Minutes that a re-entry duty asks for, as it combines with the label. */
export function waitOfDuty(says: DutyOf<'reentry'>, label: LabelSays): number | undefined {
  // Only a re-entry time can take the place of the rule's own; ventilating can make it longer.
  const counts = says.label === 'instead' ? minutesOf(label['keep-out']) : waitOfLabel(label)
  return combinedWait(minutesOf(says.wait), counts, says.label)
}

/** The longest of some waits. */
export function longestOf(waits: readonly RequiredWait[]): RequiredWait | undefined {
  return waits.reduce<RequiredWait | undefined>(
    (longest, wait) => (longest === undefined || wait.minutes > longest.minutes ? wait : longest),
    undefined,
  )
}

function minutesOf(text: string | undefined): number | undefined {
  return text === undefined ? undefined : minutesIn(text)
}
