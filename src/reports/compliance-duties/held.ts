import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { DutySection } from '../../records/rulebook-duties.js'
import type { Outcome as RuleOutcome } from '../../rules/notices/outcome.js'
import { type Outcome, worstOf } from '../outcomes.js'

/** What the records show of one duty held against one treatment. */
export interface Held {
  readonly outcome: Outcome
  /** What shows it, what is not shown, why it does not apply, or why it cannot be checked. */
  readonly why: string
  /** Fields without which it cannot be checked, and those that are asked for and not there. */
  readonly absent: readonly string[]
  /** Records it rests on, beside that of the treatment. */
  readonly records: readonly string[]
}

/** One aspect of a duty that asks for several things. */
export type Part = Omit<Held, 'absent' | 'records'> & Partial<Pick<Held, 'absent' | 'records'>>

/** How a duty that holds for a treatment is held against it. */
export type Assessor<S extends DutySection> = (view: SiteView, treatment: Treatment, duty: Duty<S>) => Held

export function held({ outcome, why, absent = [], records = [] }: Part): Held {
  return { outcome, why, absent, records }
}

export const shown = (why: string, ...records: readonly string[]): Held =>
  held({ outcome: 'shown', why, records })

export const notShown = (why: string, ...absent: readonly string[]): Held =>
  held({ outcome: 'not shown', why, absent })

export const notApplicable = (why: string): Held => held({ outcome: 'not applicable', why })

export const notChecked = (why: string, ...absent: readonly string[]): Held =>
  held({ outcome: 'cannot be checked', why, absent })

/** Several aspects as one answer: the worst outcome, and the aspects that are not shown, or else all of them. */
export function together(parts: readonly Part[]): Held {
  const outcome = worstOf(parts.map((part) => part.outcome))
  const open = parts.filter((part) => part.outcome === 'not shown' || part.outcome === 'cannot be checked')
  const told = open.length > 0 ? open : parts.filter((part) => part.outcome === outcome)
  return {
    outcome,
    why: [...new Set(told.map(({ why }) => why))].join('; '),
    absent: [...new Set(told.flatMap(({ absent = [] }) => absent))],
    records: [...new Set(parts.flatMap(({ records = [] }) => records))],
  }
}

/** In the rules what the record leaves open is `not recorded`. */
export function outcomeOf(outcome: RuleOutcome): Outcome {
  return outcome === 'not recorded' ? 'cannot be checked' : outcome
}

/** A record that is named and not there, or cannot be used. */
export function absentRecord({ district }: SiteView, kind: 'person' | 'firm', id: string): Held {
  const file = `${kind === 'person' ? 'people' : 'firms'}/${id}.yaml`
  return notChecked(
    district.broken.has(`${kind} ${id}`) ? `${file} cannot be used` : `${file} is not there`,
    file,
  )
}

/** Bait put into a device is told by a visit, which has no place for such a fact. */
export function noPlaceInAReading(what: string): Held {
  return notChecked(`the reading that tells of this bait has no place for ${what}`, what)
}
