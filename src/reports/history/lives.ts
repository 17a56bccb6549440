import { getOrMake } from '../../ledger/get-or-make.js'
import type { RecordPath } from '../../records/paths.js'
import { recordPathOf } from '../../records/paths.js'
import type { Day } from '../../types.js'
import type { CommitFacts, Gone, Life } from './facts.js'
import { latestDay } from './facts.js'
import type { RecordChange } from './own-changes.js'
import { isRecord } from './own-changes.js'
import type { Comparison, VersionWanted } from './versions-read.js'

/** Where versions of records that have to be read are handed to. */
interface Versions {
  readonly compare: (comparison: Comparison) => void
  readonly read: (version: VersionWanted) => void
}

/** Follows every record of the ledger from its first commit, also under another name and after it was gone. */
export function recordLives(isAncestor: (ancestor: number, of: number) => boolean, versions: Versions) {
  const all = new Map<string, Life>()
  const gone: Gone[] = []
  const datedAhead: { path: string; day: Day; commit: CommitFacts }[] = []
  /** Records that are gone, by what they last held. */
  const goneWith = new Map<string, Gone>()

  function begin(record: RecordPath, content: string, commit: CommitFacts, isFirstKnown: boolean): void {
    const life: Life = { first: commit, isFirstKnown, told: commit, blob: content, gone: undefined }
    all.set(record.file, life)
    const day = record.day
    const known = latestDay(commit)
    const aheadIf = (isPlanned: boolean | undefined) => {
      if (isFirstKnown && isPlanned === false && day !== undefined && known !== undefined && day > known)
        datedAhead.push({ path: record.file, day, commit })
    }
    if (record.kind !== 'application') aheadIf(false)
    else
      versions.read({
        content,
        tell: (isPlanned) => {
          if (isPlanned && life.told === commit) life.told = undefined
          aheadIf(isPlanned)
        },
      })
  }

  function appear(record: RecordPath, content: string, commit: CommitFacts, isFirstKnown: boolean): void {
    const { file: path } = record
    const life = all.get(path)
    const before = goneWith.get(content)
    if (life?.gone && isAncestor(life.gone.commit.at, commit.at)) {
      life.gone.backIn = commit
      if (life.blob !== content) compare(path, path, life, content, commit)
      Object.assign(life, { blob: content, gone: undefined })
    } else if (life) {
      // Added on two lines of history: it is as old as the older of both.
      if (isOlder(commit, life.first)) {
        if (life.told === life.first) life.told = commit
        life.first = commit
      }
    } else if (before && isLateName(before, record, commit)) rename(before, record, content, commit)
    else begin(record, content, commit, isFirstKnown)
  }

  /**
   * Whether a record is the same as one that went in an earlier commit. Two short records can hold the same; one of an event
   * that was still to come when the other went is another.
   */
  function isLateName(before: Gone, { file, day }: RecordPath, commit: CommitFacts): boolean {
    const { path, to, commit: went } = before
    if (to !== undefined || path === file || !isAncestor(went.at, commit.at)) return false
    return day === undefined || went.committerDay === undefined || day <= went.committerDay
  }

  function isThere(path: string): boolean {
    const life = all.get(path)
    return life !== undefined && life.gone === undefined
  }

  function vanish(path: string, content: string, commit: CommitFacts): Gone {
    const one: Gone = { path, commit }
    const life = all.get(path)
    if (life) Object.assign(life, { gone: one, blob: content })
    gone.push(one)
    goneWith.set(content, one)
    return one
  }

  function rename(from: Gone, to: RecordPath, content: string, commit: CommitFacts): void {
    from.to = to.file
    const life = all.get(from.path)
    if (!life) {
      begin(to, content, commit, false)
      return
    }
    all.set(to.file, { ...life, blob: content, gone: undefined })
    if (life.blob !== content) compare(to.file, from.path, life, content, commit, from)
  }

  function compare(
    path: string,
    was: string,
    life: Life,
    after: string,
    commit: CommitFacts,
    renamed?: Gone,
  ): void {
    const tells = () => {
      const now = all.get(path)
      if (now) now.told ??= commit
    }
    versions.compare({ path, was, commit, before: life.blob, after, tells, ...(renamed ? { renamed } : {}) })
  }

  return {
    all,
    gone,
    datedAhead,
    /** Looks at what a commit changed; what `hadBefore` has was there before it. */
    follow(
      commit: CommitFacts,
      changes: readonly RecordChange[],
      hadBefore: Pick<ReadonlySet<string>, 'has'>,
    ): void {
      const names = newNames(changes)
      const taken = new Set<string>()
      for (const { path, before, after } of changes) {
        if (before === null || after !== null || !isRecord({ path })) continue
        const one = vanish(path, before, commit)
        const other = names.take(path, before)
        if (!other) continue
        taken.add(other.path)
        const record = recordAt(other.path)
        if (record && !isThere(other.path)) rename(one, record, other.after ?? '', commit)
        else one.to = other.path
      }
      for (const { path, before, after } of changes) {
        const record = recordAt(path)
        if (!record || after === null || taken.has(path)) continue
        const life = all.get(path)
        if (before === null) appear(record, after, commit, !hadBefore.has(after))
        else {
          // What a merge brought together was changed where it came from; the rest is looked at with the merge.
          if (commit.cameFrom.length < 2)
            compare(path, path, { ...(life ?? nothing(commit)), blob: before }, after, commit)
          if (life) life.blob = after
          else begin(record, after, commit, false)
        }
      }
    },
  }
}

function nothing(commit: CommitFacts): Life {
  return { first: commit, isFirstKnown: false, told: commit, blob: '', gone: undefined }
}

function recordAt(path: string): RecordPath | undefined {
  const found = recordPathOf(path)
  return found === null || 'stray' in found ? undefined : found
}

/**
 * The files that a commit added, each to be taken once as the new name of a record that went with it: one that holds the
 * same and has its name elsewhere, one that holds the same, or one that only has its name elsewhere.
 */
function newNames(changes: readonly RecordChange[]) {
  const by = new Map<string, RecordChange[]>()
  const taken = new Set<string>()
  for (const change of changes) {
    if (change.before !== null || change.after === null) continue
    const name = nameOf(change.path)
    for (const key of [`${change.after} ${name}`, change.after, name])
      if (key !== '') getOrMake(by, key, (): RecordChange[] => []).push(change)
  }
  return {
    take(path: string, content: string): RecordChange | undefined {
      const name = nameOf(path)
      for (const key of [`${content} ${name}`, content, name]) {
        const list = by.get(key)
        while (list?.[0] && taken.has(list[0].path)) list.shift()
        const found = list?.shift()
        if (!found) continue
        taken.add(found.path)
        return found
      }
      return undefined
    },
  }
}

/** Kind and name of a record, wherever it lies; empty for what is none. */
function nameOf(path: string): string {
  const record = recordAt(path)
  return record === undefined ? '' : `${record.kind} ${record.id}`
}

function isOlder(a: CommitFacts, b: CommitFacts): boolean {
  return (a.committer.seconds ?? Number.POSITIVE_INFINITY) < (b.committer.seconds ?? Number.POSITIVE_INFINITY)
}
