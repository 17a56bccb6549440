import type { HistoryStep, Walked } from '../../files/git-history.js'
import { contentOf, walkHistory } from '../../files/git-history.js'
import type { TimeZone } from '../../measure/zone.js'
import { siteOfPath } from '../../records/paths.js'
import type { Day } from '../../types.js'
import { dayInZone } from './commit-day.js'
import { isAncestor } from './commit-graph.js'
import type { CommitFacts, HistoryFacts, MovedIn } from './facts.js'
import { recordLives } from './lives.js'
import { mergeReader } from './merges-read.js'
import type { RecordChange } from './own-changes.js'
import { isRecord, ownChanges } from './own-changes.js'
import { versionReader } from './versions-read.js'

export interface CollectOptions {
  readonly root: string
  readonly rev: string | undefined
  readonly zone: TimeZone | undefined
  readonly asOf: Day
  /** Commits after another as-of day are left out; a commit after today is one whose date cannot be. */
  readonly asOfIsToday: boolean
}

export type Collected =
  | { readonly is: 'walked'; readonly tip: string; readonly facts: HistoryFacts }
  | Exclude<Walked, { is: 'walked' }>

/** Versions of records that are read together. */
const versionsAtOnce = 400

/**
 * Walks through git once, parents before children. Of each commit only what is told of it is kept; versions of records
 * that changed are read some at a time, and let go.
 */
export function collectHistory({ root, rev, zone, asOf, asOfIsToday }: CollectOptions): Collected {
  const commits: CommitFacts[] = []
  const places = new Map<string, number>()
  const movedIn: MovedIn[] = []
  let later = 0
  const inHistoryOf = (ancestor: number, of: number) => isAncestor(commits, ancestor, of)
  const versions = versionReader(root, asOf, inHistoryOf)
  const merges = mergeReader(root, commits, versions.changedByMerge)
  const lives = recordLives(inHistoryOf, versions)
  const readWaiting = () => {
    versions.readWaiting()
    merges.readWaiting()
  }
  const walked = walkHistory(root, rev, (step) => {
    const changed = ownChanges(step)
    const commit = factsOf(step, commits.length, places, zone, changed.filter(isRecord))
    commits.push(commit)
    places.set(step.id, commit.at)
    if (!asOfIsToday && (commit.committerDay ?? asOf) > asOf) {
      later++
      return
    }
    const before = hadBefore(root, step, changed)
    lives.follow(commit, changed, before)
    const records = changed.filter((change) => isRecord(change) && before.has(change.after ?? '')).length
    if (records > 0) movedIn.push({ commit, records })
    merges.look(step, commit)
    if (versions.waiting() + merges.waiting() > versionsAtOnce) readWaiting()
  })
  if (walked.is !== 'walked') return walked
  readWaiting()
  return {
    is: 'walked',
    tip: walked.tip,
    facts: {
      commits,
      later,
      lives: lives.all,
      gone: lives.gone,
      datedAhead: lives.datedAhead,
      changes: versions.changes,
      stated: versions.stated,
      lost: merges.lost,
      movedIn,
      notCompared: [...versions.notCompared, ...merges.notCompared],
    },
  }
}

function factsOf(
  { id, cameFrom, isCutOff, author, committer, signature }: HistoryStep,
  at: number,
  places: ReadonlyMap<string, number>,
  zone: TimeZone | undefined,
  records: readonly RecordChange[],
): CommitFacts {
  const dayOf = (seconds: number | undefined) =>
    seconds === undefined ? undefined : dayInZone(zone, seconds)
  return {
    at,
    id,
    cameFrom: cameFrom.flatMap((parent) => places.get(parent) ?? []),
    isCutOff,
    author,
    committer,
    authorDay: dayOf(author.seconds),
    committerDay: dayOf(committer.seconds),
    signature,
    records: records.length,
    sites: new Set(records.map(({ path }) => siteOfPath(path) ?? '')),
  }
}

/**
 * Contents that a parent of this commit already had elsewhere in the repository, where the ledger comes to this folder
 * with it; and everything, where the clone was cut off. Records of such a content are older than the commit.
 */
function hadBefore(
  root: string,
  step: HistoryStep,
  changed: readonly RecordChange[],
): Pick<ReadonlySet<string>, 'has'> {
  if (step.isCutOff) return everything
  const begins = changed.some(({ path, before }) => path === 'district.yaml' && before === null)
  if (!begins || step.parents.length === 0) return new Set()
  const contents = step.parents.map((parent) => contentOf(root, parent))
  return { has: (id) => contents.some((content) => content?.has(id)) }
}

const everything = { has: () => true }
