import type { KeyChange } from './changed-keys.js'
import { canonical, isKeyed, own } from './changed-keys.js'

/** One entry under `corrections`, as far as it can be read; what it lacks is empty. */
export interface Stated {
  readonly on: string
  readonly by: string
  readonly why: string
  readonly keys: readonly string[]
}

/** Entries under `corrections` of a version of a record. */
export function statedIn(record: unknown): readonly unknown[] {
  const list = isKeyed(record) ? own(record, 'corrections') : undefined
  return Array.isArray(list) ? list : []
}

export function statedOf(entry: unknown): Stated {
  const text = (key: string) => {
    const value = isKeyed(entry) ? own(entry, key) : undefined
    return typeof value === 'string' ? value : ''
  }
  const keys = isKeyed(entry) ? own(entry, 'keys') : undefined
  return {
    on: text('on'),
    by: text('by'),
    why: text('why'),
    keys: Array.isArray(keys) ? keys.filter((key): key is string => typeof key === 'string') : [],
  }
}

/** Entries of the first that the second does not have; the same one twice counts twice. */
export function entriesBeyond(some: readonly unknown[], others: readonly unknown[]): unknown[] {
  const left = new Map<string, number>()
  for (const entry of others) left.set(canonical(entry), (left.get(canonical(entry)) ?? 0) + 1)
  return some.filter((entry) => {
    const many = left.get(canonical(entry)) ?? 0
    left.set(canonical(entry), many - 1)
    return many <= 0
  })
}

/** Whether a change is named: by its own key, by one above it, or by every key below it. */
export function isNamed({ path, before, after }: KeyChange, keys: readonly string[]): boolean {
  const above = path.map((_, at) => path.slice(0, at + 1).join('.'))
  if (above.some((key) => keys.includes(key))) return true
  const below = [before, after].flatMap((value) => (isKeyed(value) ? Object.keys(value) : []))
  return (
    below.length > 0 &&
    [...new Set(below)].every((key) =>
      isNamed(
        {
          path: [...path, key],
          before: isKeyed(before) ? own(before, key) : undefined,
          after: isKeyed(after) ? own(after, key) : undefined,
        },
        keys,
      ),
    )
  )
}
