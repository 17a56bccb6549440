import type { InstantRange } from '../../ledger/instants.js'
import { instantOn } from '../../ledger/instants.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import {
  earliestInstantBefore,
  latestInstantAfter,
  latestInstantBefore,
  parseLead,
} from '../../measure/lead-time.js'
import type { NoticeContent } from '../../records/use-words.js'
import type { Citation } from '../../types.js'
import type { WordsSet } from './contents.js'
import { contentsAsked } from './contents.js'
import { emergencyDuties, owed, replacedBeforehand } from './duties-in-emergency.js'
import { countedFrom } from './moments.js'
import { earlierOf } from './outcome.js'

export type Group = 'parents' | 'staff'
export type Reach = Duty<'notices'>['says']['reach']

/** One group that a rulebook wants told about one treatment: how many of them, when, and what. */
export interface NoticeAsked {
  readonly rulebook: string
  readonly duty: string
  readonly citation: Citation
  readonly group: Group
  readonly reach: Reach
  /** Before it begins, or after it in an emergency. */
  readonly when: 'before' | 'after an emergency'
  /** Last moment at which it may be sent; none where an emergency leaves no term. */
  readonly latest: InstantRange | undefined
  /** First moment at which it may be sent, where there is one. */
  readonly earliest: InstantRange | undefined
  /** The term in words: `72 hours before`. */
  readonly term: string
  /** The same of the first moment; empty where there is none. */
  readonly longest: string
  readonly says: readonly NoticeContent[]
  readonly words: WordsSet
}

/** Every notice that the rulebooks in force ask for on account of a treatment. */
export function noticesAsked(view: SiteView, treatment: Treatment): NoticeAsked[] {
  const replaced = replacedBeforehand(view, treatment)
  const beforehand = owed(view, 'notices', treatment).filter(({ rulebook }) => !replaced.has(rulebook))
  return [
    ...beforehand.flatMap((duty) => askedBeforehand(view, treatment, duty)),
    ...emergencyDuties(view, treatment).flatMap((duty) => askedAfterwards(view, treatment, duty)),
  ]
}

function askedBeforehand(view: SiteView, treatment: Treatment, duty: Duty<'notices'>): NoticeAsked[] {
  const { says, rulebook, name, citation } = duty
  const lead = parseLead(says.lead)
  if (!lead) return []
  const longest = says['not-before'] === undefined ? null : parseLead(says['not-before'])
  const asked: NoticeAsked = {
    rulebook,
    duty: name,
    citation,
    group: says.to,
    reach: says.reach,
    when: 'before',
    latest: countedFrom(view, treatment, 'start', lead, latestInstantBefore),
    earliest: longest ? countedFrom(view, treatment, 'start', longest, earliestInstantBefore) : undefined,
    term: `${says.lead} before`,
    longest: says['not-before'] === undefined ? '' : `${says['not-before']} before`,
    says: contentsAsked(says.says, treatment, false),
    words: says.words ?? {},
  }
  return [asked]
}

/**
 * Notice after an emergency: to whom the duty names, and else to whoever the same rulebook would have had told
 * beforehand; a rulebook that tells nobody beforehand means parents and staff.
 */
function askedAfterwards(
  view: SiteView,
  treatment: Treatment,
  { says, rulebook, name, citation }: Duty<'emergencies'>,
): NoticeAsked[] {
  const asksForNotice =
    says['notice-within'] !== undefined ||
    says['or-next-school-morning'] !== undefined ||
    says['notice-to'] !== undefined ||
    says.says !== undefined
  if (!asksForNotice) return []
  const isOfRulebook = (duty: Duty<'notices'>) => duty.rulebook === rulebook
  const beforehand = owed(view, 'notices', treatment).filter(isOfRulebook)
  const tellsAnyone = view.district.rulebooks.duties('notices', treatment.day).some(isOfRulebook)
  const groups: readonly Group[] =
    says['notice-for'] ?? (tellsAnyone ? beforehand.map((duty) => duty.says.to) : ['parents', 'staff'])
  return [...new Set(groups)].map((group) => ({
    rulebook,
    duty: name,
    citation,
    group,
    reach: says['notice-to'] ?? widest(beforehand.filter((duty) => duty.says.to === group)),
    when: 'after an emergency',
    latest: termAfterwards(view, treatment, says),
    earliest: undefined,
    term: termInWords(says),
    longest: '',
    says: contentsAsked(says.says, treatment, true),
    words: says.words ?? {},
  }))
}

function widest(duties: readonly Duty<'notices'>[]): Reach {
  return duties.some(({ says }) => says.reach === 'all') ? 'all' : 'all or those who asked'
}

/**
 * The term counts from the start. `The morning of the next school day` is read here as until 12:00 on the first
 * school day after the day of the application.
 */
function termAfterwards(
  view: SiteView,
  treatment: Treatment,
  says: Duty<'emergencies'>['says'],
): InstantRange | undefined {
  const within = says['notice-within'] === undefined ? null : parseLead(says['notice-within'])
  const term = within ? countedFrom(view, treatment, 'start', within, latestInstantAfter) : undefined
  if (says['or-next-school-morning'] === undefined) return term
  const next = view.district.calendar.nextSchoolDay(treatment.day + 1)
  return earlierOf(instantOn(view.district, next, '12:00'), term)
}

function termInWords(says: Duty<'emergencies'>['says']): string {
  const terms = [
    ...(says['notice-within'] === undefined ? [] : [`within ${says['notice-within']}`]),
    ...(says['or-next-school-morning'] === undefined ? [] : ['by the morning of the next school day']),
  ]
  return terms.length === 0 ? 'afterwards' : terms.join(' or ')
}
