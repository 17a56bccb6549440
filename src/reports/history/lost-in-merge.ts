import type { KeyChange, Keyed } from './changed-keys.js'
import { canonical, isKeyed, isListOfNames, own } from './changed-keys.js'

/** The same record in a parent of a merge, in the other one, where both parted, and in the merge; undefined: not there. */
export interface MergedRecord {
  readonly side: unknown
  readonly other: unknown
  readonly base: unknown
  readonly merged: unknown
}

/** Something of a record that a parent had and the merge has not. */
export interface LostEntry {
  readonly path: readonly string[]
  readonly value: unknown
}

/**
 * Entries that one parent of a merge had and the merge does not have. What both had before they parted, and the other
 * parent took out since, was taken out there and not by the merge.
 */
export function lostEntries(record: MergedRecord, path: readonly string[] = []): LostEntry[] {
  const { side, merged } = record
  if (isKeyed(side) && isKeyed(merged))
    return Object.keys(side).flatMap((key) => {
      const at = (of: unknown) => (isKeyed(of) ? own(of, key) : undefined)
      const inside = {
        side: at(side),
        other: at(record.other),
        base: at(record.base),
        merged: at(merged),
      }
      return inside.merged === undefined
        ? takenOut(inside)
          ? []
          : [{ path: [...path, key], value: inside.side }]
        : lostEntries(inside, [...path, key])
    })
  if (Array.isArray(side) && Array.isArray(merged)) return lostItems(record, side, merged, path)
  return []
}

function takenOut({ base, other }: Pick<MergedRecord, 'base' | 'other'>): boolean {
  return base !== undefined && other === undefined
}

/** Items of a list of names, of dated spans or of corrections: each by what names it. Positions have no names. */
function lostItems(
  { base, other }: MergedRecord,
  side: readonly unknown[],
  merged: readonly unknown[],
  path: readonly string[],
): LostEntry[] {
  if (!isListOfNames(side) && !side.every(isKeyed)) return []
  const has = (list: unknown, name: string) =>
    Array.isArray(list) && list.some((item) => nameOf(item) === name)
  return side
    .filter((item) => {
      const name = nameOf(item)
      return !has(merged, name) && !(has(base, name) && !has(other, name))
    })
    .map((item) => ({ path, value: item }))
}

function nameOf(item: unknown): string {
  if (!isKeyed(item)) return canonical(item)
  const from = own(item, 'from')
  if (typeof from === 'string') return `from ${from} ${canonical(others(item))}`
  return canonical(item)
}

/** What tells spans of one day apart without being what they say: the record they name. */
function others(item: Keyed): unknown {
  return [own(item, 'rulebook'), own(item, 'who')]
}

/** Values that a merge has and no parent had: what it changed by itself. Before: what the first parent had. */
export function changedByMerge(
  parents: readonly unknown[],
  merged: unknown,
  path: readonly string[] = [],
): KeyChange[] {
  if (isKeyed(merged))
    return Object.keys(merged).flatMap((key) =>
      changedByMerge(
        parents.map((parent) => (isKeyed(parent) ? own(parent, key) : undefined)),
        own(merged, key),
        [...path, key],
      ),
    )
  const before = parents.filter((parent) => parent !== undefined)
  if (before.some((parent) => canonical(parent) === canonical(merged)) || isPutTogether(before, merged))
    return []
  return [{ path, before: before[0], after: merged }]
}

/** A list each of whose items some parent had. */
function isPutTogether(parents: readonly unknown[], merged: unknown): boolean {
  if (!Array.isArray(merged) || parents.length === 0) return false
  const had = new Set(parents.flatMap((parent) => (Array.isArray(parent) ? parent.map(canonical) : [])))
  return merged.every((item) => had.has(canonical(item)))
}
