import { eachBlob } from '../../files/git-history-objects.js'
import { readRecord } from '../../files/read-record.js'
import { largestRecord } from '../../files/source.js'
import type { RecordKind } from '../../records/kinds.js'
import { recordKinds } from '../../records/kinds.js'
import { recordPathOf } from '../../records/paths.js'
import type { Day } from '../../types.js'
import type { KeyChange, Keyed } from './changed-keys.js'
import { canonical, changedKeys, isSame, keyText } from './changed-keys.js'
import type { Change, CommitFacts, Gone, StatedIn } from './facts.js'
import { shortId } from './facts.js'
import { rewrittenSpans, valuesAt } from './past-spans.js'
import { entriesBeyond, isNamed, statedIn, statedOf } from './stated.js'

/** Two versions of one record, by the ids of their content. */
export interface Comparison {
  readonly path: string
  /** Its name before. */
  readonly was: string
  readonly commit: CommitFacts
  readonly before: string
  readonly after: string
  /** Called when an application that was planned is no longer. */
  readonly tells: () => void
  readonly renamed?: Gone
}

/** One version that has to be looked into. */
export interface VersionWanted {
  readonly content: string
  /** Undefined where the version cannot be read. */
  readonly tell: (isPlanned: boolean | undefined) => void
}

/** Kinds of record that state their corrections; the others are edited in place, in dated spans. */
export function statesCorrections(kind: RecordKind): boolean {
  return Object.hasOwn(recordKinds[kind].schema.shape, 'corrections')
}

/** Changes of one record that wait to be settled; those before them stay as they are told. */
const mostOpen = 50

/** Reads versions of records some at a time, and keeps what changed from one to the next. */
export function versionReader(
  root: string,
  asOf: Day,
  isAncestor: (ancestor: number, of: number) => boolean,
) {
  const changes: Change[] = []
  const stated = new Map<string, StatedIn[]>()
  const notCompared: { says: string; commit: CommitFacts }[] = []
  /** Changes that nothing settled yet, by record. */
  const open = new Map<string, Change[]>()
  /** What a record said before a version of it that cannot be read. */
  const lastRead = new Map<string, Keyed>()
  let comparisons: Comparison[] = []
  let wanted: VersionWanted[] = []

  function compareVersions(
    comparison: Comparison,
    before: Keyed | undefined,
    after: Keyed | undefined,
  ): void {
    const { path, was, commit } = comparison
    const known = before ?? lastRead.get(was)
    if (!after) {
      notCompared.push({
        says: `${path}: what commit ${shortId(commit)} made of it cannot be read as a record`,
        commit,
      })
      if (known) lastRead.set(path, known)
      return
    }
    lastRead.delete(path)
    if (!known) {
      notCompared.push({
        says: `${path}: what it was before commit ${shortId(commit)} cannot be read as a record, so what that commit changed is not told`,
        commit,
      })
      return
    }
    const record = recordPathOf(path)
    if (record === null || 'stray' in record) return
    if (!statesCorrections(record.kind)) {
      keep(path, commit, 'dated span', rewrittenSpans(known, after, commit.committerDay ?? asOf), after)
      return
    }
    if (record.kind === 'application' && known.status === 'planned') {
      if (after.status !== 'planned') comparison.tells()
      noteStated(path, commit, entriesBeyond(statedIn(after), statedIn(known)), changedKeys(known, after))
      return
    }
    compareEvent(comparison, known, after)
  }

  function compareEvent({ path, commit, renamed }: Comparison, before: Keyed, after: Keyed): void {
    const { corrections: _before, ...saidBefore } = before
    const { corrections: _after, ...saysNow } = after
    const added = entriesBeyond(statedIn(after), statedIn(before))
    const dropped = entriesBeyond(statedIn(before), statedIn(after))
    const keyChanges = changedKeys(saidBefore, saysNow)
    const named = added.flatMap((entry) => statedOf(entry).keys)
    if (renamed && added.length > 0) renamed.stated = statedOf(added[0])
    noteStated(path, commit, added, keyChanges)
    settleStated(path, commit, named)
    const withoutWord = [
      ...keyChanges.filter((change) => !isNamed(change, named)),
      ...dropped.map((entry) => ({ path: ['corrections'], before: entry, after: undefined })),
    ]
    keep(path, commit, 'event', withoutWord, after)
  }

  function noteStated(
    path: string,
    commit: CommitFacts,
    entries: readonly unknown[],
    now: readonly KeyChange[],
  ): void {
    const seen = [...now, ...(open.get(path) ?? []).map(({ key }) => key)]
    for (const entry of entries) {
      const { keys } = statedOf(entry)
      const shows = keys.filter((key) => seen.some((change) => touches(change, key)))
      const list = stated.get(path) ?? []
      stated.set(path, [...list, { commit, entry: canonical(entry), shows }])
    }
  }

  function settleStated(path: string, commit: CommitFacts, named: readonly string[]): void {
    for (const change of open.get(path) ?? [])
      if (isNamed(change.key, named) && isAncestor(change.commit.at, commit.at))
        change.settled = { how: 'stated later', commit }
  }

  /** Keeps changes that are not stated; and settles those before that are put back. */
  function keep(
    path: string,
    commit: CommitFacts,
    what: Change['what'],
    keyChanges: readonly KeyChange[],
    after: Keyed,
  ): void {
    const before = (open.get(path) ?? []).filter(({ settled }) => settled === undefined)
    for (const change of before)
      if (
        valuesAt(after, change.key.path).some((value) => isSame(value, change.key.before)) &&
        isAncestor(change.commit.at, commit.at)
      )
        change.settled = { how: 'put back', commit }
    const fresh = keyChanges.map((key): Change => {
      const putsBack = before.some(
        (change) => change.settled?.commit === commit && keyText(change.key.path) === keyText(key.path),
      )
      return { path, commit, what, key, ...(putsBack ? { settled: { how: 'puts back', commit } } : {}) }
    })
    changes.push(...fresh)
    const left = [...before, ...fresh].filter(({ settled }) => settled === undefined)
    if (left.length === 0) open.delete(path)
    else open.set(path, left.slice(-mostOpen))
  }

  return {
    changes,
    stated,
    notCompared,
    compare: (comparison: Comparison) => {
      comparisons.push(comparison)
    },
    read: (version: VersionWanted) => {
      wanted.push(version)
    },
    waiting: () => comparisons.length + wanted.length,
    /** Changes that a merge made by itself, in a record that its parents had too. */
    changedByMerge: (path: string, commit: CommitFacts, keyChanges: readonly KeyChange[], after: Keyed) => {
      const record = recordPathOf(path)
      const isEvent = record !== null && !('stray' in record) && statesCorrections(record.kind)
      keep(path, commit, isEvent ? 'event' : 'dated span', keyChanges, after)
    },
    readWaiting(): void {
      const [waiting, looked] = [comparisons, wanted]
      comparisons = []
      wanted = []
      const ids = [
        ...waiting.flatMap(({ before, after }) => [before, after]),
        ...looked.map(({ content }) => content),
      ]
      const read = new Map<string, Keyed | undefined>()
      const isRead = eachBlob(root, ids, largestRecord, (id, bytes) => {
        read.set(id, bytes === undefined ? undefined : recordIn(bytes))
      })
      if (!isRead)
        for (const { path, commit } of waiting)
          notCompared.push({
            says: `${path}: git could not read what commit ${shortId(commit)} changed`,
            commit,
          })
      for (const { content, tell } of looked) {
        const record = read.get(content)
        tell(record === undefined ? undefined : record.status === 'planned')
      }
      if (isRead) for (const one of waiting) compareVersions(one, read.get(one.before), read.get(one.after))
    },
  }
}

/** What a version of a record says; undefined where it cannot be read as one. */
export function recordIn(bytes: Uint8Array): Keyed | undefined {
  const read = readRecord(bytes)
  return 'data' in read ? read.data : undefined
}

/** Whether a change is at a key that a correction names, above it or below it. */
function touches({ path }: KeyChange, key: string): boolean {
  const changed = keyText(path)
  return changed === key || changed.startsWith(`${key}.`) || key.startsWith(`${changed}.`)
}
