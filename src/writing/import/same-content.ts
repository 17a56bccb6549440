import type { KeyPath } from '../../types.js'

/** The first part in which two records differ, with what each says there. */
export interface Difference {
  readonly path: KeyPath
  readonly there: unknown
  readonly here: unknown
}

/** Compares what two records say, whatever the order of keys, and of the devices in the list of those with nothing. */
export function firstDifference(there: unknown, here: unknown, path: KeyPath = []): Difference | undefined {
  if (isMap(there) && isMap(here)) {
    for (const key of [...new Set([...Object.keys(here), ...Object.keys(there)])]) {
      const found = firstDifference(there[key], here[key], [...path, key])
      if (found) return found
    }
    return undefined
  }
  return JSON.stringify(inOneOrder(there, path)) === JSON.stringify(inOneOrder(here, path))
    ? undefined
    : { path, there, here }
}

function inOneOrder(value: unknown, path: KeyPath): unknown {
  return Array.isArray(value) && path.at(-1) === 'none' ? [...value].sort() : value
}

function isMap(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
