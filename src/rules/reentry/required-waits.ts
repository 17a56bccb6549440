import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { combinedWait, longer, minutesIn } from '../../measure/reentry.js'
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
  const keepOut = minutesOf(label['keep-out'])
  const waits: RequiredWait[] = []
  const add = (minutes: number | undefined, citation: Citation, by: RequiredWait['by']) => {
    if (minutes !== undefined && minutes > 0) waits.push({ minutes, citation, by })
  }
  const ofLabel = longer(keepOut, minutesOf(label.ventilate))
  add(ofLabel, labelIsLaw, 'label')
  for (const { says, citation } of dutiesFor(view, 'reentry', treatment)) {
    // Only a re-entry time can take the place of the rule's own; ventilating can make it longer.
    const counts = says.label === 'instead' ? keepOut : ofLabel
    add(combinedWait(minutesOf(says.wait), counts, says.label), citation, 'rulebook')
  }
  return waits
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
