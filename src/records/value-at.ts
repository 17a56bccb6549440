import type { KeyPath } from '../types.js'

/** What stands at a path of keys and indexes; undefined where the path leads nowhere. */
export function valueAt(data: unknown, path: KeyPath): unknown {
  let here = data
  for (const step of path) {
    if (typeof here !== 'object' || here === null) return undefined
    here = (here as Record<string | number, unknown>)[step]
  }
  return here
}
