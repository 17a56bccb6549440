import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { elementWords } from '../rules/application-records/record-elements.js'
import { noticeAssessments } from '../rules/notices/assess-notice.js'
import { postingAssessments } from '../rules/notices/assess-posting.js'
import { wallTimeAt } from '../rules/notices/moments.js'
import type { Args, Day, Problem } from '../types.js'

/** When something that is not on record yet comes to be done. */
export type DoneWhen = 'before it begins' | 'when it is carried out' | 'afterwards'

interface NotYet {
  readonly when: DoneWhen
  /** Why the rule says nothing of the draft but that a record is still to come. */
  readonly because: string
  /** Where the rule also tells of what is on record and wrong: whether this is not that. */
  readonly only?: (args: Args) => boolean
}

/**
 * Rules that, of an application not yet made, say only that something is not on record yet. Everything else a rule
 * says of it is in the draft itself, or in what it leans on, and would stay so.
 */
export const notYet: Readonly<Record<string, NotYet>> = {
  'notice-missing': {
    when: 'before it begins',
    because: 'no notice about it is recorded, and one can still be sent',
  },
  'posting-missing': {
    when: 'before it begins',
    because: 'no sign for it is recorded, and one can still be put up',
  },
  'approval-missing': {
    when: 'before it begins',
    because: 'no approval is recorded, and one can still be given beforehand',
    only: ({ lacks }) => lacks === 'approval',
  },
  'emergency-without-statement': {
    when: 'before it begins',
    because: 'what the statement lacks can still be written',
  },
  'application-record-incomplete': {
    when: 'when it is carried out',
    because: 'hours, amounts, lot and the like are known when it is done',
    // Who applies it, and whose address it is for, are known beforehand.
    only: ({ missing }) =>
      !knownBeforehand.some((words) => Array.isArray(missing) && missing.includes(words)),
  },
  'weather-not-recorded': {
    when: 'when it is carried out',
    because: 'the wind is known when it is done',
  },
  'wet-ground-not-closed': {
    when: 'when it is carried out',
    because: 'what keeps people out, and when it was dry, is known when it is done',
  },
  'pupils-present': {
    when: 'when it is carried out',
    because: 'where pupils were is known when it is done',
    only: ({ pupils }) => pupils === 'not recorded',
  },
  'emergency-notice-late': {
    when: 'afterwards',
    because: 'notice after an emergency is sent afterwards',
    only: ({ shown }) => shown === 'missing',
  },
  'dry-not-seen': {
    when: 'afterwards',
    because: 'someone sees it dry or settled after it is done',
    only: ({ why }) => why === 'not recorded',
  },
  'reopening-not-recorded': {
    when: 'afterwards',
    because: 'the area is opened again after it is done',
  },
  'effect-not-looked-at': {
    when: 'afterwards',
    because: 'its effect is looked at after it is done',
  },
  'yearly-filing-missing': {
    when: 'afterwards',
    because: 'what is filed for a year is filed once the year is over',
  },
}

const knownBeforehand = [elementWords['certified-applicator'], elementWords['customer-address']]

/** How a problem comes to be done, where it says only that something is not on record yet. */
export function notYetOf({ rule, args }: Problem): NotYet | undefined {
  const found = Object.hasOwn(notYet, rule) ? notYet[rule] : undefined
  return found?.only === undefined || found.only(args) ? found : undefined
}

/** The last day on which what is not on record yet can be done in time. */
export function lastDayFor(problem: Problem, view: SiteView, treatment: Treatment): Day {
  const instants = latestInstants(problem.rule, view, treatment)
  if (instants.length > 0) return wallTimeAt(view.district, Math.min(...instants)).day
  return Math.max(treatment.day, problem.from - 1)
}

function latestInstants(rule: string, view: SiteView, treatment: Treatment): number[] {
  switch (rule) {
    case 'notice-missing':
      return noticeAssessments(view)
        .filter((one) => one.treatment === treatment && one.told === 'nobody' && one.asked.when === 'before')
        .flatMap(({ asked }) => asked.latest?.earliest ?? [])
    case 'posting-missing':
      return postingAssessments(view)
        .filter((one) => one.treatment === treatment && one.signs.length === 0)
        .flatMap(({ asked }) => asked.latest?.earliest ?? [])
    default:
      return []
  }
}
