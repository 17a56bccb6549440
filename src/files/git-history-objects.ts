import { git } from './git.js'

/** What git keeps under one id: its kind, and its bytes. */
export interface GitObject {
  readonly kind: string
  readonly bytes: Buffer
}

/**
 * Reads objects by their ids, in one process. Undefined for one that is not in this clone; null when git failed as a
 * whole. Nothing is filtered or converted on the way.
 */
export function readObjects(root: string, ids: readonly string[]): readonly (GitObject | undefined)[] | null {
  if (ids.length === 0) return []
  const output = git(root, ['cat-file', '--batch'], `${ids.join('\n')}\n`)
  if (output === null) return null
  const found: (GitObject | undefined)[] = []
  let at = 0
  for (let n = 0; n < ids.length; n++) {
    const end = output.indexOf(10, at)
    const [, kind, size] = /^[0-9a-f]+ ([a-z]+) (\d+)$/.exec(output.toString('latin1', at, end)) ?? []
    if (kind === undefined || size === undefined) {
      found.push(undefined)
      at = end + 1
      continue
    }
    found.push({ kind, bytes: output.subarray(end + 1, end + 1 + Number(size)) })
    at = end + 1 + Number(size) + 1
  }
  return found
}

/** What stands at a name such as `<commit>:<path>`. */
export interface ObjectName {
  readonly id: string
  readonly kind: string
  /** Bytes. */
  readonly size: number
}

/** Looks names up without reading what they stand for. Undefined for a name that stands for nothing. */
export function namedObjects(
  root: string,
  names: readonly string[],
): readonly (ObjectName | undefined)[] | null {
  if (names.length === 0) return []
  const output = git(root, ['cat-file', '--batch-check'], `${names.join('\n')}\n`)
  if (output === null) return null
  const lines = output.toString('latin1').split('\n')
  return names.map((_, n) => {
    const [, id, kind, size] = /^([0-9a-f]+) ([a-z]+) (\d+)$/.exec(lines[n] ?? '') ?? []
    return id === undefined || kind === undefined ? undefined : { id, kind, size: Number(size) }
  })
}

/** Bytes that are held at once at most, unless a single file is larger. */
const mostAtOnce = 16 * 1024 * 1024

/**
 * Hands over the contents of blobs, some at a time, so that memory does not grow with their number. A blob that is
 * larger than `atMost`, or is not in this clone, is handed over as undefined. False when git failed.
 */
export function eachBlob(
  root: string,
  ids: Iterable<string>,
  atMost: number,
  each: (id: string, bytes: Buffer | undefined) => void,
): boolean {
  const all = [...new Set(ids)]
  const sizes = namedObjects(root, all)
  if (sizes === null) return false
  let together: string[] = []
  let bytes = 0
  const read = (): boolean => {
    const contents = readObjects(root, together)
    if (contents === null) return false
    together.forEach((id, n) => {
      each(id, contents[n]?.bytes)
    })
    together = []
    bytes = 0
    return true
  }
  for (const [n, id] of all.entries()) {
    const named = sizes[n]
    if (named?.kind !== 'blob' || named.size > atMost) {
      each(id, undefined)
      continue
    }
    if (bytes + named.size > mostAtOnce && !read()) return false
    together.push(id)
    bytes += named.size
  }
  return read()
}

/** A file of the ledger as the last commit has it; or why there is none. */
export function committedFile(root: string, path: string): Buffer | 'no git' | 'no commit' | 'not committed' {
  if (git(root, ['rev-parse', '--is-inside-work-tree']) === null) return 'no git'
  if (git(root, ['rev-parse', '--verify', '--quiet', 'HEAD^{commit}']) === null) return 'no commit'
  const [named] = namedObjects(root, [`HEAD:./${path}`]) ?? []
  if (named?.kind !== 'blob') return 'not committed'
  return readObjects(root, [named.id])?.[0]?.bytes ?? 'not committed'
}
