import type { Treatment } from '../../ledger/treatments.js'
import { liesOutdoors } from '../../records/area-kinds.js'
import type { NoticeContent } from '../../records/use-words.js'
import type { Outcome } from './outcome.js'

/** Words that a duty sets for a matter: they stand in the notice or on the sign as they are. */
export type WordsSet = Readonly<Partial<Record<NoticeContent, string | undefined>>>

/** What a notice or sign had to say, held against what its record says it said. */
export interface ContentsShown {
  readonly outcome: Outcome
  /** What it does not say, in the order in which it is asked. */
  readonly missing: readonly NoticeContent[]
  /** Where its words are recorded: listed under `says`, only as a file that is kept, or nowhere. */
  readonly recorded: 'listed' | 'as a file' | 'nowhere'
}

/**
 * What a duty asks a notice of this treatment to say. Other dates in case of rain are asked only of what is done
 * wholly outdoors, and what an emergency was only of a notice after one.
 */
export function contentsAsked(
  asked: readonly NoticeContent[] | undefined,
  treatment: Treatment,
  afterEmergency: boolean,
): NoticeContent[] {
  const outdoors =
    treatment.areas.length > 0 &&
    treatment.areas.every(({ area }) => area !== undefined && liesOutdoors(area.facts.kind) === true)
  return (asked ?? []).filter((content) => {
    if (content === 'rain-dates') return outdoors
    return afterEmergency || !content.startsWith('emergency-')
  })
}

/** The file itself shows what it says to whoever opens it, but not to a check: then it is not recorded. */
export function contentsShown(
  says: readonly NoticeContent[] | undefined,
  file: string | undefined,
  asked: readonly NoticeContent[],
): ContentsShown {
  const missing = asked.filter((content) => !(says?.includes(content) ?? false))
  const recorded = says ? 'listed' : file === undefined ? 'nowhere' : 'as a file'
  if (missing.length === 0) return { outcome: 'shown', missing, recorded }
  return { outcome: recorded === 'as a file' ? 'not recorded' : 'not shown', missing, recorded }
}
