import type { Loaded } from '../../ledger/loaded.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import { dayIn } from '../../ledger/spans.js'
import { lastDayOf, monthsIn } from '../../measure/retention.js'
import type { RecordOf } from '../../records/kinds.js'
import type { Day } from '../../types.js'

export type TrainingDuty = Duty<'training'>

/** Days on which one training counts: from the day it was completed through its last. */
export interface TrainedSpan {
  readonly on: Day
  readonly through: Day
}

/** Someone's training in the course of a duty, the earliest first. */
export function trainedSpans(person: Loaded<'person'>, { says }: TrainingDuty): TrainedSpan[] {
  const months = monthsIn(says.every) ?? 0
  return Object.values(person.data.training ?? {})
    .filter(({ course }) => course === says.course)
    .map(({ on, until }) => {
      const through = lastDayOf(dayIn(on), months)
      return { on: dayIn(on), through: until === undefined ? through : Math.min(through, dayIn(until)) }
    })
    .sort((a, b) => a.on - b.on || a.through - b.through)
}

export function isTrainedOn(spans: readonly TrainedSpan[], day: Day): boolean {
  return spans.some(({ on, through }) => on <= day && day <= through)
}

/** The spans of days after one on which no training counts; the last of them has no end yet. */
export function untrainedAfter(
  spans: readonly TrainedSpan[],
  day: Day,
): { readonly from: Day; readonly until: Day | undefined }[] {
  const gaps: { from: Day; until: Day | undefined }[] = []
  let lacking = day + 1
  for (const { on, through } of spans) {
    if (on > lacking) gaps.push({ from: lacking, until: on })
    lacking = Math.max(lacking, through + 1)
  }
  return [...gaps, { from: lacking, until: undefined }]
}

/** Day of the last training on or before a day. */
export function lastTrained(spans: readonly TrainedSpan[], day: Day): Day | undefined {
  return spans.findLast(({ on }) => on <= day)?.on
}

/**
 * The last day on which someone who began on a day may still be without the course. A coordinator has `every` where
 * the duty gives no time of its own: the first course falls into the first such span. Nobody had to begin before the
 * duty was in force.
 */
export function inTimeThrough(
  { says }: TrainingDuty,
  begun: Day,
  dutyBegan = dayIn(says.from),
): Day | undefined {
  const given = says.within ?? (says.who === 'coordinator' ? says.every : undefined)
  const months = given === undefined ? null : monthsIn(given)
  return months === null ? undefined : lastDayOf(Math.max(begun, dutyBegan), months)
}

/** Whether the duty holds whatever is used: then a coordinator has it from the first day, and not only at some use. */
export function holdsForEveryUse({ says }: TrainingDuty): boolean {
  return says['holds-for'] === undefined && says['not-for'] === undefined
}

/** The days over which one person is coordinator without a break. */
export interface Tenure {
  readonly who: string
  /** Position of its first span in the record of the district. */
  readonly at: number
  readonly from: Day
  /** Last day, if it has ended. */
  readonly through: Day | undefined
}

export function tenuresOf({ coordinator }: RecordOf<'district'>): Tenure[] {
  const tenures: Tenure[] = []
  const spans = coordinator
    .map(({ who, from, until }, at) => ({
      who,
      at,
      from: dayIn(from),
      through: until === undefined ? undefined : dayIn(until),
    }))
    .sort((a, b) => a.from - b.from)
  for (const span of spans) {
    const last = tenures.findLastIndex(({ who }) => who === span.who)
    const before = tenures[last]
    if (before && (before.through === undefined || span.from <= before.through + 1))
      tenures[last] = { ...before, through: laterEnd(before.through, span.through) }
    else tenures.push(span)
  }
  return tenures
}

function laterEnd(a: Day | undefined, b: Day | undefined): Day | undefined {
  return a === undefined || b === undefined ? undefined : Math.max(a, b)
}
