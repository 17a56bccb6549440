import type { InstantRange } from '../../ledger/instants.js'
import { timesOf } from '../../ledger/instants.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { addLead, latestInstantBefore, parseLead } from '../../measure/lead-time.js'
import type { NoticeContent, postingPlaces } from '../../records/use-words.js'
import type { Citation } from '../../types.js'
import type { WordsSet } from './contents.js'
import { contentsAsked } from './contents.js'
import { emergencyDuties, owed, replacedBeforehand } from './duties-in-emergency.js'
import { countedFrom } from './moments.js'

export type PostingPlace = (typeof postingPlaces)[number]

/** Signs that a rulebook wants hung on account of one treatment. */
export interface PostingAsked {
  readonly rulebook: string
  readonly duty: string
  readonly citation: Citation
  readonly when: 'before' | 'in an emergency'
  /** Last moment at which they may be put up, where there is one. */
  readonly latest: InstantRange | undefined
  /** The term in words: `72 hours before`. */
  readonly term: string
  /** Moment until which they stay, where there is one, and that in words. */
  readonly staysUntil: InstantRange | undefined
  readonly stay: string
  readonly size: string | undefined
  /** Kinds of places, of which each has one. */
  readonly places: readonly PostingPlace[]
  readonly says: readonly NoticeContent[]
  readonly words: WordsSet
}

/**
 * Every sign that the rulebooks in force ask for on account of a treatment. A stated emergency takes the place of
 * signs beforehand; signs that are not for beforehand hang all the same.
 */
export function postingsAsked(view: SiteView, treatment: Treatment): PostingAsked[] {
  const replaced = replacedBeforehand(view, treatment)
  return [
    ...owed(view, 'postings', treatment)
      .filter(({ rulebook, says }) => says.before === undefined || !replaced.has(rulebook))
      .map((duty) => askedOfSigns(view, treatment, duty)),
    ...emergencyDuties(view, treatment)
      .filter(({ says }) => says['sign-at-start'] !== undefined || says['sign-after'] !== undefined)
      .map((duty) => askedInEmergency(view, treatment, duty)),
  ]
}

function askedOfSigns(view: SiteView, treatment: Treatment, duty: Duty<'postings'>): PostingAsked {
  const { says, rulebook, name, citation } = duty
  const before = says.before === undefined ? null : parseLead(says.before)
  return {
    rulebook,
    duty: name,
    citation,
    when: 'before',
    latest: before ? countedFrom(view, treatment, 'start', before, latestInstantBefore) : undefined,
    term: says.before === undefined ? '' : `${says.before} before`,
    ...stayOf(view, treatment, says.after),
    size: says.size,
    places: says['at-the'] ?? [],
    says: contentsAsked(says.says, treatment, false),
    words: says.words ?? {},
  }
}

function askedInEmergency(
  view: SiteView,
  treatment: Treatment,
  { says, rulebook, name, citation }: Duty<'emergencies'>,
): PostingAsked {
  return {
    rulebook,
    duty: name,
    citation,
    when: 'in an emergency',
    latest: says['sign-at-start'] === undefined ? undefined : timesOf(view.district, treatment).start,
    term: says['sign-at-start'] === undefined ? '' : 'when it began',
    ...stayOf(view, treatment, says['sign-after']),
    size: undefined,
    places: [],
    says: [],
    words: {},
  }
}

function stayOf(
  view: SiteView,
  treatment: Treatment,
  after: string | undefined,
): Pick<PostingAsked, 'staysUntil' | 'stay'> {
  const lead = after === undefined ? null : parseLead(after)
  if (!lead) return { staysUntil: undefined, stay: '' }
  return { staysUntil: countedFrom(view, treatment, 'end', lead, addLead), stay: `${after} after the end` }
}
