import { isoOf } from '../../measure/calendar.js'
import type { RecordOf } from '../../records/kinds.js'
import { siteOfPath } from '../../records/paths.js'
import type { Cell, Column, Day } from '../../types.js'
import type { ReportOptions } from '../options.js'
import type { CommitFacts } from './facts.js'
import { shortId } from './facts.js'

/** What of the findings was asked for. */
export interface Asked {
  /** By the day of its commit; one whose date cannot be read is always told. */
  readonly isInPeriod: (commit: CommitFacts) => boolean
  readonly isOfSite: (path: string) => boolean
  readonly isWanted: (path: string, commit: CommitFacts) => boolean
  /** Whether a commit changed a record that was asked for. */
  readonly isOfSites: (commit: CommitFacts) => boolean
  /** Whether what is not known of the time before a commit can be of the period. */
  readonly mayConcern: (commit: CommitFacts) => boolean
}

export function askedOf({ site, from, to, asOf, asOfIsToday }: ReportOptions): Asked {
  // A commit after another as-of day was not looked at; one after today bears a date that cannot be, and is told.
  const isDayIn = (day: Day) =>
    (asOfIsToday || day <= asOf) && (from === undefined || day >= from) && (to === undefined || day <= to)
  const isInPeriod = ({ committerDay }: CommitFacts) => committerDay === undefined || isDayIn(committerDay)
  const isOfSite = (path: string) => site === undefined || siteOfPath(path) === site
  return {
    isInPeriod,
    isOfSite,
    isWanted: (path, commit) => isOfSite(path) && isInPeriod(commit),
    mayConcern: ({ committerDay }) =>
      committerDay === undefined || from === undefined || committerDay >= from,
    isOfSites: ({ sites }) => site === undefined || sites.has(site),
  }
}

/** Columns about a commit that end most tables. */
export const commitColumns: readonly Column[] = [
  { id: 'commit', title: 'commit' },
  { id: 'committed', title: 'committed' },
  { id: 'author', title: 'author' },
]

/** The author wrote it; who put it where it stands may be another, and is told with the work. */
export function commitCells(commit: CommitFacts): Record<string, Cell> {
  return {
    commit: shortId(commit),
    committed: commit.committerDay === undefined ? null : isoOf(commit.committerDay),
    author: nameOf(commit),
  }
}

export function nameOf({ author }: CommitFacts): string {
  return author.name === '' ? `<${author.email}>` : author.name
}

export function byCommit(a: { readonly commit: CommitFacts }, b: { readonly commit: CommitFacts }): number {
  return a.commit.at - b.commit.at
}

export type District = RecordOf<'district'>
