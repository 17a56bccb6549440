/**
 * What differs between two versions of a record, by keys and never by lines: another layout or another order of keys is
 * no difference.
 */
export interface KeyChange {
  /** Keys from the top of the record, and positions in lists. */
  readonly path: readonly string[]
  /** Undefined where there was nothing. */
  readonly before: unknown
  /** Undefined where there is nothing any more. */
  readonly after: unknown
}

export type Keyed = Readonly<Record<string, unknown>>

/** The topmost keys that differ, in the order of the first version and then of the second. */
export function changedKeys(before: unknown, after: unknown, path: readonly string[] = []): KeyChange[] {
  if (isKeyed(before) && isKeyed(after)) {
    const keys = new Set([...Object.keys(before), ...Object.keys(after)])
    return [...keys].flatMap((key) => changedKeys(own(before, key), own(after, key), [...path, key]))
  }
  if (isListOfMaps(before) && isListOfMaps(after) && before.length === after.length)
    return before.flatMap((item, at) => changedKeys(item, after[at], [...path, String(at)]))
  return isSame(before, after) ? [] : [{ path, before, after }]
}

export function isKeyed(value: unknown): value is Keyed {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

export function own(map: Keyed, key: string): unknown {
  return Object.hasOwn(map, key) ? map[key] : undefined
}

function isListOfMaps(value: unknown): value is readonly Keyed[] {
  return Array.isArray(value) && value.length > 0 && value.every(isKeyed)
}

/** Whether two values say the same. Names in a list say the same in any order; positions and days in a list do not. */
export function isSame(a: unknown, b: unknown): boolean {
  return canonical(a) === canonical(b)
}

/** One text for all values that say the same. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) {
    const items = value.map(canonical)
    return `[${(isListOfNames(value) ? items.sort() : items).join(',')}]`
  }
  if (!isKeyed(value)) return JSON.stringify(value) ?? 'undefined'
  const keys = Object.keys(value).sort()
  return `{${keys.map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`).join(',')}}`
}

export function isListOfNames(value: unknown): value is readonly string[] {
  return (
    Array.isArray(value) &&
    value.every((item) => typeof item === 'string' && /^[A-Za-z][A-Za-z0-9-]*$/.test(item))
  )
}

/** A key path as `corrections` name it: keys joined by dots. */
export function keyText(path: readonly string[]): string {
  return path.join('.')
}

/** A value as a record would write it on one line; null where there is none. */
export function valueText(value: unknown): string | null {
  return value === undefined ? null : flow(value)
}

function flow(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`
  if (!isKeyed(value)) return String(value)
  return `{${Object.entries(value)
    .map(([key, inner]) => `${key}: ${flow(inner)}`)
    .join(', ')}}`
}
