import type { VisitDraft } from './draft.js'
import { emptyDraft } from './draft.js'
import type { VisitPlan } from './plan.js'

/** One thing that is asked. Plain data, so that it can be compared with what a kept answer was given to. */
export type Step =
  | { readonly is: 'by' | 'word' | 'times' | 'start' | 'purpose' | 'site-manager' | 'complaint-log' | 'end' }
  /** `again`: someone came back to it, to tell more or to mend what was told. */
  | { readonly is: 'area'; readonly area: string; readonly again?: boolean }
  /** `all` asks also for devices that are not due. */
  | {
      readonly is: 'devices'
      readonly area: string
      readonly all?: boolean
      readonly again?: boolean
    }
  | { readonly is: 'condition'; readonly area: string; readonly name: string; readonly again?: boolean }
  /** What is not said yet of a new condition. */
  | { readonly is: 'new-condition'; readonly name: string }
  /** Where something was, that was told before any area was come to. */
  | { readonly is: 'where'; readonly told: string }
  | { readonly is: 'complaint'; readonly id: string }
  /** Who types a past visit, and when its page was filled in. */
  | { readonly is: 'entered-by' | 'on-paper' }
  /** What is not said yet of something that was begun to be told. */
  | {
      readonly is: 'moved-to' | 'moved-stands' | 'taken-up' | 'set-marked' | 'set-stands'
      readonly device: string
    }
  | { readonly is: 'set-kind'; readonly area: string; readonly device?: string }
  | { readonly is: 'set-name'; readonly area: string; readonly kind: string }
  | { readonly is: 'plant'; readonly area: string }
  | { readonly is: 'plant-what'; readonly area: string; readonly name: string }
  | { readonly is: 'plant-dry'; readonly name: string }
  | { readonly is: 'photo' }
  | { readonly is: 'photo-shows'; readonly file: string }
  /** Everything was asked: the record is shown, and is written if wanted. */
  | { readonly is: 'confirm' }

/** Where a visit stands: what was answered, and what is asked next. */
export interface VisitState {
  readonly draft: VisitDraft
  /** What is still to be asked, the next first. */
  readonly pending: readonly Step[]
  /** The area last come to. */
  readonly area?: string
  /** Devices said not to have been looked at; they are not in the record, and not asked for again. */
  readonly passed: readonly string[]
  /** How the last answer was understood, in words. */
  readonly understood: readonly string[]
}

export type Outcome = { readonly state: VisitState } | { readonly complaint: string }

/** The beginning of every visit; what follows depends on its purpose. */
export function firstState(plan: VisitPlan): VisitState {
  const { by, enteredBy, onPaper, word } = plan
  return {
    draft: {
      ...emptyDraft,
      ...(by === undefined ? {} : { by }),
      ...(enteredBy === undefined ? {} : { enteredBy }),
      ...(onPaper === undefined ? {} : { onPaper }),
      ...(word === undefined ? {} : { word }),
    },
    pending: [
      ...(by === undefined ? [{ is: 'by' } as const] : []),
      ...(by !== undefined && needsWord(plan, by) ? [{ is: 'word' } as const] : []),
      ...(plan.asksWhoTypes === true ? [{ is: 'entered-by' } as const] : []),
      { is: plan.isToday ? 'start' : 'times' },
      { is: 'purpose' },
    ],
    passed: [],
    understood: [],
  }
}

/** Whether the day has a visit of that person already, so that this one needs a word of its own. */
export function needsWord({ recordedOnDay, word }: VisitPlan, by: string): boolean {
  return recordedOnDay.includes(word === undefined ? by : `${by}-${word}`)
}

/** Questions that only ask for the rest of what was begun to be told. */
const followUps: readonly Step['is'][] = [
  'where',
  'new-condition',
  'moved-to',
  'moved-stands',
  'taken-up',
  'set-marked',
  'set-stands',
  'set-kind',
  'set-name',
  'plant',
  'plant-what',
  'plant-dry',
  'photo',
  'photo-shows',
]

export function isFollowUp({ is }: Step): boolean {
  return followUps.includes(is)
}

/** A step as a text, for the journal. */
export function stepKey(step: Step): string {
  return Object.entries(step)
    .map(([key, value]) => (value === true ? key : value))
    .join(' ')
}

export function nextStep({ pending }: VisitState): Step {
  return pending[0] ?? { is: 'confirm' }
}

/** The state after its first step was answered: that step gone, others put in its place. */
export function answered(
  state: VisitState,
  draft: Partial<VisitDraft>,
  {
    next = [],
    understood = [],
  }: { readonly next?: readonly Step[]; readonly understood?: readonly string[] } = {},
): Outcome {
  return {
    state: {
      ...state,
      draft: { ...state.draft, ...draft },
      pending: [...next, ...state.pending.slice(1)],
      understood,
    },
  }
}
