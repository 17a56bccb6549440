import type { FileChange, HistoryStep } from '../../files/git-history.js'
import { recordPathOf } from '../../records/paths.js'

export type RecordChange = FileChange

/**
 * What a commit changed by itself: what differs from its parent; in a merge, what differs from every parent, since the
 * rest was changed where it came from. Before: what the first parent that had it had.
 */
export function ownChanges({ differs }: HistoryStep): RecordChange[] {
  const [first = [], ...others] = differs
  if (others.length === 0) return [...first]
  const byParent = others.map((changes) => new Map(changes.map((change) => [change.path, change])))
  return first.flatMap((change) => {
    const all = byParent.map((changes) => changes.get(change.path))
    if (all.some((other) => other === undefined)) return []
    const before = [change, ...all].find((other) => other?.before != null)?.before ?? null
    return [{ ...change, before }]
  })
}

/** Whether a file lies where a record of the ledger lies. */
export function isRecord({ path }: Pick<RecordChange, 'path'>): boolean {
  const found = recordPathOf(path)
  return found !== null && !('stray' in found)
}
