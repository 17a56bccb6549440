import type { Signature, Stamp } from '../../files/git-history-commit.js'
import type { Day } from '../../types.js'
import type { KeyChange } from './changed-keys.js'
import type { Stated } from './stated.js'

/** What is kept of a commit once its changes were looked at. */
export interface CommitFacts {
  /** Its place in the walk: parents come before children. */
  readonly at: number
  readonly id: string
  readonly cameFrom: readonly number[]
  readonly isCutOff: boolean
  readonly author: Stamp
  readonly committer: Stamp
  /** Days in the zone of the district; undefined where git's date cannot be read. */
  readonly authorDay: Day | undefined
  readonly committerDay: Day | undefined
  readonly signature: Signature | undefined
  /** How many records it changed by itself, and at which sites; the district's own count for the site ''. */
  readonly records: number
  readonly sites: ReadonlySet<string>
}

/** One record through all commits. */
export interface Life {
  first: CommitFacts
  /** False where it was there before the first commit that can be seen. */
  isFirstKnown: boolean
  /** The first commit in which it told what was done: an application that is still planned does not yet. */
  told: CommitFacts | undefined
  blob: string
  gone: Gone | undefined
}

/** A record that a commit took away, or gave another name. */
export interface Gone {
  readonly path: string
  readonly commit: CommitFacts
  to?: string
  backIn?: CommitFacts
  /** A correction that came with the new name. */
  stated?: Stated
}

/** A change of a committed record that its version states no correction for, or only later. */
export interface Change {
  readonly path: string
  readonly commit: CommitFacts
  readonly what: 'event' | 'dated span'
  readonly key: KeyChange
  /** A later commit that states it or puts it back, or that this commit puts something back. */
  settled?: { readonly how: 'stated later' | 'put back' | 'puts back'; readonly commit: CommitFacts }
}

/** A correction as a commit brought it. */
export interface StatedIn {
  readonly commit: CommitFacts
  readonly entry: string
  /** Whether git shows a change of each key it names, in this commit or before. */
  readonly shows: readonly string[]
}

/** Something that a parent of a merge had and the merge does not have. */
export interface Lost {
  readonly path: string
  readonly commit: CommitFacts
  /** The parent that had it. */
  readonly parent: string
  /** Empty for the whole record. */
  readonly key: readonly string[]
  readonly value: unknown
}

/** Records that came into the ledger with a commit from elsewhere in the repository. */
export interface MovedIn {
  readonly commit: CommitFacts
  readonly records: number
}

/** What the walk through git found, before it is told. */
export interface HistoryFacts {
  readonly commits: readonly CommitFacts[]
  /** Commits dated after the as-of day, which were not looked at. */
  readonly later: number
  readonly lives: ReadonlyMap<string, Life>
  readonly gone: readonly Gone[]
  readonly changes: readonly Change[]
  readonly stated: ReadonlyMap<string, readonly StatedIn[]>
  readonly datedAhead: readonly { readonly path: string; readonly day: Day; readonly commit: CommitFacts }[]
  readonly lost: readonly Lost[]
  readonly movedIn: readonly MovedIn[]
  /** What could not be compared, in words. */
  readonly notCompared: readonly { readonly says: string; readonly commit: CommitFacts }[]
}

/** The later of the two days that git tells of a commit: a claim that something came too early holds by both. */
export function latestDay({ authorDay, committerDay }: CommitFacts): Day | undefined {
  if (authorDay === undefined || committerDay === undefined) return undefined
  return Math.max(authorDay, committerDay)
}

/** The earlier of the two: a claim that something came too late holds by both. */
export function earliestDay({ authorDay, committerDay }: CommitFacts): Day | undefined {
  if (authorDay === undefined || committerDay === undefined) return undefined
  return Math.min(authorDay, committerDay)
}

/** The id of a commit as far as people type it. */
export function shortId(commit: { readonly id: string }): string {
  return commit.id.slice(0, 12)
}
