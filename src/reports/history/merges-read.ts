import type { FileChange, HistoryStep } from '../../files/git-history.js'
import { eachBlob, namedObjects } from '../../files/git-history-objects.js'
import { largestRecord } from '../../files/source.js'
import { recordPathOf } from '../../records/paths.js'
import type { KeyChange, Keyed } from './changed-keys.js'
import { canonical, keyText } from './changed-keys.js'
import { partedAt } from './commit-graph.js'
import type { CommitFacts, Lost } from './facts.js'
import { shortId } from './facts.js'
import type { LostEntry } from './lost-in-merge.js'
import { changedByMerge, lostEntries } from './lost-in-merge.js'
import { isRecord, ownChanges } from './own-changes.js'
import { rewrittenSpans } from './past-spans.js'
import { recordIn, statesCorrections } from './versions-read.js'

/** A record that a merge does not have as one of its parents had it. */
interface Merged {
  readonly path: string
  readonly commit: CommitFacts
  /** The parent that had it, and what it held. */
  readonly parent: string
  readonly side: string
  /** What the merge holds; null where it has no such record. */
  readonly merged: string | null
  readonly others: readonly Other[]
}

/** Another parent: what it held, null where it had no such record, and the commits at which both parted. */
interface Other {
  readonly held: string | null
  readonly parted: readonly string[]
}

/** A record that a merge has as none of its parents had it. */
interface OwnWork {
  readonly path: string
  readonly commit: CommitFacts
  readonly parents: readonly (string | null)[]
  readonly merged: string
}

type KeepChanges = (path: string, commit: CommitFacts, changes: readonly KeyChange[], after: Keyed) => void

/** Looks at merges: what a parent had and the merge has not, and what the merge changed that no parent had. */
export function mergeReader(root: string, commits: readonly CommitFacts[], keepChanges: KeepChanges) {
  const lost: Lost[] = []
  const known = new Set<string>()
  /** The same thing had by two parents is lost once. */
  const lose = (one: Lost): void => {
    const name = [one.commit.id, one.path, keyText(one.key), canonical(one.value)].join('\n')
    if (!known.has(name)) lost.push(one)
    known.add(name)
  }
  const notCompared: { says: string; commit: CommitFacts }[] = []
  let waiting: Merged[] = []
  let ownWork: OwnWork[] = []

  function look(step: HistoryStep, commit: CommitFacts): void {
    if (step.cameFrom.length < 2) return
    const byParent = step.differs.map(
      (changes) => new Map(changes.filter(isRecord).map((one) => [one.path, one])),
    )
    // Files that no parent had: a record of such a content was renamed by the merge.
    const added = new Set(
      ownChanges(step).flatMap(({ before, after }) => (before === null ? (after ?? []) : [])),
    )
    const partedOf = remembered((pair: string) =>
      partedAt(commits, ...placesOf(pair)).map((at) => commits[at]?.id ?? ''),
    )
    for (const path of new Set(byParent.flatMap((changes) => [...changes.keys()]))) {
      const changes = byParent.map((one) => one.get(path))
      const merged = changes.find((change) => change !== undefined)?.after ?? null
      const held = changes.map((change) => (change === undefined ? merged : change.before))
      lookAtSides({ path, commit, step, changes, held, merged, added, partedOf })
      if (
        merged !== null &&
        changes.every((change) => change !== undefined) &&
        held.some((one) => one !== null)
      )
        ownWork.push({ path, commit, parents: held, merged })
    }
  }

  function lookAtSides(record: Looked): void {
    const { path, commit, step, changes, held, merged, added, partedOf } = record
    for (const [n, change] of changes.entries()) {
      const side = change?.before
      // A record that has another name in the merge is not lost.
      if (side == null || (merged === null && added.has(side))) continue
      const others = held.flatMap((other, at) =>
        at === n ? [] : [{ held: other, parted: partedOf(`${commit.cameFrom[n]} ${commit.cameFrom[at]}`) }],
      )
      waiting.push({ path, commit, parent: step.cameFrom[n] ?? '', side, merged, others })
    }
  }

  function readWaiting(): void {
    const [sides, own] = [waiting, ownWork]
    waiting = []
    ownWork = []
    const names = sides.flatMap(({ others, path }) =>
      others.flatMap(({ parted }) => parted.map((base) => `${base}:./${path}`)),
    )
    const found = namedObjects(root, names)
    if (found === null) {
      for (const { path, commit } of sides) notCompared.push(unreadable(path, commit))
      return
    }
    const objects = new Map(
      names.map((name, n) => [name, found[n]?.kind === 'blob' ? found[n].id : undefined]),
    )
    const basesOf: BasesOf = ({ parted }, path) => parted.map((base) => objects.get(`${base}:./${path}`))
    const inside = sides.filter((record) => !isWholeTold(record, basesOf))
    const read = new Map<string, Keyed | undefined>()
    const ids = [
      ...inside.flatMap(({ path, side, merged, others }) => [
        side,
        merged,
        ...others.flatMap((other) => [other.held, ...basesOf(other, path)]),
      ]),
      ...own.flatMap(({ parents, merged }) => [...parents, merged]),
    ]
    const isRead = eachBlob(
      root,
      ids.filter((id) => id != null),
      largestRecord,
      (id, bytes) => {
        read.set(id, bytes === undefined ? undefined : recordIn(bytes))
      },
    )
    const contentOf = (id: string | null | undefined) => (id == null ? undefined : read.get(id))
    if (!isRead) for (const { path, commit } of inside) notCompared.push(unreadable(path, commit))
    else {
      for (const record of inside) lookInside(record, basesOf, contentOf)
      for (const record of own) lookAtOwnWork(record, contentOf)
    }
  }

  /** Whether the names of files alone tell all there is to tell, and if the whole record is lost, keeps that. */
  function isWholeTold(record: Merged, basesOf: BasesOf): boolean {
    const { path, commit, parent, side, merged, others } = record
    if (merged !== null) return others.some((other) => basesOf(other, path).includes(side))
    const isTakenOut = others.some(
      (other) => other.held === null && basesOf(other, path).some((base) => base !== undefined),
    )
    if (isTakenOut) return true
    const isCut = commits.some(({ isCutOff }) => isCutOff)
    if (isCut && others.some(({ parted }) => parted.length === 0))
      notCompared.push({
        says: `${path}: whether merge ${shortId(commit)} lost it, since the place where its parents parted is not in this clone`,
        commit,
      })
    else lose({ path, commit, parent, key: [], value: undefined })
    return true
  }

  /** What is lost is so against every other parent: one that took it out since both parted is enough. */
  function lookInside(record: Merged, basesOf: BasesOf, contentOf: ContentOf): void {
    const { path, commit, parent, others } = record
    const [side, merged] = [contentOf(record.side), contentOf(record.merged)]
    if (!side || !merged) {
      notCompared.push(unreadable(path, commit))
      return
    }
    const [first = [], ...rest] = others.map((other) =>
      lostEntries({
        side,
        merged,
        other: contentOf(other.held),
        base: contentOf(basesOf(other, path).find((base) => base !== undefined)),
      }),
    )
    const nameOf = (entry: LostEntry) => `${keyText(entry.path)} ${canonical(entry.value)}`
    const entries = first.filter((entry) =>
      rest.every((list) => list.some((one) => nameOf(one) === nameOf(entry))),
    )
    for (const { path: key, value } of entries) lose({ path, commit, parent, key, value })
  }

  function lookAtOwnWork({ path, commit, parents, merged }: OwnWork, contentOf: ContentOf): void {
    const record = recordPathOf(path)
    const after = contentOf(merged)
    const before = parents.map(contentOf).filter((one) => one !== undefined)
    if (!after || before.length === 0 || record === null || 'stray' in record) return
    if (statesCorrections(record.kind)) {
      keepChanges(path, commit, changedByMerge(before, after), after)
      return
    }
    const [first = [], ...others] = before.map((one) => rewrittenSpans(one, after, commit.committerDay ?? 0))
    const inAll = first.filter(({ path: key }) =>
      others.every((list) => list.some((change) => keyText(change.path) === keyText(key))),
    )
    keepChanges(path, commit, inAll, after)
  }

  return { lost, notCompared, look, readWaiting, waiting: () => waiting.length + ownWork.length }
}

type BasesOf = (other: Other, path: string) => readonly (string | undefined)[]
type ContentOf = (id: string | null | undefined) => Keyed | undefined

interface Looked {
  readonly path: string
  readonly commit: CommitFacts
  readonly step: HistoryStep
  readonly changes: readonly (FileChange | undefined)[]
  readonly held: readonly (string | null)[]
  readonly merged: string | null
  readonly added: ReadonlySet<string>
  readonly partedOf: (pair: string) => readonly string[]
}

function placesOf(pair: string): [number, number] {
  const [first = 0, second = 0] = pair.split(' ').map(Number)
  return [first, second]
}

function remembered<T>(make: (key: string) => T): (key: string) => T {
  const known = new Map<string, T>()
  return (key) => {
    const before = known.get(key)
    if (before !== undefined) return before
    const made = make(key)
    known.set(key, made)
    return made
  }
}

function unreadable(path: string, commit: CommitFacts): { says: string; commit: CommitFacts } {
  return {
    says: `${path}: a version that merge ${shortId(commit)} brought together cannot be read as a record`,
    commit,
  }
}
