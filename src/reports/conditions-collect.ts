import { answeredFor } from '../ledger/answered-for.js'
import type { ConditionHistory } from '../ledger/condition-history.js'
import type { SiteView } from '../ledger/site-view.js'
import type { DatedSpell, OverdueSpan } from '../rules/conditions/condition-overdue.js'
import { overdueBySpell } from '../rules/conditions/condition-overdue.js'
import type { Day } from '../types.js'

/** Why it cannot be said whether a spell ended by the day stated for it. */
export type NotJudged = 'no-day-stated' | 'day-before-found' | 'day-not-past' | 'site-closed'

/** Days on which a condition was past its day and the site answered for it: [from, until). */
export interface OverdueDays {
  readonly due: Day
  readonly from: Day
  readonly until: Day | undefined
}

/** One spell of a condition: from the day it was found, or found back, until it was put right. Thin on purpose. */
export interface ConditionSpell {
  readonly site: string
  readonly area: string | undefined
  /** `<visit>/<name>` */
  readonly condition: string
  readonly what: string
  readonly kind: ConditionHistory['kind']
  readonly gives: ConditionHistory['gives']
  /** As last named by the end of the spell. */
  readonly owner: ConditionHistory['owner']
  readonly found: Day
  /** How often it had been put right before. */
  readonly timesBack: number
  readonly closed: Day | undefined
  /** Last day on which the site answered for it: the as-of day, or the last day of a closed site. */
  readonly followedTo: Day
  readonly lastSeen: Day
  /** The latest day stated for it. */
  readonly due: Day | undefined
  readonly overdue: readonly OverdueDays[]
  /** Whether it was put right before a day stated for it was past. */
  readonly inTime: boolean | NotJudged
  readonly cameBack: boolean
  /** Someone looked again and found it still good. */
  readonly heldGood: boolean
  readonly files: readonly string[]
}

/** Every spell of every condition of a site, in order of the day found, whatever the order of the files. */
export function conditionSpellsOf(view: SiteView): ConditionSpell[] {
  return view.conditions.flatMap((condition) => spellsOf(view, condition))
}

/** Open on the as-of day, in a site that is not closed. */
export function isOpenOn({ found, closed, followedTo }: ConditionSpell, day: Day): boolean {
  return found <= day && (closed === undefined || closed > day) && day <= followedTo
}

export function isOverdueOn({ overdue }: ConditionSpell, day: Day): boolean {
  return overdue.some(({ from, until }) => from <= day && (until === undefined || day < until))
}

/**
 * Days past the day stated for it; undefined when it is not overdue. A day that was past when it was stated counts
 * from then on, as does one that was past when the records of the site began.
 */
export function overdueDaysOn({ overdue }: ConditionSpell, day: Day): number | undefined {
  const standing = overdue.findLast(({ from, until }) => from <= day && (until === undefined || day < until))
  return standing && day - (standing.from === standing.due + 1 ? standing.due : standing.from)
}

function spellsOf(view: SiteView, condition: ConditionHistory): ConditionSpell[] {
  const followedTo = Math.min(view.asOf, view.ends ?? view.asOf)
  const dated = overdueBySpell(condition)
  let owner: ConditionHistory['owner']
  return dated.map((one, timesBack): ConditionSpell => {
    const { opened, seenOpen, closed, afterwards } = one.spell
    for (const event of closed ? [...seenOpen, closed] : seenOpen) owner = event.owner ?? owner
    const ofSpell = owner
    for (const event of afterwards) owner = event.owner ?? owner
    const events = [...seenOpen, ...(closed ? [closed] : []), ...afterwards]
    return {
      site: view.id,
      area: condition.area,
      condition: condition.id,
      what: condition.says,
      kind: condition.kind,
      gives: condition.gives,
      owner: ofSpell,
      found: opened.day,
      timesBack,
      closed: closed?.day,
      followedTo,
      lastSeen: seenOpen.at(-1)?.day ?? opened.day,
      due: one.stated.at(-1)?.due,
      overdue: one.stated.flatMap(({ due, from, until }) => {
        const span = answeredFor(view, { from, until })
        return span ? [{ due, from: span.from, until: span.until }] : []
      }),
      inTime: inTimeOf(view, one),
      cameBack: timesBack + 1 < dated.length,
      heldGood: afterwards.some(({ kind }) => kind === 'holds' || kind === 'closed'),
      files: [...new Set(events.map(({ at }) => at.file))],
    }
  })
}

/**
 * Judged once its day is past, whether it was put right or not: to count what was put right early but not yet what is
 * still open would make every share look better than it is.
 */
function inTimeOf(view: SiteView, { spell, stated }: DatedSpell): boolean | NotJudged {
  const due = stated.at(-1)?.due
  if (due === undefined) return 'no-day-stated'
  if (spell.seenOpen.some((event) => event.due !== undefined && event.due < event.day))
    return 'day-before-found'
  if (stated.some((one) => wasLate(view, one))) return false
  if (due >= view.asOf) return 'day-not-past'
  return spell.closed === undefined ? 'site-closed' : true
}

/** What was put right on the day after its day was a day late, though no day ended with it overdue. */
function wasLate(view: SiteView, { from, until }: OverdueSpan): boolean {
  if (from > view.asOf || (until !== undefined && until < from)) return false
  return (
    answeredFor(view, { from, until: until === undefined ? undefined : Math.max(until, from + 1) }) !==
    undefined
  )
}
